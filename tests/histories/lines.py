"""Lines that fit the open question: every choice, every kind of target, catches near and far."""

from __future__ import annotations

from random import Random

from assistant.dialogue.job import Job, State
from assistant.dialogue.questions import caution_word, proposals
from assistant.dialogue.situation import Open
from assistant.quantities.units import factor

VALUES = {
    "drill": ("the hill drill", "the yard drill", "the long drill", "a red drill"),
    "row_count": ("24 rows", "12 rows", "30 rows"),
    "row_spacing": ("7.5 in", "6 in", "18 cm"),
    "crop": ("wheat", "oats", "barley"),
    "lot": ("lot 4471", "lot 88"),
    "target": (
        "80 lb/ac",
        "28 plants/ft2",
        "350 seeds/m2",
        "1.5 bu/ac",
        "40 lb PLS/ac",
        "25 pure live seeds/ft2",
        "20 seeds per foot",
        "14 plants per foot",
        "95 kg/ha",
    ),
    "seeds_per_weight": ("12500 seeds/lb", "15200 seeds/lb", "30000 seeds/kg"),
    "seeds_counted": ("100 100 100", "100 101 100", "200"),
    "tag_size": ("2800 seeds/lb", "165 g"),
    "counted_weight": ("3.6 g 3.7 g 3.6 g", "3.6 g 5.1 g 3.6 g", "7.2 g"),
    "germination": ("92 %", "85 %"),
    "emergence": ("85 %", "70 %"),
    "purity": ("98 %", "86 %"),
    "coating": ("34 %", "20 %"),
    "hard_seed": ("7 %", "0 %", "20 %"),
    "test_weight": ("58 lb/bu", "60 lb/bu"),
    "trade_bushel": ("60 lb/bu", "56 lb/bu"),
    "rolled_turns": ("10 turns", "5 turns"),
    "outlet_towers": ("2", "1", "3 towers"),
    "rolled_distance": ("66 ft 3 in", "21 m"),
    "distance_per_turn": ("81.5 in", "2 m"),
    "axle_height": ("13 in", "34 cm"),
    "crank_turns": ("58 turns", "66.7 turns"),
    "crank_area": ("1/10 ac", "200 m2"),
    "teeth_offered": ("15 18 20 24", "18 20"),
    "start_teeth": ("18", "20"),
    "teeth": ("18", "20"),
    "gear_teeth": ("18", "20"),
    "strip_distance": ("145.2 ft", "100 m", "60 ft"),
    "scale_step": ("0.01 lb", "1 g", "0.05 lb"),
    "tare": ("0 lb", "0.5 lb"),
    "rows_caught": ("6 rows", "2 rows", "8 rows"),
    "turns": ("30 turns", "60 turns", "6 turns"),
    "lever_top": ("10", "100"),
    "widest_opening": ("40 mm", "20 mm", "1.5 in"),
    "lever_step": ("0.5", "1"),
    "start_opening": ("14 mm", "20 mm", "3 mm"),
    "start_mark": ("5", "9"),
    "opening": ("14 mm", "20 mm"),
    "lever_mark": ("5", "6", "9"),
    "final_lever_mark": ("4.5", "7"),
    "seed_room": ("57 lb/bu", "2.10 lb 2.02 lb"),
    "wanted_weight": ("1.40 lb", "600 g"),
    "got_weight": ("2.80 lb", "5.62 lb", "1.41 lb", "0 lb"),
    "empty_tub": ("0.6 lb", "300 g"),
    "wanted_rate": ("80 lb/ac", "90 kg/ha"),
    "got_rate": ("904 lb/ac", "88 lb/ac", "632 lb/ac"),
    "rows_in_tubs": ("6 rows", "1 row"),
    "rows_on_drill": ("24 rows", "12 rows"),
    "sprouting": ("92 %", "78 %"),
    "pure_part": ("98 %", "80 %"),
    "lot_bushel": ("58 lb/bu", "38 lb/bu"),
    "other_bushel": ("60 lb/bu", "32 lb/bu"),
    "suspect_number": ("1",),
    "tank": ("tank 1", "the rear tank"),
    "width_set": ("15 ft", "7.5 ft", "40 ft"),
    "meter_turns": ("20 turns", "10 turns"),
    "meter_catch": ("12.4 lb", "12.4 lb", "6.2 lb", "0 lb"),
    "outlet_weights": ("410 g 396 g 402 g 371 g", "410 g 300 g 402 g", "410 g"),
    "set_weight_per_turn": ("0.62 lb/turn", "0.66 lb/turn"),
    "set_pulses_per_weight": ("580 pulses/lb", "621 pulses/lb"),
    "set_turns_per_weight": ("1.61 turns/lb", "1.72 turns/lb"),
    "shown": ("20 lb",),
    "weighed": ("20 lb", "20.1 lb", "21.4 lb", "22.9 lb", "18.6 lb", "0 lb"),
    "pulses_per_turn": ("360 pulses", "60 pulses"),
    "gear_top": ("100", "40"),
    "gear_step": ("1", "5"),
    "gear_mark": ("30", "36", "40"),
    "shaft_turns": ("11.6 turns", "10 turns", "13 turns", "31 turns"),
    "shaft_distance": ("100 ft", "30 m"),
    "timed_distance": ("220 ft",),
    "time_taken": ("30 s", "33 s"),
    "shown_speed": ("5 mph", "5.5 mph"),
    "slowest_speed": ("4 mph", "3 mph"),
    "fastest_speed": ("6 mph", "10 km/h"),
    "motor_slowest": ("10 rpm", "60 rpm"),
    "motor_fastest": ("120 rpm", "50 rpm"),
    "mix_of": ("oats peas", "vetch clover"),
    "mix_rates": ("30 lb/ac 20 lb/ac", "10 lb PLS, 2 lb PLS", "60 % 40 %", "60 % 30 %"),
    "mix_in_all": ("50 lb/ac", "56 kg/ha"),
    "species_purity": ("98 % 99 %", "98 %"),
    "species_coating": ("0 % 34 %", "0 % 0 %", "0 % 90 %", "34 %"),
    "species_germination": ("90 % 88 %", "90 %"),
    "small_box_species": ("2", "3", "1 2"),
    "species_seed_sizes": ("14000 seeds/lb 230000 seeds/lb", "9000 seeds/lb"),
    "first_sample": ("50 g 30 g", "0.1 g 0.1 g"),
    "second_sample": ("50 g 30 g", "50 g 10 g", "50 g"),
    "bags": ("25", "10"),
    "bag_weight": ("50 lb", "1000 lb"),
    "loose_seed": ("0 lb", "20 lb"),
    "seed_left": ("182 lb", "900 lb", "0 lb"),
    "field_ground": ("13.4 ac", "6 ac"),
    "driven_distance": ("5 mi", "2 mi"),
    "overlap": ("6 in", "20 ft", "0 in"),
    "card_rate": ("80 lb/ac", "120 lb/ac"),
    "live_rows": ("6 rows", "12 rows"),
    "meter_rows": ("4 rows", "12 rows"),
    "counter_ground": ("2 ac", "3 ac"),
    "tram_rows": ("2 rows", "12 rows"),
    "tram_passes": ("1", "3"),
    "shut_rows": ("6 rows", "12 rows"),
    "tub_weights": ("2.10 lb 2.02 lb", "2.10 lb 3.9 lb", "2.1 lb"),
}
"""Texts for each fact that has no choices. Each says its unit, so that it means one thing alone."""

SHARES = (1, 1, 1, 1.004, 1.02, 0.97, 0.948, 0.965, 0.85, 1.2, 0.5, 1.6, 0)
"""What a catch is of the wanted reading: on target, agreeing, a little off, far off, nothing."""


def text_for(job: Job, state: State, name: str, random: Random) -> str:
    """A text that answers one fact."""
    fact = job.fact(name)
    if fact.choices:
        number, choice = random.choice(list(enumerate(fact.choices, 1)))
        return str(number) if choice.name == "not_sure" else choice.label  # its label is a word
    plain = job.graph.declared.get(name, name)
    measured = {"catch": catch, "other_weight": other, "seeds_caught": count}.get(plain)
    return measured(state, name, random) if measured else random.choice(VALUES[plain])


def count(state: State, name: str, random: Random) -> str:
    """The seeds that each row may have brought, beside those that it should."""
    known = state.situation.known
    half = name.removesuffix("seeds_caught")
    wanted, rows = (known[f"{half}{n}"].value for n in ("expected_row_seeds", "rows_caught"))
    assert isinstance(wanted, float)
    assert isinstance(rows, float)
    share = random.choice(SHARES)
    return " ".join([f"{wanted * share:.0f}"] * int(rows))


def catch(state: State, name: str, random: Random) -> str:
    """What the scale may show, beside what it should show; now and then each row by itself."""
    known = state.situation.known
    half = name.removesuffix("catch")
    wanted, rows = known[f"{half}expected_reading"].value, known[f"{half}rows_caught"].value
    assert isinstance(wanted, float)
    assert isinstance(rows, float)
    shown = random.choice(SHARES) * wanted
    if random.random() < 0.15:  # where one step of the scale decides
        edge = known[f"{half}{random.choice(('reading_low', 'reading_high'))}"].value
        assert isinstance(edge, float)
        shown = edge
    if random.random() < 0.2:
        even = shown / rows / factor("g")
        return " ".join(f"{even * random.choice((1, 1, 1, 1.3)):.0f} g" for _ in range(int(rows)))
    return f"{shown / factor('lb'):.2f} lb"


def other(state: State, name: str, random: Random) -> str:
    """The seed of other rows, beside what it should be."""
    wanted = state.situation.known[name.replace("other_weight", "target_catch")].value
    assert isinstance(wanted, float)
    return f"{random.choice(SHARES) * wanted / factor('lb'):.2f} lb"


def texts_for(job: Job, state: State, open_: Open, random: Random) -> dict[str, str]:
    """A text for each fact of the open question."""
    return {name: text_for(job, state, name, random) for name in open_.facts}


def line_for(job: Job, state: State, random: Random) -> str:
    """A line that takes the open question on, whatever kind it is of."""
    open_ = state.situation.open
    assert open_ is not None
    if state.moment:
        return random.choice(("1", "yes"))
    if open_.kind == "ask":
        if set(proposals(job, state)) >= set(open_.facts) and random.random() < 0.4:
            return ""
        return ", ".join(texts_for(job, state, open_, random).values())
    return word_for(job, state, open_)


def word_for(job: Job, state: State, open_: Open) -> str:
    """What passes a question of the machine's own."""
    if open_.kind in {"caution", "guard"}:
        return caution_word(job, state, open_)
    return {"wait": "done", "offer": "1", "review": "", "corrected": "1"}[open_.kind]
