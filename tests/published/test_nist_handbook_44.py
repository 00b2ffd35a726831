"""NIST Handbook 44, Appendix C, General Tables of Units of Measurement.

Figures copied into `data/nist_handbook_44_measures.csv`, written from memory of that appendix;
they follow exactly from 1 inch = 2.54 cm, 1 gallon = 231 cubic inches and 1 pound = 453.59237 g.
"""

from __future__ import annotations

import csv
from fractions import Fraction
from pathlib import Path

import pytest

from batchcook.marks import cooks_marks, scale_marks
from batchcook.quantities import parse_amount, ureg

COPY = Path(__file__).parent / "data" / "nist_handbook_44_measures.csv"
TABLE = list(csv.DictReader(COPY.read_text(encoding="utf-8").splitlines()))
NAMES = {
    "avoirdupois pound": "pound",
    "avoirdupois ounce": "ounce",
    "US gallon": "gallon",
    "US liquid quart": "quart",
    "US liquid pint": "pint",
    "US cup": "cup",
    "US fluid ounce": "fl oz",
    "US tablespoon": "tablespoon",
    "US teaspoon": "teaspoon",
}
LAST_PLACES = 1e-15
"""What a double-precision product can lose, relative."""


def figure(measure: str) -> Fraction:
    row = next(row for row in TABLE if row["measure"] == f"1 {measure}")
    return Fraction(row["equals"].removesuffix(" (exact)"))


@pytest.mark.parametrize("row", TABLE, ids=lambda row: f"{row['measure']}-{row['unit']}")
def test_each_measure_is_the_published_one(row: dict[str, str]) -> None:
    name = row["measure"].removeprefix("1 ")
    ours = parse_amount(f"1 {NAMES.get(name, name)}", where="")
    unit = {"cubic inch": "inch ** 3"}.get(row["unit"], row["unit"])
    published = float(row["equals"].removesuffix(" (exact)"))
    assert float(ours.to(unit).magnitude) == pytest.approx(published, rel=LAST_PLACES)


def test_the_published_figures_follow_from_three_of_them() -> None:
    inch, pound = figure("inch"), figure("avoirdupois pound")
    gallon = 231 * inch**3
    assert figure("avoirdupois ounce") == pound / 16
    assert figure("US liquid quart") * 1000 == gallon / 4
    assert figure("US liquid pint") == gallon / 8
    assert figure("US cup") == gallon / 16
    assert figure("US fluid ounce") == gallon / 128
    assert figure("US tablespoon") == gallon / 256
    assert figure("US teaspoon") == gallon / 768
    assert figure("cubic foot") * 1000 == (12 * inch) ** 3


@pytest.mark.parametrize("system", ["us", "metric"])
def test_marks_of_spoons_cups_jugs_and_scales_lie_where_their_units_do(system: str) -> None:
    laid = [
        (cooks_marks(system, "volume"), "teaspoon"),
        (cooks_marks(system, "solid"), "teaspoon"),
        (cooks_marks(system, "mass"), "gram"),
        (scale_marks(system), "gram"),
    ]
    for (marks, tail), base in laid:
        for at, (number, unit) in marks.items():
            measured = ureg.Quantity(float(number), unit).to(base)
            assert float(measured.magnitude) == pytest.approx(at, rel=LAST_PLACES)
        step = ureg.Quantity(float(tail.number), tail.unit).to(base)
        assert float(step.magnitude) == pytest.approx(tail.step, rel=LAST_PLACES)
