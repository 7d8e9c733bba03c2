"""Keys that were typed before they were asked for: thrown away, or kept off the screen."""

from __future__ import annotations

import sys
from contextlib import suppress
from typing import Any

if sys.platform == "win32":
    import msvcrt

    def throw_away() -> None:
        """Throw away the keys that wait."""
        while msvcrt.kbhit():
            msvcrt.getwch()

    def echo_off() -> Any:
        """Nothing to do: this console echoes only while a line is read."""

    def echo_on(before: Any) -> None:
        """Nothing to undo."""

else:
    import termios

    LOCAL_FLAGS = 3  # where tcgetattr keeps them

    def throw_away() -> None:
        """Throw away the keys that wait; a pipe keeps its lines."""
        with suppress(termios.error, OSError, ValueError):
            termios.tcflush(sys.stdin.fileno(), termios.TCIFLUSH)

    def echo_off() -> Any:
        """Stop the terminal from showing keys by itself; returns how it was, None for a pipe."""
        try:
            before = termios.tcgetattr(sys.stdin.fileno())
        except (termios.error, OSError, ValueError):
            return None
        silent = [*before]
        silent[LOCAL_FLAGS] &= ~termios.ECHO
        with suppress(termios.error):
            termios.tcsetattr(sys.stdin.fileno(), termios.TCSANOW, silent)
        return before

    def echo_on(before: Any) -> None:
        """Put the terminal back as it was."""
        if before is not None:
            with suppress(termios.error, OSError, ValueError):
                termios.tcsetattr(sys.stdin.fileno(), termios.TCSANOW, before)
