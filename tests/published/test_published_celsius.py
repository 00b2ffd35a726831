"""The degC that sources print beside their degF.

FoodSafety.gov, Safe Minimum Internal Temperatures (145 degF with 63 degC; 160 and 71; 165 and 74),
read in a reprint on 2026-11-25. From memory: USDA FSIS, "Danger Zone" and Freezing and Food Safety
(40 and 4.4; 90 and 32.2; 140 and 60; 0 and -17.8), and the FDA Food Code, section 3-501.14 (135 and
57; 70 and 21; 41 and 5). Copied into `data/celsius.csv`.
"""

from __future__ import annotations

import csv
from pathlib import Path

from batchcook.foodsafety.celsius import celsius, published_celsius
from batchcook.foodsafety.limits import limits
from batchcook.foodsafety.tables import table
from batchcook.foodsafety.temperatures import safe_temperatures

COPY = Path(__file__).parent / "data" / "celsius.csv"
PRINTED = list(csv.DictReader(COPY.read_text(encoding="utf-8").splitlines()))


def test_our_figures_are_those_that_are_printed_with_their_source() -> None:
    ours = {
        (fahrenheit, in_celsius, entry["source"])
        for entry in table("celsius").values()
        for fahrenheit, in_celsius in zip(entry["degF"], entry["degC"], strict=True)
    }
    assert ours == {(int(row["degF"]), int(row["degC"]), row["source"]) for row in PRINTED}


def test_a_whole_degree_is_never_laxer_than_printed_tenths() -> None:
    for row in PRINTED:
        if float(row["degF"]) < 100:
            assert int(row["degC"]) <= float(row["published"])
        else:
            assert int(row["degC"]) >= float(row["published"])


def test_every_temperature_that_is_a_safety_figure_has_one() -> None:
    cooked = {row.fahrenheit for row in safe_temperatures().values()}
    held = {
        round(figure)
        for each in limits().values()
        if each.unit == "degF" and each.source.key != "extension-freezing"
        for figure in (each.low, each.high)
        if figure is not None
    }
    assert cooked | held <= set(published_celsius())


def test_an_oven_is_set_in_steps_of_five_and_anything_else_told_to_a_degree() -> None:
    assert [celsius(each) for each in (350, 375, 400, 425)] == [175, 190, 205, 220]
    assert [celsius(each) for each in (195, 120, 50, -10)] == [91, 49, 10, -23]
