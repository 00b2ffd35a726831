"""Whatever stands in a recipe file, reading it ends in a recipe or in complaints."""

from __future__ import annotations

import copy
import json
import tomllib
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from batchcook.complaints import Complaint, InputFault
from batchcook.cookbook import recipe_files, starter_folder
from batchcook.recipefile.reading import read_recipe

STARTERS = {path: path.read_text("utf-8") for path in recipe_files(starter_folder())}

VALUES = st.one_of(
    st.integers(-5, 2000),
    st.booleans(),
    st.floats(allow_nan=False, allow_infinity=False),
    st.text(max_size=12),
    st.sampled_from(["1 cup", "-2 lb", "375 degF", "brown", "onion", "diced", "simmer", "skillet"]),
    st.just([]),
    st.just({}),
    st.lists(st.text(max_size=4), max_size=2),
)


def as_toml(value: Any) -> str:  # noqa: ANN401 - TOML values have no common type
    if isinstance(value, dict):
        pairs = (f"{json.dumps(key)} = {as_toml(inner)}" for key, inner in value.items())
        return "{" + ", ".join(pairs) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(as_toml, value)) + "]"
    return json.dumps(value)


def as_file(tables: dict[str, Any]) -> str:
    return "".join(f"{json.dumps(key)} = {as_toml(value)}\n" for key, value in tables.items())


def keys_of(value: Any, above: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:  # noqa: ANN401 - the same
    inner = (
        value.items()
        if isinstance(value, dict)
        else enumerate(value)
        if isinstance(value, list)
        else ()
    )
    found = [above] if above else []
    for key, each in inner:
        found += keys_of(each, (*above, key))
    return found


def complaints_about(text: str, path: Path) -> tuple[Complaint, ...]:
    """What is wrong with the text of a file; nothing where it is a recipe."""
    try:
        read_recipe(text, path)
    except InputFault as fault:
        return fault.complaints
    return ()


@pytest.mark.parametrize("path", STARTERS, ids=lambda path: path.stem)
def test_a_recipe_written_on_one_line_a_key_reads_the_same(path: Path) -> None:
    plain = as_file(tomllib.loads(STARTERS[path]))
    assert read_recipe(plain, path) == read_recipe(STARTERS[path], path)


@settings(deadline=None, max_examples=150)
@given(data=st.data())
def test_a_recipe_with_a_value_changed_or_gone_is_read_or_complained_about(
    data: st.DataObject,
) -> None:
    path = data.draw(st.sampled_from(sorted(STARTERS)))
    tables = copy.deepcopy(tomllib.loads(STARTERS[path]))
    for _ in range(data.draw(st.integers(1, 3))):
        *above, key = data.draw(st.sampled_from(keys_of(tables)))
        inside: Any = tables
        for each in above:
            inside = inside[each]
        if isinstance(inside, dict) and data.draw(st.booleans()):
            del inside[key]
        else:
            inside[key] = data.draw(VALUES)
    complaints = complaints_about(as_file(tables), path)
    assert all(str(path) in each.where and each.what for each in complaints)


@settings(deadline=None, max_examples=100)
@given(text=st.text(max_size=200))
def test_any_text_is_complained_about(text: str) -> None:
    assert complaints_about(text, Path("any.toml"))
