"""Ratio suspects: each found again in random catches that were made with its slip in them."""

import random
from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction
from math import exp, log, pi

import pytest

from assistant.calc import suspects
from assistant.calc.suspect_ratios import FIXED
from assistant.quantities.units import factor
from tests.calc.us import FT, IN, LB, LB_AC, us

SCATTER = 0.02
CASES = 100
VISIBLE = 3 * SCATTER
"""A slip that moves the rate by less than three scatters is taken for the setting."""


@dataclass(frozen=True, slots=True)
class Told:
    """What a person told of one catch; SI units. True until a slip is put in."""

    weight: float
    ground: float
    rate: float
    tare: float
    rows_caught: float
    row_count: float
    germination: float
    live_seed_share: float
    test_weight: float
    trade_bushel: float

    @property
    def found(self) -> float:
        return self.weight / self.ground / self.rate


def a_catch(chance: random.Random) -> Told:
    """A drill that is set right, and a catch that scatters."""
    row_count = float(chance.choice((12, 16, 20, 24, 30, 36, 48)))
    rows = float(chance.choice([n for n in (3, 4, 6, 8, 10, 12) if n <= row_count / 2]))
    spacing = chance.choice((6, 7, 7.5, 8, 10)) * float(IN)
    ground = rows * spacing * chance.randint(20, 60) * chance.uniform(70, 90) * float(IN)
    rate = chance.uniform(40, 120) * float(LB_AC)
    weight = rate * ground * exp(chance.gauss(0, SCATTER))
    return Told(
        weight,
        ground,
        rate,
        chance.uniform(0.3, 3) * float(LB),
        rows,
        row_count,
        chance.uniform(0.6, 0.98),
        chance.uniform(0.4, 0.95),
        chance.uniform(0.8, 1.2) * 772,
        772.0,
    )


def either(ratio: float) -> Callable[[Told, random.Random], Told]:
    """A unit or a figure told so much too large, or too small."""

    def slip(true: Told, chance: random.Random) -> Told:
        times = ratio if chance.random() < 0.5 else 1 / ratio
        return replace(true, weight=true.weight * times)

    return slip


def other_rows(true: Told, rows: float) -> Told:
    return replace(true, rows_caught=rows, ground=true.ground * rows / true.rows_caught)


def rows_for_rows(true: Told, chance: random.Random) -> Told:
    """The rows on the drill in the sum for those caught; or seed of all rows in the tub.

    Who looks for a fault counts the tubes, so the rows caught are told right by then.
    """
    if chance.random() < 0.5:
        return replace(true, ground=true.ground * true.row_count / true.rows_caught)
    return replace(true, weight=true.weight * true.row_count / true.rows_caught)


def one_row_off(true: Told, chance: random.Random) -> Told:
    return other_rows(true, true.rows_caught + chance.choice((-1.0, 1.0)))


def tub(true: Told, chance: random.Random) -> Told:
    """The tub left in the weight, or taken off twice."""
    sign = 1 if chance.random() < 0.5 else -1
    return replace(true, weight=true.weight + sign * true.tare)


def share_twice(name: str) -> Callable[[Told, random.Random], Told]:
    def slip(true: Told, chance: random.Random) -> Told:
        share = getattr(true, name)
        times = share if chance.random() < 0.5 else 1 / share
        return replace(true, rate=true.rate / times)

    return slip


def other_bushel(true: Told, chance: random.Random) -> Told:
    own = true.test_weight / true.trade_bushel
    return replace(true, rate=true.rate * (own if chance.random() < 0.5 else 1 / own))


def ounces_as_decimal(true: Told, chance: random.Random) -> Told:
    """A scale that shows pounds and whole ounces, typed with a point; or one with a point.

    Under a pound it shows ounces alone, and there is no slip.
    """
    pounds = true.weight / float(LB)
    if pounds < 1:
        return true
    if chance.random() < 0.5:
        whole, ounces = divmod(round(pounds * 16), 16)
        return replace(true, weight=us(f"{whole}.{ounces}", LB))
    whole, tenths = divmod(round(pounds * 10), 10)
    return replace(true, weight=float((whole + Fraction(tenths, 16)) * LB))


SLIPS: dict[str, Callable[[Told, random.Random], Told]] = {
    **{name: either(ratio) for name, ratio in FIXED.items()},
    "rows_for_rows": rows_for_rows,
    "one_row_off": one_row_off,
    "germination_twice": share_twice("germination"),
    "live_share_twice": share_twice("live_seed_share"),
    "other_bushel": other_bushel,
    "tub": tub,
    "ounces_as_decimal": ounces_as_decimal,
}

Found = suspects.OneSuspect | suspects.Tied | suspects.NoSuspect


def suspected(told: Told, scatter: float = SCATTER, catches: float = 1.0) -> Found:
    return suspects.ratio_suspects(
        found_ratio=told.found,
        told_pounds=told.weight / float(LB),
        tub_share=told.tare / told.weight,
        rows_ratio=told.row_count / told.rows_caught,
        row_share=1 / told.rows_caught,
        germination_told=told.germination,
        live_share_told=told.live_seed_share,
        bushel_ratio=told.test_weight / told.trade_bushel,
        catches_made=catches,
        catch_scatter=scatter,
        suspects_within=0.1,
        sure=0.95,
    )


def first_tie(found: Found) -> tuple[str, ...]:
    return found.suspects_shown if isinstance(found, suspects.OneSuspect | suspects.Tied) else ()


def all_fitting(found: Found) -> tuple[str, ...]:
    if isinstance(found, suspects.OneSuspect | suspects.Tied):
        return (*found.suspects_shown, *found.suspects_left)
    return ()


def with_the_slip(name: str, chance: random.Random) -> Told:
    """A random catch with this slip in it, such that somebody would ask what is wrong."""
    while True:
        true = a_catch(chance)
        told = SLIPS[name](true, chance)
        if told.weight > 0 and abs(log(told.found) - log(true.found)) > VISIBLE:
            return told


@pytest.mark.parametrize("name", SLIPS)
def test_the_slip_that_was_made_is_first_or_in_the_first_tie(name: str) -> None:
    chance = random.Random(f"slip {name}")
    ties = [first_tie(suspected(with_the_slip(name, chance))) for _ in range(CASES)]
    right = sum(name in tie for tie in ties)
    alone = sum(tie == (name,) for tie in ties)
    print(f"{name}: {right} of {CASES} in the first tie, {alone} alone, mean size", end=" ")
    print(f"{sum(map(len, ties)) / CASES:.1f}")
    assert right >= 90


def test_two_catches_make_smaller_ties_than_one() -> None:
    chance = random.Random("two catches")
    told = [with_the_slip("rate_units", chance) for _ in range(CASES)]
    one = [len(first_tie(suspected(each))) for each in told]
    four = [len(first_tie(suspected(each, catches=4.0))) for each in told]
    assert sum(four) < sum(one)


def test_every_fixed_ratio_is_that_of_exact_units() -> None:
    acre = factor("ac")
    assert {
        "pounds_kilograms": factor("kg") / factor("lb"),
        "acres_hectares": factor("ha") / acre,
        "feet_metres": factor("m") / factor("ft"),
        "square_feet_metres": factor("m^2") / factor("ft^2"),
        "inches_feet": factor("ft") / factor("in"),
        "ounces_pounds": factor("lb") / factor("oz"),
        "grams_ounces": factor("oz") / factor("g"),
        "rate_units": factor("lb/ac") / factor("kg/ha"),
    }.items() <= {name: pytest.approx(ratio, rel=1e-12) for name, ratio in FIXED.items()}.items()
    listed = (2, 4, 2.2, 2.47, pi, 2 * pi, 3.28, 10, 10.76, 12, 16, 28.35, 1.12)
    for ratio in listed:
        assert any(abs(each - ratio) < 0.006 for each in FIXED.values())
    assert len({round(each, 6) for each in FIXED.values()}) == len(listed)


QUIET = Told(
    weight=us("1.4", LB),
    ground=us(745, FT * FT),
    rate=us("1.4", LB) / us(745, FT * FT),
    tare=0.0,
    rows_caught=6.0,
    row_count=24.0,
    germination=1.0,
    live_seed_share=1.0,
    test_weight=772.0,
    trade_bushel=772.0,
)
"""A catch in grams, right on target, with no number that a slip could have been made with."""


@pytest.mark.parametrize(
    ("ratio", "first"),
    [
        (2.0, ("half_the_drill", "radius_for_diameter", "turns_counted_twice")),
        (0.25, ("quarter_caught", "rows_for_rows")),
        (2.47, ("acres_hectares",)),
        (3.14, ("diameter_as_distance",)),
        (3.2, ("diameter_as_distance", "feet_metres")),
        (1 / 6.28, ("radius_as_distance",)),
        (10.0, ("decimal_point",)),
        (10.38, ("square_feet_metres", "decimal_point")),
        (12.0, ("inches_feet",)),
        (1 / 16, ("ounces_pounds",)),
        (28.0, ("grams_ounces",)),
        (1.17, ("one_row_off",)),
        (1.15, ("one_row_off", "rate_units")),
    ],
)
def test_the_nearest_comes_first_and_what_the_catch_cannot_tell_is_tied(
    ratio: float, first: tuple[str, ...]
) -> None:
    found = suspected(replace(QUIET, weight=QUIET.weight * ratio * (1 + 1e-4)))
    tie = first_tie(found)
    assert set(first) <= set(tie)
    assert len(tie) - len(first) <= 3
    assert tie[0] == first[0] or abs(ratio) in (2.0, 0.25)


def test_numbers_that_cannot_be_wrong_leave_their_suspects_out() -> None:
    for ratio in (1.05, 1.2, 0.85, 0.5, 3.0):
        found = all_fitting(suspected(replace(QUIET, weight=QUIET.weight * ratio)))
        assert not {"germination_twice", "live_share_twice", "other_bushel", "tub"} & set(found)


def test_with_one_row_caught_a_row_fewer_is_no_row_and_no_suspect() -> None:
    told = replace(a_catch(random.Random(3)), rows_caught=1.0)
    far = replace(told, weight=told.weight * 2)
    assert "one_row_off" in all_fitting(suspected(far))  # one row more: 2 times


def test_an_odd_ratio_has_no_suspect() -> None:
    assert isinstance(suspected(replace(QUIET, weight=QUIET.weight * 7.9)), suspects.NoSuspect)


@pytest.mark.parametrize(
    ("told", "meant"),
    [
        ("1.3", Fraction(19, 16)),  # 1 lb 3 oz
        ("1.10", Fraction(26, 16)),  # 1 lb 10 oz
        ("2.15", Fraction(47, 16)),  # 2 lb 15 oz
        ("1.1875", Fraction(13, 10)),  # told 1 lb 3 oz, shown 1.3
        ("1.75", Fraction(112, 100)),  # told 1 lb 12 oz, shown 1.12
    ],
)
def test_ounces_behind_a_point_are_tested_on_the_very_weight(told: str, meant: Fraction) -> None:
    weight, true = us(told, LB), us(str(meant), LB)
    found = suspected(replace(QUIET, weight=weight, rate=true / QUIET.ground))
    assert isinstance(found, suspects.OneSuspect | suspects.Tied)
    assert "ounces_as_decimal" in first_tie(found)


@pytest.mark.parametrize("grams", [0.5, 0.331, 1.3])
def test_a_weight_that_is_no_pounds_and_ounces_is_not_suspected_of_it(grams: float) -> None:
    found = suspected(replace(QUIET, weight=grams, rate=grams / QUIET.ground / 1.25))
    assert "ounces_as_decimal" not in all_fitting(found)


def test_what_is_not_tied_with_the_first_is_left_for_later_and_none_comes_twice() -> None:
    chance, some_left = random.Random("ties"), 0
    for _ in range(200):
        found = suspected(with_the_slip(chance.choice(list(SLIPS)), chance))
        if isinstance(found, suspects.OneSuspect | suspects.Tied):
            fitting = all_fitting(found)
            assert found.suspects_listed == len(found.suspects_shown)
            assert len(fitting) == len(set(fitting))
            some_left += bool(found.suspects_left)
            later = suspects.next_suspects(suspects_left=found.suspects_left)
            assert later == (
                suspects.MoreSuspects(found.suspects_left, float(len(found.suspects_left)))
                if found.suspects_left
                else suspects.NoneLeft()
            )
    assert some_left > 20


def test_a_suspect_is_named_by_its_number() -> None:
    shown = ("tub", "decimal_point", "inches_feet")
    named = [suspects.suspect_named(suspects_shown=shown, suspect_number=n) for n in (1.0, 3.0)]
    assert named == [suspects.Named("tub"), suspects.Named("inches_feet")]


def test_a_suspect_as_near_to_the_first_as_a_catch_scatters_is_tied_with_it() -> None:
    # 184 for 80 is 2.3 times: pounds for kilos 2.2046, 11 of 24 rows 2.1818, 1 % from each other.
    found = suspected(replace(QUIET, weight=QUIET.weight * 2.3, rows_caught=11.0, row_count=24.0))
    assert {"pounds_kilograms", "rows_for_rows"} <= set(first_tie(found))
