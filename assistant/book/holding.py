"""Who holds a conversation: this program, by machine and process, and whether it still runs."""

import os


def me() -> str:
    """This program, as the book keeps it: the machine's name and the number of the process."""
    return f"{machine()} {os.getpid()}"


def alive(who: str) -> bool:
    """Whether `who` may still be running: a process of this machine that is gone is not.

    What can't be known from here, on another machine or on Windows, counts as running.
    """
    name, _, process = who.rpartition(" ")
    if os.name == "nt":  # os.kill with 0 would be Ctrl-C there
        return True
    if name != machine() or not (process.isascii() and process.isdecimal()):
        return True
    try:
        os.kill(int(process), 0)
    except (ProcessLookupError, OverflowError):
        return False
    except PermissionError:  # somebody else's
        return True
    return True


def machine() -> str:
    """The name of this machine."""
    import platform

    return platform.node()
