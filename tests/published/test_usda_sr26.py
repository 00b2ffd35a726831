"""USDA National Nutrient Database for Standard Reference, Release 26 (2013).

Gram weights of household measures and the refuse share of a food as purchased, copied into
`data/usda_sr26_household_weights.csv`; public domain.
"""

from __future__ import annotations

import csv
from fractions import Fraction
from pathlib import Path

import pytest

from batchcook.foods import Food, load_foods
from batchcook.foodstuffs.measures import Measure

COPY = Path(__file__).parent / "data" / "usda_sr26_household_weights.csv"
ROWS = list(csv.DictReader(COPY.read_text(encoding="utf-8").splitlines()))
PUBLISHED = {(row["ndb_no"], row["measure"], Fraction(row["amount"])): row for row in ROWS}
OF_SR26 = [each for each in load_foods().values() if each.ndb is not None]
FIGURES = [(each, measure) for each in OF_SR26 for measure in each.measures if not measure.ours]


def test_no_amount_of_a_measure_stands_twice_in_the_published_copy() -> None:
    assert len(PUBLISHED) == len(ROWS)


def test_most_of_our_figures_are_published_ones() -> None:
    ours = [measure for each in load_foods().values() for measure in each.measures if measure.ours]
    assert len(FIGURES) > 6 * len(ours)


@pytest.mark.parametrize(
    ("food", "measure"), FIGURES, ids=[f"{food.key}-{measure.sr26}" for food, measure in FIGURES]
)
def test_each_figure_is_the_published_one(food: Food, measure: Measure) -> None:
    row = PUBLISHED[str(food.ndb), measure.sr26, Fraction(str(measure.amount))]
    assert Fraction(str(measure.grams)) == Fraction(row["grams"])
    assert float(measure.weight.to("gram").magnitude) == float(row["grams"]) / float(row["amount"])


@pytest.mark.parametrize(("food", "measure"), FIGURES)
def test_a_whole_measure_is_preferred_where_parts_of_it_are_published_too(
    food: Food, measure: Measure
) -> None:
    if (str(food.ndb), measure.sr26, Fraction(1)) in PUBLISHED:
        assert measure.amount == 1


@pytest.mark.parametrize("food", OF_SR26, ids=lambda food: str(food.key))
def test_each_description_and_refuse_share_is_the_published_one(food: Food) -> None:
    row = next(row for row in ROWS if row["ndb_no"] == food.ndb)
    assert food.sr26 == row["description"]
    assert Fraction(str(food.refuse_percent)) == Fraction(row["refuse_percent"])


@pytest.mark.parametrize(("food", "measure"), FIGURES)
def test_a_measure_is_of_the_unit_that_its_published_name_says(
    food: Food, measure: Measure
) -> None:
    words = {"teaspoon": ("tsp",), "tablespoon": ("tbsp", "tablespoon"), "cup": ("cup",)}
    said = words.get(measure.unit)
    if said is not None:
        assert measure.sr26.startswith(said), food.key
