"""The page to print: sound HTML, every value escaped, what a person needs, one side of paper."""

from __future__ import annotations

import re
import shutil
import subprocess
from dataclasses import dataclass, field, replace
from functools import cache
from html.parser import HTMLParser
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.book.records import StoredCard
from assistant.card.page import STYLE, in_other_system, page_text
from assistant.sitting.plain_text import harmless
from assistant.terminal.printing import in_plain_signs
from tests.stories.play import library, play
from tests.stories.story import FOLDER, read_story

LONG = ("class", "long")
LEFT_OPEN = {"meta"}  # elements that have no end
BROWSER = shutil.which("chromium")
NASTY = (
    "<script>alert(1)</script>",
    "</style><b>x",
    "</title>x",
    '"><img src=x onerror=alert(1)>',
    "' onload='x",
    "&lt;b&gt; &amp; &#60;",
    "<!-- x",
    "]]> <?php",
    "{drill} {id} {line}",
    "%s {0} \\1 \\g<0>",
    "\x1b[2J\x1b]0;x\x07\x1bP1$r\x1b\\",
    "\x9b31m \x00 \x7f \x85",
    "\u202etxt.exe\u2066 \u2028 \u2029",
    "\udc9b\ud800",
    "Größe ½ 漢字",
)


@cache
def card_of(story: str) -> StoredCard:
    """The card that a story ends with."""
    return play(read_story(FOLDER / f"{story}.txt")).book.cards(limit=1)[0]


def with_fact(card: StoredCard, name: str, **told: object) -> StoredCard:
    """The card with one fact told otherwise."""
    old = card.facts.get(name, {})
    assert isinstance(old, dict)
    return replace(card, facts={**card.facts, name: {**old, **told}})


@dataclass
class Read(HTMLParser):
    """A page read by tags; `open` tags must close in their order."""

    tags: list[str] = field(default_factory=list)
    open: list[str] = field(default_factory=list)
    attributes: list[tuple[str, str | None]] = field(default_factory=list)
    texts: dict[str, list[str]] = field(default_factory=dict)
    others: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        super().__init__(convert_charrefs=True)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.attributes += attrs
        if tag not in LEFT_OPEN:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        for tag in self.open:
            self.texts.setdefault(tag, []).append(data)

    def handle_comment(self, data: str) -> None:
        self.others.append(data)

    def handle_pi(self, data: str) -> None:
        self.others.append(data)

    def unknown_decl(self, data: str) -> None:
        self.others.append(data)

    def text(self, tag: str = "main") -> str:
        """All that stands in elements of one name, in one line."""
        return " ".join("".join(self.texts.get(tag, [])).split())


def read(card: StoredCard, follows: str = "") -> Read:
    """The page of a card, read; every element is closed."""
    page = Read()
    page.feed(in_plain_signs(page_text(library(), card, follows=follows)))
    page.close()
    assert page.open == []
    return page


# -- what a person needs ----------------------------------------------------------------------


def test_a_fluted_card_tells_setting_seed_catch_and_check() -> None:
    page = read(card_of("fluted_plants"))
    assert page.text("h1") == "the hill drill"
    assert page.text("title") == "the hill drill, wheat, 2026-04-14"
    assert ("lang", "en") in page.attributes
    for line in (
        "wheat, lot 4471. Treated: No.",
        "Proven by its catches.",
        "Opening at the cup 20 mm",
        "Lever mark 5",
        "Go by the opening, with a ruler.",
        "For more seed: A higher number.",
        "Wanted: 28 plants per sq ft (301 plants per sq m).",
        "So drop 125 lb/ac (140 kg/ha).",
        "It drops 124 lb/ac (139 kg/ha): 0.4 in 100 too light.",
        "6 rows, 30 turns. It should weigh 2.19 lb (993 g).",
        "One turn: 81.5 in (2.07 m). Tape round the tyre.",
        "Wheel turned, left or right:",
        "24 rows, 7.5 in (19.1 cm) apart. One wheel turns: Every row.",
        "Seed size: 12,500 per lb (27,560 per kg). Germination: 92 %.",
        "You should find 22.4 seeds per ft (73.4 seeds per m).",
        "Roll 10 turns, drill loaded.",
        "Made 2026-04-14. Number 06ernsd8r00000000001.",
    ):
        assert line in page.text()
    for left_out in ("Drive range", "TREATED", "NOT PROVEN", "half", "In place of", "guess"):
        assert left_out not in page.text()
    for blank in ("Field", "Who", "Weather", "Box how full", "Tyre pressure", "New mark"):
        assert blank in page.text("li")


def test_two_halves_have_two_settings_and_two_catches() -> None:
    page = read(card_of("two_halves_cup"))
    text = page.text()
    assert text.count("The half done first") == text.count("The other half") == 2
    assert text.count("Drive range Low") == text.count("Lever mark 5") == 2
    assert "One turn: 86 in (2.18 m)." in text
    assert "One turn: 87 in (2.21 m)." in text
    assert "Opening" not in text


def test_a_metric_card_is_shown_as_it_was_made_with_the_other_units_beside() -> None:
    text = read(card_of("metric_throughout")).text()
    assert "So drop 165 kg/ha (147 lb/ac)." in text
    assert "Seed size: 44 g per 1,000 seeds (10,310 per lb)." in text


@pytest.mark.parametrize(
    ("treated", "warning"),
    [("yes", "TREATED SEED can poison you."), ("not_sure", "TREATED? NOT SURE.")],
)
def test_treated_seed_is_warned_of(treated: str, warning: str) -> None:
    card = with_fact(card_of("fluted_plants"), "treated", value=treated)
    assert warning in read(card).text()


def test_one_catch_is_not_proven() -> None:
    text = read(card_of("early_card")).text()
    assert "NOT PROVEN: too few catches. Dig early in the field." in text
    assert "two catches agree" not in text


HOLDS = (test_a_fluted_card_tells_setting_seed_catch_and_check, test_one_catch_is_not_proven)
"""What between them tells each condition of the page from its opposite."""


def test_a_guess_and_what_is_not_known_are_told() -> None:
    text = read(card_of("dont_know_everywhere")).text()
    assert "Treated: Not sure. From a guess." in text
    assert "So drop 135 lb/ac (152 kg/ha). From a guess." in text
    assert "lot not known" in text
    assert "24 rows, 7.5 in (19.1 cm) apart. One" in text  # this was counted and measured


def test_a_correction_names_the_card_that_it_stands_in_place_of() -> None:
    assert "In place of 06old." in read(card_of("fluted_plants"), "06old").text()


def test_lines_of_facts_that_an_old_card_lacks_are_left_out() -> None:
    bare = replace(card_of("fluted_plants"), facts={"drill": {"value": "x", "shown": "x"}})
    page = read(bare)
    assert page.text("h1") == "x"
    assert page.text("title") == bare.talk
    assert "{" not in page.text()
    assert "Set it like this" not in page.text()
    assert "Look at every tube" in page.text()


@pytest.mark.parametrize(
    ("name", "value", "shown", "other"),
    [
        ("row_spacing", 0.19, "19 cm", "7.48 in"),
        ("distance_per_turn", 2.0701, "6 ft 9 1/2 in", "2.07 m"),
        ("distance_per_turn", 2.07, "207 cm", "81.5 in"),
        ("target_catch", 3.855535, "8 lb 8 oz", "3856 g"),
        ("final_opening", 0.014, "14 mm", ""),
        ("percent_off", -0.06, "6 in 100 too light", ""),
        ("row_count", 24.0, "24", ""),
        ("lot", "4471", "4471", ""),
        ("target_catch", None, "not known", ""),
    ],
)
def test_a_measure_is_told_in_the_system_that_it_is_not_shown_in(
    name: str, value: object, shown: str, other: str
) -> None:
    assert in_other_system(library().facts[name], value, shown) == other


# -- nothing gets through ---------------------------------------------------------------------


@pytest.mark.parametrize("nasty", NASTY)
def test_what_people_and_files_say_stays_text(nasty: str) -> None:
    plain = card_of("two_halves")
    spoiled = replace(plain, at=nasty, talk=nasty, outcome=nasty)
    for name in plain.facts:
        spoiled = with_fact(spoiled, name, shown=nasty)
    page, sound = read(spoiled, nasty), read(replace(plain, outcome="x"), "x")
    assert page.tags == sound.tags
    assert set(page.attributes) - {LONG} == set(sound.attributes) - {LONG}
    assert page.others == []
    assert page.text("h1") == " ".join(harmless(nasty).split())


@given(st.text(st.characters(), min_size=1))
def test_any_name_is_read_back_from_the_page(name: str) -> None:
    card = with_fact(card_of("fluted_plants"), "drill", shown=name)
    text = in_plain_signs(page_text(library(), card))
    page = Read()
    page.feed(text)
    assert "".join(page.texts.get("h1", [])) == harmless(name)
    assert all(sign == "\n" or " " <= sign <= "~" for sign in text)


def test_nothing_is_fetched_and_nothing_runs() -> None:
    page = read(card_of("two_halves"))
    assert {name for name, _ in page.attributes} <= {"class", "lang", *META}
    assert ("content", "default-src 'none'; style-src 'unsafe-inline'") in page.attributes
    assert not {"script", "img", "link", "iframe", "object", "form"} & set(page.tags)
    style = STYLE.read_text(encoding="utf-8")
    assert not re.search(r"url\(|@import|//|<", style)


META = {"charset", "name", "content", "http-equiv"}


# -- one side of paper ------------------------------------------------------------------------


def test_the_setting_is_big_and_the_rest_can_be_read() -> None:
    sizes = [float(each) for each in re.findall(r"([\d.]+)pt", STYLE.read_text(encoding="utf-8"))]
    style = STYLE.read_text(encoding="utf-8")
    assert "font: 14pt" in style
    assert re.findall(r"^\.big [^{]*b \{.*?font-size: (\d+)pt", style, re.MULTILINE) == ["60", "44"]
    assert max(sizes) == 60


def fullest() -> StoredCard:
    """A card with all that takes room: two halves, long names, treated seed, one catch."""
    card = card_of("two_halves")
    told = {name: card_of("fluted_plants").facts[name] for name in TOLD_IN_PLANTS}
    full = replace(card, facts={**card.facts, **told}, outcome="one_catch")
    for name in ("drill", "crop", "lot"):
        full = with_fact(full, name, shown="a long name for it " * 4)
    return with_fact(full, "treated", value="yes", shown="Yes")


TOLD_IN_PLANTS = (
    "target",
    "target_kind",
    "bulk_rate",
    "seeds_per_area",
    "seeds_per_row_length",
    "seeds_per_weight",
    "germination",
)


@pytest.mark.skipif(BROWSER is None, reason="no browser to print with on this machine")
@pytest.mark.parametrize("paper", ["A4", "letter", "A5"])
@pytest.mark.parametrize("which", ["two_halves", "fluted_plants", "fullest"])
def test_it_fits_on_one_side(which: str, paper: str, tmp_path: Path) -> None:
    card = fullest() if which == "fullest" else card_of(which)
    html = in_plain_signs(page_text(library(), card, follows="06ernsd8r00000000000"))
    page, printed = tmp_path / "page.html", tmp_path / "page.pdf"
    page.write_text(html.replace("</style>", f"@page {{ size: {paper} }}</style>"), "ascii")
    options = ["--headless", "--no-sandbox", "--disable-gpu", "--no-first-run"]
    options += ["--disable-background-networking", "--disable-sync", "--no-pdf-header-footer"]
    options += [f"--user-data-dir={tmp_path / 'profile'}", f"--print-to-pdf={printed}"]
    subprocess.run([str(BROWSER), *options, page.as_uri()], check=True, capture_output=True)
    assert len(re.findall(rb"/Type\s*/Page\b", printed.read_bytes())) == 1
