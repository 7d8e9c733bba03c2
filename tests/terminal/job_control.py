"""A shell in small: one job in front, stopped and sent on; it says how the terminal is meanwhile.

`python -m tests.terminal.job_control ARGUMENTS` runs the program with these arguments.
"""

import os
import signal
import sys
import termios

LOCAL_FLAGS = 3  # where tcgetattr keeps them


def in_front(group: int) -> None:
    """Give the terminal to a group; who is behind may do this only while it ignores SIGTTOU."""
    before = signal.signal(signal.SIGTTOU, signal.SIG_IGN)
    os.tcsetpgrp(0, group)
    signal.signal(signal.SIGTTOU, before)


def modes() -> str:
    """Whether the terminal echoes, and gives whole lines."""
    flags = termios.tcgetattr(0)[LOCAL_FLAGS]
    return f"echo {bool(flags & termios.ECHO)} lines {bool(flags & termios.ICANON)}"


def run(arguments: list[str]) -> int:
    """Run the job; each time it stops, wait for a line and let it go on."""
    job = os.fork()
    if job == 0:
        os.setpgid(0, 0)
        in_front(os.getpid())
        os.execv(sys.executable, [sys.executable, "-m", "assistant", *arguments])  # noqa: S606  it is what a shell does
    while True:
        _, status = os.waitpid(job, os.WUNTRACED)
        if not os.WIFSTOPPED(status):
            return os.waitstatus_to_exitcode(status)
        in_front(os.getpid())
        print("job", job, "stopped", modes(), flush=True)
        sys.stdin.readline()
        in_front(job)
        os.kill(job, signal.SIGCONT)


if __name__ == "__main__":
    sys.exit(run(sys.argv[1:]))
