"""What lies ahead, said before the first question: how many, how long, what to bring."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from assistant.dialogue.job import Job
from assistant.dialogue.messages import Finish, Message, Say
from assistant.dialogue.wording import say
from assistant.flow.tools import tools_for

FIVE = 5


def with_ahead(job: Job, prompts: int, said: Sequence[Message]) -> tuple[Message, ...]:
    """The first reply of a job, what lies ahead before it; `prompts` is their usual number.

    A job that ends at once has nothing ahead.
    """
    if any(isinstance(each, Finish) for each in said):
        return tuple(said)
    return (Say("\n".join(ahead(job, prompts))), *said)


def ahead(job: Job, prompts: int) -> Iterator[str]:
    """About how many questions, to the nearest five, how long it takes, and what to bring."""
    takes = job.library.jobs[job.graph.job].takes
    count = str(max(FIVE, round(prompts / FIVE) * FIVE))
    yield say(job, "ahead.count_and_time" if takes else "ahead.count", count=count, takes=takes)
    tools = [job.word(f"tools.{tool}") for tool in tools_for(job.graph, job.library)]
    if tools:
        yield say(job, "ahead.bring", tools=", ".join(tools))
