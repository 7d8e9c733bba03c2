"""Every word that the code asks for by its name is in the flow files, and none is asked in vain."""

import ast
from collections.abc import Iterator

from assistant.dialogue.wording import HOLE
from assistant.flow.load import load
from assistant.flow.place import flows_folder
from tests.house.tree import PACKAGE, modules, tree

WORDS = load(flows_folder()).words


def text_of(node: ast.AST) -> str:
    """A name as far as it is written; what is put in at run time is left out."""
    match node:
        case ast.Constant(value=str(text)):
            return text
        case ast.JoinedStr(values=parts):
            return "".join(
                text_of(part) if isinstance(part, ast.Constant) else "*" for part in parts
            )
    return ""


def asked(node: ast.AST) -> Iterator[str]:
    """The names of words that a call or a look-up asks for."""
    match node:
        case ast.Call(func=ast.Name(id="say"), args=[_, name, *_]):
            yield text_of(name)
        case ast.Call(func=ast.Attribute(attr="word"), args=[name, *_]):
            yield text_of(name)
        case ast.Subscript(value=ast.Name(id="words"), slice=name):
            yield text_of(name)
        case ast.Subscript(value=ast.Attribute(attr="words"), slice=name):
            yield text_of(name)


def names_asked() -> set[str]:
    """Every name of a word in the code, with `*` for what is put in at run time."""
    found = {
        name
        for module in modules(PACKAGE)
        for node in ast.walk(tree(module))
        for name in asked(node)
    }
    return {name for name in found if "." in name or name in WORDS}


def test_each_word_asked_for_by_name_is_there() -> None:
    names = {name for name in names_asked() if "*" not in name}
    assert names
    assert names - set(WORDS) == set()


def test_each_family_of_words_asked_for_is_there() -> None:
    families = {name.partition("*")[0] for name in names_asked() if "*" in name}
    assert families
    assert [f for f in families if not any(word.startswith(f) for word in WORDS)] == []


def filled() -> Iterator[tuple[str, set[str]]]:
    """Each word that is said by its whole name, with the names of the values put into it."""
    for module in modules(PACKAGE):
        for node in ast.walk(tree(module)):
            match node:
                case ast.Call(
                    func=ast.Name(id="say"), args=[_, ast.Constant(value=str(name))], keywords=put
                ) if all(each.arg for each in put):
                    yield name, {str(each.arg) for each in put}


def test_each_name_in_braces_is_filled_where_a_word_is_said() -> None:
    told = list(filled())
    assert len(told) > 50
    lacks = {name: set(HOLE.findall(WORDS[name])) - put for name, put in told if name in WORDS}
    assert {name: holes for name, holes in lacks.items() if holes} == {}
