"""The shapes of the gate and the plain values of a flow have the same keys."""

from dataclasses import fields

import pytest
from pydantic import BaseModel

from assistant.flow import model
from assistant.flow.load import STEP_KINDS
from assistant.flowfile import shape, texts


def keys(table: type[BaseModel]) -> set[str]:
    """The keys that a shape takes, as a flow file spells them."""
    return {field.alias or name for name, field in table.model_fields.items()}


@pytest.mark.parametrize(
    ("table", "values", "named_by_its_header"),
    [
        (shape.FactShape, model.Fact, {"name"}),
        (shape.CautionShape, model.Caution, {"name"}),
        (shape.ChoiceShape, model.Choice, set()),
        (shape.SeriesShape, model.Series, set()),
    ],
)
def test_a_table_takes_what_its_values_hold(
    table: type[BaseModel], values: type, named_by_its_header: set[str]
) -> None:
    held = {field.name for field in fields(values)} - named_by_its_header
    told = keys(table) - {"unknown_says"}
    assert told == held


def test_the_steps_take_what_a_step_holds() -> None:
    held = {field.name for field in fields(model.Step)} - {"kind", "what"}
    told = set[str]().union(*(keys(table) for table in shape.STEPS.values()))
    spelled_otherwise = {"question": "ask", "as": "alias"}
    kinds = {*STEP_KINDS} - {"ask"}
    assert {spelled_otherwise.get(key, key) for key in told - kinds - {"ask"}} == held


def test_every_kind_of_step_has_a_shape_with_its_own_key() -> None:
    assert list(shape.STEPS) == [*STEP_KINDS, "say"]
    assert all(kind in keys(table) for kind, table in shape.STEPS.items())


def test_the_card_takes_what_its_layout_holds() -> None:
    held = {field.name for field in fields(model.CardLayout)} - {"outcomes"}
    assert keys(texts.CardShape) == held | {"proven", "one_catch", "worked_out"}
