"""Words that people type mean one thing: commands, choices, terms, jobs, words of a caution."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from assistant.answers.yes_no import is_done
from assistant.checking.flows import Flows
from assistant.flow.model import Fact, Step
from assistant.flowfile.findings import Finding

CAUTIONS = "cautions.toml"
DO_NOT_KNOW = "do_not_know"
PLAIN_NO = {"n", "no"}
BEGINS = ("cli.help.", "menu.")
"""Above the names of what is typed to start the program, and at its first list."""


def word_faults(flows: Flows) -> Iterator[Finding]:
    """Typed words that could mean two things, and cautions whose word can't be typed."""
    yield from _commands(flows)
    yield from _terms(flows)
    yield from _jobs(flows)
    for fact in flows.asked().values():
        for choice in fact.choices:
            for word in spellings(choice.name, choice.label, choice.words):
                command = command_of(flows, word)
                if command and not same_end(fact, choice.name, command):
                    about = {"word": word, "command": command}
                    yield flows.in_fact("word_is_command", fact.name, "choices", **about)
        for word in fact.names:
            if command := command_of(flows, word):
                about = {"word": word, "command": command}
                yield flows.in_fact("word_is_command", fact.name, "names", **about)
        yield from _numbers(flows, fact)
    for step in flows.steps("ask"):
        yield from _leaving(flows, step)
    for step in flows.steps("say"):
        for word in filter(is_done, step.leave):
            yield flows.in_step("word_is_answer", step, "leave", word=word)
    yield from _cautions(flows)


def spellings(*words: str | Iterable[str]) -> list[str]:
    """Words as they are typed: small letters, and no low lines."""
    each = [word for told in words for word in ([told] if isinstance(told, str) else told)]
    return sorted({word.lower().replace("_", " ") for word in each})


def command_of(flows: Flows, word: str) -> str:
    """The command that a whole line is, or that its first words begin."""
    for name, typed in flows.library.commands.items():
        if name.startswith("units_") or name == "drop":
            continue  # these stand behind another word only
        opens = name in {"change", "units", "what_is"}
        if word in typed or (opens and any(word.startswith(f"{each} ") for each in typed)):
            return name
    return ""


def _answers(word: str) -> bool:
    """Whether a word says done, yes or no."""
    return is_done(word) or word in PLAIN_NO


def same_end(fact: Fact, choice: str, command: str) -> bool:
    """Whether "don't know" leads to this very choice, so that it does not matter which is meant."""
    guess = fact.unknown.value if fact.unknown and fact.unknown.way == "guess" else ""
    return command == DO_NOT_KNOW and guess == choice


def _commands(flows: Flows) -> Iterator[Finding]:
    said: dict[str, str] = {}
    for name, typed in flows.library.commands.items():
        where = ("words.toml", "commands", name)
        for word in typed:
            if _answers(word):
                yield flows.in_file("word_is_answer", where, name, word=word)
            if said.setdefault(word, name) != name:
                about = {"word": word, "command": said[word]}
                yield flows.in_file("word_is_command", where, name, **about)


def _terms(flows: Flows) -> Iterator[Finding]:
    for term in flows.library.glossary:
        if command := command_of(flows, term):
            about = {"word": term, "command": command}
            yield flows.in_file("word_is_command", ("glossary.toml", term), term, **about)


def _jobs(flows: Flows) -> Iterator[Finding]:
    """A job is begun by its name: on the command line, and at the first list."""
    words = flows.library.words
    for name, job in flows.library.jobs.items():
        typed = any(f"{above}{name}" in words for above in BEGINS)
        said = name.replace("_", " ")
        command = name if typed else command_of(flows, said)
        if command:
            about = {"job": name, "command": command}
            yield flows.in_file("job_is_command", (job.file,), name, **about)
        if _answers(said) or said.isdecimal():
            yield flows.in_file("word_is_answer", (job.file,), name, word=said)


def _numbers(flows: Flows, fact: Fact) -> Iterator[Finding]:
    """Words of a choice that are the number of another one in the list."""
    listed = {str(number): choice.name for number, choice in enumerate(fact.choices, 1)}
    for choice in fact.choices:
        for word in choice.words:
            if listed.get(word, choice.name) != choice.name:
                yield flows.in_fact("word_is_answer", fact.name, "choices", word=word)


def _leaving(flows: Flows, step: Step) -> Iterator[Finding]:
    facts = [flows.library.facts[name] for name in step.what if name in flows.library.facts]
    words = {
        word
        for fact in facts
        for choice in fact.choices
        for word in spellings(choice.name, choice.label, choice.words)
    }
    for word in step.leave:
        if command := command_of(flows, word):
            yield flows.in_step("word_is_command", step, "leave", word=word, command=command)
        if word in words:
            yield flows.in_step("word_is_choice", step, "leave", word=word)


def _cautions(flows: Flows) -> Iterator[Finding]:
    for name, caution in flows.library.cautions.items():
        where = (CAUTIONS, name)
        if caution.grade == "stop" and not caution.words:
            yield flows.in_file("stop_without_words", where, name)
        if not caution.not_sure:
            yield flows.in_file("caution_lacks", where, name, key="not_sure")
        for word in caution.words:
            if word not in caution.text.lower():
                yield flows.in_file("word_not_in_text", (*where, "words"), name, word=word)
            if command := command_of(flows, word):
                about = {"word": word, "command": command}
                yield flows.in_file("word_is_command", (*where, "words"), name, **about)
