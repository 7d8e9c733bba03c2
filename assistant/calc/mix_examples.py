"""Example inputs of seed mixes and small seed, in SI units: one per outcome."""

from collections.abc import Mapping

from assistant.calc.calculation import Inputs, Value

RATES: dict[str, Value] = {"species_rates": (0.0034, 0.0022, 0.0003)}
SIZES: dict[str, Value] = {"species_seed_sizes": (33000.0, 4400.0, 500_000.0)}
LIVE: dict[str, Value] = {"species_live_shares": (0.9, 0.88, 0.8)}
SAMPLED: dict[str, Value] = {
    **SIZES,
    "first_sample": (0.05, 0.03, 0.004),
    "sorting_least": 0.2,
    "sorting_sure": 0.95,
    "seeds_least": 5.0,
    "one_seed": 1.0,
}

EXAMPLES: Mapping[str, tuple[Inputs, ...]] = {
    "mix_total": (RATES, {"species_rates": (0.003,)}),
    "live_kinds": tuple({"species_live_rates": rates} for rates in ((0.003, 0.002), (0.003,))),
    "mix_seeds": (
        {**RATES, **SIZES, **LIVE},
        {**RATES, **SIZES, "species_live_shares": (0.9,)},
    ),
    "mix_live_shares": (
        {"species_purity": (0.98, 0.99), "species_germination": (0.9, 0.85)},
        {"species_purity": (0.98,), "species_germination": (0.9, 0.85)},
    ),
    "two_boxes": tuple(
        {**RATES, "small_box_species": places} for places in ((2.0, 3.0), (4.0,), (1.0, 2.0, 3.0))
    ),
    "mix_from_parts": tuple(
        {"species_parts": parts, "mix_in_all": 0.006, "parts_within": 0.02}
        for parts in ((0.6, 0.4), (0.6, 0.3))
    ),
    "mix_from_live": (
        {"species_live_rates": (0.003, 0.002, 0.0003), **LIVE},
        {"species_live_rates": (0.003,), **LIVE},
    ),
    "mix_sorting": (
        {**SAMPLED, "second_sample": (0.051, 0.031, 0.0041)},
        {**SAMPLED, "second_sample": (0.05, 0.03, 0.001)},
        {**SAMPLED, "second_sample": (0.05, 0.0, 0.004), "first_sample": (0.05, 0.0002, 0.004)},
        {**SAMPLED, "second_sample": (0.05, 0.03)},
    ),
    "propose_small_catch": tuple(
        {
            "bulk_rate": 0.0017,
            "row_spacing": 0.19,
            "distance_per_turn": 2.0,
            "scale_step": step,
            "drive_rows": 24.0,
            "marks_wanted": 100.0,
            "small_rows_wanted": 12.0,
            "small_distance": 61.0,
            "even_turns": 2.0,
            "tolerance": 0.05,
            "one_row": 1.0,
            "one_turn": 1.0,
            "turns_most": 200.0,
        }
        for step in (0.0001, 0.005)
    ),
    "live_share_uncoated": (
        {"live_seed_share": 0.585, "purity": 0.65, "coating": 0.34},
        {"live_seed_share": 0.675, "purity": 0.75, "coating": 0.34},
    ),
    "often_coated": tuple(
        {"seeds_per_weight": size, "coated_from": 330_000.0} for size in (485_000.0, 27_500.0)
    ),
    "kinds_often_coated": tuple(
        {"species_seed_sizes": sizes, "coated_from": 330_000.0}
        for sizes in ((30000.0, 485_000.0), (30000.0, 4400.0))
    ),
    "mix_live_uncoated": tuple(
        {"species_live_shares": (0.882, 0.585), "species_purity": purity, "species_coating": coat}
        for purity, coat in (
            ((0.98, 0.65), (0.0, 0.34)),
            ((0.98, 0.65), (0.0, 0.0)),
            ((0.98, 0.75), (0.0, 0.34)),
            ((0.98, 0.65), (0.34,)),
        )
    ),
    "mix_coated_sizes": tuple(
        {"bare_seed_sizes": (30000.0, 485_000.0), "species_coating": coat}
        for coat in ((0.0, 0.34), (0.34,))
    ),
    "coated_seed_size": ({"bare_seeds_per_weight": 485_000.0, "coating": 0.34},),
}
