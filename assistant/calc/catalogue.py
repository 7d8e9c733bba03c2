"""Every calculation of the trade, by its name."""

from collections.abc import Callable, Mapping
from typing import Any

from assistant.calc import (
    ahead,
    bushels,
    catch_examples,
    foretold,
    judging,
    lever,
    live_seed,
    mix_examples,
    mixes,
    openings,
    plan,
    room,
    room_examples,
    rows,
    rows_examples,
    setting,
    strip,
    tag,
    target,
    target_examples,
    way,
    way_examples,
    wheel,
)
from assistant.calc.calculation import Calculation

__all__ = ["CATALOGUE", "Calculation"]

REVISIONS: Mapping[Callable[..., Any], int] = {
    target.rate_as_told: 1,
    target.seeds_as_told: 1,
    target.plants_as_told: 1,
    target.row_seeds_to_area: 1,
    target.row_plants_to_area: 1,
    target.seeds_on_the_row: 1,
    target.plants_on_the_row: 1,
    target.seeds_for_plants: 1,
    target.rate_from_seeds: 1,
    target.rate_from_pure_seeds: 1,
    target.seeds_from_rate: 1,
    target.rate_from_live_weight: 1,
    target.rate_from_bushels: 1,
    target.purity_matters: 1,
    live_seed.live_share: 1,
    live_seed.rate_from_live_seeds: 1,
    bushels.compare_bushels: 1,
    tag.counted_seeds: 1,
    wheel.rolled_distance_per_turn: 1,
    wheel.axle_distance_per_turn: 1,
    plan.whole_rows: 1,
    plan.half_rows: 1,
    plan.tub_on_scale: 1,
    plan.propose_catch: 1,
    plan.ground: 1,
    plan.expected_catch: 1,
    plan.expected_reading: 1,
    plan.enough_to_weigh: 1,
    judging.judge: 1,
    judging.catches_apart: 1,
    judging.early_card: 1,
    rows.rows_told: 1,
    rows.row_pattern: 1,
    rows.rows_left_open_by_these: 1,
    openings.next_opening: 2,
    lever.next_lever_mark: 2,
    setting.what_is_set: 1,
    way.turned_by_hand: 1,
    way.no_halves: 1,
    way.crank_distance_per_turn: 1,
    way.propose_rows: 1,
    way.enough_marks: 1,
    strip.strip_ground: 1,
    setting.final_setting: 1,
    ahead.opening_ahead: 2,
    ahead.mark_ahead: 2,
    room.same_crop: 1,
    room.room_by_tubs: 1,
    room.room_by_test_weight: 1,
    room.room_by_trade: 1,
    room.room_as_before: 1,
    room.foretell_rate: 1,
    room.foretell_seeds: 1,
    room.foretell_opening: 1,
    room.foretell_mark: 1,
    room.opening_by_same_share: 1,
    foretold.opening_as_foretold: 1,
    foretold.mark_as_foretold: 1,
    mixes.mix_total: 1,
    mixes.mix_live_shares: 1,
    mixes.mix_from_live: 1,
    mixes.mix_seeds: 1,
    mixes.two_boxes: 1,
    mixes.mix_sorting: 1,
}
"""Each calculation with its revision: up by one whenever the same inputs give another result."""

_EXAMPLES = {
    **target_examples.EXAMPLES,
    **catch_examples.EXAMPLES,
    **room_examples.EXAMPLES,
    **rows_examples.EXAMPLES,
    **mix_examples.EXAMPLES,
    **way_examples.EXAMPLES,
}

CATALOGUE: dict[str, Calculation] = {
    function.__name__: Calculation(
        function.__name__, function, revision, _EXAMPLES[function.__name__]
    )
    for function, revision in REVISIONS.items()
}
