"""The conversation: messages out, lines in, until it is finished or left."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from assistant.dialogue.events import Typed
from assistant.dialogue.messages import Ask, Message, Paused, Trouble
from assistant.sitting.saved import truthful
from assistant.sitting.saying import TEACH
from assistant.sitting.sitting import Sitting
from assistant.terminal.leaving import INTERRUPTED
from assistant.terminal.line_by_line import LineByLine
from assistant.terminal.paging import Pages
from assistant.terminal.pasting import Lines
from assistant.terminal.pictures import both_drawn, verdicts
from assistant.terminal.reading import Reader
from assistant.terminal.screen import Screen

NOT_TO_MEND = {"unused", "many_lines", "too_long", "control", "empty"}
STOP = "stop"


def converse(
    sitting: Sitting, said: Sequence[Message], screen: Screen, reader: Reader, *, keeps: bool = True
) -> int:
    """Talk until the job is finished or left; returns the exit code.

    `keeps` says that there is a book on disk. Raises BookProblem and Ended.
    """
    try:
        talk(sitting, said, screen, reader, keeps=keeps)
    except (KeyboardInterrupt, EOFError) as left:
        from assistant.dialogue.commands import leave

        said = leave(sitting.job, sitting.state).said
        screen.show(truthful(sitting, said, keeps=keeps))
        return INTERRUPTED if isinstance(left, KeyboardInterrupt) else 0
    return 0


def talk(
    sitting: Sitting, said: Sequence[Message], screen: Screen, reader: Reader, *, keeps: bool
) -> None:
    """Question and answer, one after the other."""
    pictures: Iterable[list[str]] = ()
    again, before = "", verdicts(sitting)
    lines, lists, pages = Lines(screen, reader), LineByLine(), Pages(screen)
    while True:
        told = truthful(sitting, said, keeps=keeps)
        due = lists.cut(told, teach=sitting.saying.level == TEACH)
        screen.show(pages.cut(due), pictures)
        if sitting.finish or sitting.state.left:
            show_card(sitting, screen, keeps=keeps)
            return
        if guarded(sitting):
            reader.forget_keys()
        if guarded(sitting) or heedful(sitting, said):
            lines.leave_rest()
        line = lines.next(again)
        while pages.goes_on(line) or lists.goes_on(line):
            if pages.rest:
                reader.forget_keys()  # an Enter too many makes nothing final
            screen.show(pages.due() if pages.rest else lists.due())
            line = lines.next()
        said = sitting.hear(Typed(line))
        if keeps:
            keep_misread(sitting, line, said)
        again = line if worth_mending(said) else ""
        pictures = () if screen.plain else both_drawn(sitting, before, colour=screen.colour)
        before = verdicts(sitting)


def keep_misread(sitting: Sitting, line: str, said: Sequence[Message]) -> None:
    """Keep a refused line, where a person switched that on."""
    if any(isinstance(each, Trouble) for each in said):
        from assistant.terminal.misread import keep

        keep(sitting, line, said)


def guarded(sitting: Sitting) -> bool:
    """Whether a stop caution or an unusual value is open: no key typed before may answer it."""
    open_, moment = sitting.state.situation.open, sitting.state.moment
    if moment is not None:
        from assistant.dialogue.trouble import UNUSUAL

        return moment.kind == UNUSUAL
    return bool(open_ and open_.hazard and sitting.job.caution(open_.hazard).grade == STOP)


def heedful(sitting: Sitting, said: Sequence[Message]) -> bool:
    """Whether something was said that the rest of a pasted block was not meant for."""
    open_ = sitting.state.situation.open
    asked = bool(sitting.state.moment or (open_ and open_.hazard))
    return asked or any(isinstance(each, Trouble) for each in said)


def worth_mending(said: Sequence[Message]) -> bool:
    """Whether the line was refused at a question where Enter and numbers mean nothing else."""
    codes = {each.code for each in said if isinstance(each, Trouble)}
    match said[-1]:
        case Ask(proposal="", choices=()) | Trouble():
            return bool(codes - NOT_TO_MEND)
    return False


def show_card(sitting: Sitting, screen: Screen, *, keeps: bool) -> None:
    """The card, and how to see it again."""
    if not sitting.card:
        return
    screen.lines(sitting.card.split("\n"))
    if keeps:
        screen.show([Paused(screen.word("leave.card", id=sitting.id))])
