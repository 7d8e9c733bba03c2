"""A typed line at a closed question of the machine's own: which card, or without doing it again."""

from __future__ import annotations

from dataclasses import replace

from assistant.answers.by_number import by_number
from assistant.answers.text import heard
from assistant.answers.yes_no import yes_no
from assistant.dialogue.asking import AGAIN, LEAVE
from assistant.dialogue.job import Job, State
from assistant.dialogue.log import Answered
from assistant.dialogue.messages import Trouble
from assistant.dialogue.outcome import Outcome
from assistant.dialogue.situation import Open
from assistant.dialogue.steps import fetch
from assistant.dialogue.trouble import SECOND
from assistant.dialogue.unknowing import made
from assistant.dialogue.walk import CARD, DRILL, NO_CARD, SOUGHT
from assistant.dialogue.wording import say

FIRST = "1"  # what takes the first of a list
SHORTEST_LOT = 3  # digits: what is shorter was meant as a number of the list


def to_offer(job: Job, state: State, open_: Open, text: str) -> Outcome:
    """A card by number, id or drill; Enter takes the first; the last number goes without."""
    offer = state.log.offered(open_.place, open_.visit)
    cards = offer.cards if offer else ()
    ids = [*(card.id for card in cards), NO_CARD]
    plain = text.strip().lower()
    drills = {told.settled.lower(): c.id for c in cards for told in c.facts if told.fact == DRILL}
    if plain in ids:
        chosen = plain
    elif plain in drills:
        chosen = drills[plain]
    elif not plain or yes_no(plain):
        chosen = ids[0]
    elif yes_no(plain) is False:
        chosen = NO_CARD
    elif (at := by_number(plain, len(ids))) is not None:
        chosen = ids[at]
    elif plain.isdecimal() and len(plain) < SHORTEST_LOT:
        return refuse(job, state, "not_a_number_of_the_list", text)
    else:
        return Outcome(
            said=(fetch(job.graph[open_.place], open_.visit, {SOUGHT: plain}),), state=state
        )
    return Outcome((Answered((made(state, CARD, chosen),)),))


def to_corrected(job: Job, state: State, text: str) -> Outcome:
    """In a correction: go on without doing it again, by 1 or Enter, or do it."""
    plain = text.strip(" .!").lower()
    leave = job.graph[state.situation.place].step.corrected
    if plain in {"", "1", leave} or yes_no(plain):
        return Outcome((Answered((made(state, LEAVE, leave),)),))
    if plain == "2" or yes_no(plain) is False:
        return Outcome((Answered((made(state, AGAIN, "again"),)),))
    return refuse(job, state, "not_a_number_of_the_list", text)


def refuse(job: Job, state: State, code: str, text: str, works: str = FIRST) -> Outcome:
    """A line that a list, a caution or an offer can't take; `works` is a line that it takes."""
    misread = state.misread + 1
    texts = [say(job, f"refused.{code}", heard=heard(text))]
    if misread == SECOND:
        texts.append(say(job, "refused.second_word", word=works))
    if misread > SECOND:
        texts.append(say(job, "refused.third"))
    trouble = Trouble(code, "\n".join(texts))
    return Outcome(said=(trouble,), state=replace(state, moment=None, misread=misread))
