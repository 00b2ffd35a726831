"""No sentence of the library that checks a file's shape reaches the writer of the file."""

from __future__ import annotations

import datetime as dt
from typing import Annotated, Literal

import pytest
from pydantic import BaseModel, ConfigDict, Field, field_validator

from batchcook.complaints import InputFault
from batchcook.tomlplaces import Places, read_table


class Inner(BaseModel):
    model_config = ConfigDict(extra="forbid")
    size: float = Field(1, gt=0, lt=9)


class Model(BaseModel):
    model_config = ConfigDict(extra="forbid")
    count: Annotated[int, Field(ge=1, le=8)] = 1
    least: Annotated[int, Field(ge=3)] = 3
    share: float = 1.0
    name: Annotated[str, Field(min_length=1)] = "a"
    code: Annotated[str, Field(pattern="^a+$")] = "a"
    sure: bool = True
    on: dt.date = dt.date(2027, 1, 16)
    at: dt.datetime = dt.datetime(2027, 1, 16, 8, tzinfo=dt.UTC)
    items: Annotated[list[str], Field(min_length=2, max_length=3)] = ["a", "b"]
    few: dict[str, int] = {}
    inner: Inner = Inner()
    maybe: Annotated[int, Field(le=5)] | None = None
    way: Literal["up", "down"] = "up"
    odd: int = 1

    @field_validator("odd")
    @classmethod
    def _odd(cls, value: int) -> int:
        if value % 2 == 0:
            raise ValueError("is even")
        return value


LIBRARY = (
    "Input should",
    "input was",
    "valid ",
    "Value error",
    "ensure",
    "should have",
    "pydantic",
)


@pytest.mark.parametrize(
    ("key", "value", "told"),
    [
        ("count", 0, "0 does not fit here; expected a whole number, 1 to 8"),
        ("count", "two", "'two' does not fit here; expected a whole number, 1 to 8"),
        ("count", 2.5, "2.5 does not fit here; expected a whole number, 1 to 8"),
        ("least", 1, "1 does not fit here; expected a whole number, 3 or more"),
        ("share", "much", "'much' does not fit here; expected a number"),
        ("name", "", "'' does not fit here; expected something"),
        ("name", 3, "3 does not fit here; expected text in quotes"),
        ("code", "b", "'b' does not fit here; expected text of another form"),
        ("sure", "perhaps", "'perhaps' does not fit here; expected true or false"),
        ("on", "soon", "'soon' does not fit here; expected a date such as 2027-01-16"),
        ("on", dt.datetime(2027, 1, 16, 8, tzinfo=dt.UTC), "expected a date such as 2027-01-16"),
        ("on", True, "true does not fit here; expected a date such as 2027-01-16"),
        ("at", "soon", "expected a day and time such as 2027-01-16T08:00"),
        ("items", "a", "'a' does not fit here; expected a list in square brackets"),
        ("items", ["a"], "is a list; expected 2 entries or more"),
        ("items", ["a"] * 4, "is a list; expected 3 or fewer"),
        ("few", {"a": "b"}, "'b' does not fit here; expected a whole number"),
        ("few", 1, "1 does not fit here; expected a table with keys of its own"),
        ("inner", 1, "1 does not fit here; expected a table with keys of its own"),
        ("inner", {"size": 9}, "9 does not fit here; expected a whole number, more than 0"),
        ("maybe", 6, "6 does not fit here; expected a whole number, 5 or less"),
        ("way", "sideways", "unknown value 'sideways'; expected one of up, down"),
        ("way", dt.time(8), "unknown value 08:00:00; expected one of up, down"),
        ("odd", 2, "file.toml, odd: is even"),
    ],
)
def test_a_fault_of_shape_is_told_in_our_own_words(key: str, value: object, told: str) -> None:
    with pytest.raises(InputFault) as caught:
        read_table(Model, {key: value}, Places("file.toml"))
    said = str(caught.value)
    assert told in said
    assert not [each for each in LIBRARY if each in said]
