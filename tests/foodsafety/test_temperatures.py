"""Cook-to and reheat-to temperatures."""

from __future__ import annotations

import itertools

import pytest

from batchcook.complaints import InputFault
from batchcook.foodsafety.kinds import FOOD_KINDS, RAW_MEAT
from batchcook.foodsafety.temperatures import cook_to, reheat_to, tender


@pytest.mark.parametrize(
    ("kind", "degrees", "rest"),
    [
        ("raw-poultry", 165, 0),
        ("raw-ground-poultry", 165, 0),
        ("raw-ground-beef", 160, 0),
        ("raw-ground-pork", 160, 0),
        ("raw-beef", 145, 3),
        ("raw-pork", 145, 3),
        ("raw-fish-fatty", 145, 0),
        ("raw-fish-lean", 145, 0),
        ("egg", 160, 0),
    ],
)
def test_each_kind_has_its_temperature_and_rest(kind: str, degrees: int, rest: int) -> None:
    found = cook_to({kind})
    assert found is not None
    assert (found.fahrenheit, found.rest_minutes) == (degrees, rest)


def test_every_raw_meat_has_a_temperature() -> None:
    assert [kind for kind in sorted(RAW_MEAT) if cook_to({kind}) is None] == []


def test_vegetables_alone_have_none() -> None:
    assert cook_to({"produce", "dry-goods", "spice", "fat"}) is None


def test_of_two_kinds_the_hotter_decides() -> None:
    for first, second in itertools.combinations(sorted(FOOD_KINDS), 2):
        both = cook_to({first, second})
        alone = [row.fahrenheit for row in (cook_to({first}), cook_to({second})) if row]
        assert (both.fahrenheit if both else None) == max(alone, default=None)


def test_equal_temperatures_keep_the_longer_rest() -> None:
    found = cook_to({"raw-fish-lean", "raw-pork"})
    assert found is not None
    assert (found.fahrenheit, found.rest_minutes) == (145, 3)


def test_a_casserole_is_cooked_to_165_whatever_it_holds() -> None:
    for kinds in ({"produce"}, {"raw-beef"}, {"egg", "dairy"}):
        found = cook_to(kinds, "casserole")
        assert found is not None
        assert found.fahrenheit == 165


def test_sausage_of_an_unknown_meat_counts_as_poultry_and_says_so() -> None:
    found = cook_to({"raw-sausage"})
    assert found is not None
    assert found.fahrenheit == 165
    assert "160 degF" in found.note


def test_cooked_dishes_are_reheated_to_165() -> None:
    assert reheat_to().fahrenheit == 165


def test_pulled_shoulder_needs_more_than_safety_does() -> None:
    found = tender("pork-shoulder", "raw-pork")
    safe = cook_to({"raw-pork"})
    assert found is not None
    assert safe is not None
    assert (found.low.magnitude, found.high.magnitude) == (195, 205)
    assert found.low.magnitude > safe.fahrenheit
    assert found.source.title == "common practice, no source"


def test_a_tender_cut_has_no_such_note() -> None:
    assert tender("pork loin chop", "raw-pork") is None


def test_an_unknown_kind_is_refused_with_the_nearest_name() -> None:
    with pytest.raises(InputFault) as fault:
        cook_to({"raw-chicken", "raw-poutry"})
    assert "raw-poultry" in [complaint.suggestion for complaint in fault.value.complaints]
    assert len(fault.value.complaints) == 2
