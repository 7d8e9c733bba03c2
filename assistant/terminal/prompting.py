"""The prompt itself. This module brings in prompt_toolkit: import it after the first question."""

from __future__ import annotations

import signal
from collections.abc import Callable
from typing import Any

from prompt_toolkit import PromptSession
from prompt_toolkit.application import run_in_terminal
from prompt_toolkit.history import DummyHistory
from prompt_toolkit.input import Input
from prompt_toolkit.input.typeahead import clear_typeahead, get_typeahead, store_typeahead
from prompt_toolkit.key_binding import KeyBindings, KeyPressEvent
from prompt_toolkit.keys import Keys
from prompt_toolkit.output import ColorDepth, Output, create_output
from prompt_toolkit.styles import Attrs


class KeyedEnd(EOFError):  # noqa: N818  a wish to pause
    """Ctrl-D on an empty line, told apart from a terminal that is gone."""


class Cleared(Exception):  # noqa: N818  a wish to begin the line anew
    """Ctrl-C on a line with text."""


def new_session(
    *,
    colour: bool,
    stop: Callable[[], None],
    source: Input | None = None,
    sink: Output | None = None,
) -> PromptSession[str]:
    """The one prompt of the process: no history, no completion, no mouse.

    `stop` is called for Ctrl-Z, the terminal as it was before the prompt.
    """
    output = sink or terminal_output(colour=colour)
    return PromptSession(
        history=DummyHistory(),
        key_bindings=bindings(stop),
        reserve_space_for_menu=0,
        include_default_pygments_style=False,
        color_depth=None if colour else ColorDepth.DEPTH_1_BIT,
        input=source,
        output=output,
    )


def terminal_output(*, colour: bool) -> Output:
    """The screen, never asked where its cursor stands: not every terminal answers."""
    output = create_output()
    if hasattr(output, "enable_cpr"):
        output.enable_cpr = False
    if not colour:
        silence_styles(output)
    return output


def silence_styles(output: Any) -> None:
    """Let no code for a style out, not even the one that ends all styles."""

    def nothing(*_: Attrs | ColorDepth) -> None:
        return

    output.set_attributes = nothing
    output.reset_attributes = nothing


def bindings(stop: Callable[[], None]) -> KeyBindings:
    """The keys that mean something of their own here."""
    keys = KeyBindings()
    keys.add("c-z")(lambda _event: run_in_terminal(stop))
    keys.add("c-c", eager=True)(clear_or_leave)  # a selection waits for a second key else
    keys.add("c-d")(delete_or_pause)
    keys.add(Keys.BracketedPaste)(paste)
    return keys


def clear_or_leave(event: KeyPressEvent) -> None:
    """Ctrl-C clears a line with text; on an empty one it leaves."""
    event.app.exit(exception=Cleared() if event.current_buffer.text else KeyboardInterrupt())


def delete_or_pause(event: KeyPressEvent) -> None:
    """Ctrl-D deletes a sign; on an empty line it pauses."""
    if event.current_buffer.text:
        event.current_buffer.delete()
    else:
        event.app.exit(exception=KeyedEnd())


def paste(event: KeyPressEvent) -> None:
    """Pasted text comes in as one and waits for Enter; several lines are judged by who reads."""
    text = event.data.replace("\r\n", "\n").replace("\r", "\n").rstrip("\n")
    if event.current_buffer.selection_state:
        event.current_buffer.cut_selection()
    event.current_buffer.insert_text(text)


def ask(session: PromptSession[str], mark: str, again: str, stop: Callable[[], None]) -> str:
    """One line. Trouble inside the prompt's own loop comes out as the exception that it was."""

    def begin() -> None:
        loop, app = session.app.loop, session.app
        if loop is not None:
            loop.set_exception_handler(lambda _loop, trouble: give_up(app, trouble))
            if hasattr(signal, "SIGTSTP"):  # Windows stops no job
                # the loop takes its handlers along when it closes
                loop.add_signal_handler(signal.SIGTSTP, run_in_terminal, stop)
        if again:
            select_all(session)

    return session.prompt(mark, default=again, pre_run=begin, set_exception_handler=False)


def give_up(app: Any, trouble: dict[str, Any]) -> None:
    """End the prompt with what went wrong in its loop, instead of writing about it."""
    if app.is_running and not app.is_done:
        app.exit(exception=trouble.get("exception") or EOFError())


def select_all(session: PromptSession[str]) -> None:
    """Select the whole line, so that typing replaces it."""
    buffer = session.default_buffer
    buffer.cursor_position = 0
    buffer.start_selection()
    if buffer.selection_state:
        buffer.selection_state.enter_shift_mode()
    buffer.cursor_position = len(buffer.text)


def forget_ahead(session: PromptSession[str]) -> None:
    """Throw away the keys that were read together with the last line."""
    clear_typeahead(session.app.input)


ENTER = {Keys.ControlM, Keys.ControlJ}


def lines_ahead(session: PromptSession[str]) -> list[str]:
    """Whole lines that came in one go with the last one: so a paste comes without its marks."""
    keys = get_typeahead(session.app.input)
    ends = [at for at, each in enumerate(keys) if each.key in ENTER]
    whole = ends[-1] + 1 if ends else 0
    store_typeahead(session.app.input, keys[whole:])
    text = "".join("\n" if each.key in ENTER else each.data for each in keys[:whole])
    return text.split("\n")[:-1]
