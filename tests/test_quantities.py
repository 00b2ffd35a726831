from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from batchcook.complaints import Complaint, InputFault
from batchcook.quantities import (
    COUNTS,
    Quantity,
    kitchen_round,
    parse_amount,
    parse_temperature,
    say,
    ureg,
)

SEVENTH = 1 / 7 + 1e-9
THIRTIETH = 1 / 30
SYSTEMS = st.sampled_from(["us", "metric"])


def only_complaint(text: str) -> Complaint:
    with pytest.raises(InputFault) as caught:
        parse_amount(text, where="the place")
    (complaint,) = caught.value.complaints
    assert complaint.where == "the place"
    return complaint


@pytest.mark.parametrize(
    ("text", "number", "unit"),
    [
        ("2 cup", 2, "cup"),
        ("2 cups", 2, "cup"),
        ("1/2 tsp", 0.5, "teaspoon"),
        ("350 g", 350, "gram"),
        ("350g", 350, "gram"),
        ("1 1/3 cups", 4 / 3, "cup"),
        ("3 lb", 3, "pound"),
        ("2.5 kg", 2.5, "kilogram"),
        ("2 each", 2, "each"),
        ("2 clove", 2, "clove"),
        ("2 cloves", 2, "clove"),
        ("1 can", 1, "can"),
        ("10 fl oz", 10, "fluid_ounce"),
        ("250 mL", 250, "millilitre"),
        ("4 1/2 inch", 4.5, "inch"),
        ("  1  1/2  TBSP ", 1.5, "tablespoon"),
    ],
)
def test_an_amount_is_read_as_a_cook_writes_it(text: str, number: float, unit: str) -> None:
    found = parse_amount(text, where="")
    assert float(found.magnitude) == pytest.approx(number, rel=1e-15)
    assert found.units == ureg.Unit(unit)


@pytest.mark.parametrize(
    ("text", "what"),
    [
        ("-1 cup", "'-1 cup' is below zero"),
        ("0 cup", "'0 cup' is nothing"),
        ("0/4 cup", "'0/4 cup' is nothing"),
        ("100000 lb", "'100000 lb' is more than any kitchen has"),
        ("1/0 cup", "'1/0 cup' is no amount"),
        ("a pinch", "'a pinch' is no amount"),
        ("", "'' is no amount"),
        ("1e3 g", "'1e3 g' is no amount"),
        ("3", "'3' has no unit"),
        ("nan cup", "'nan cup' is no amount"),
    ],
)
def test_what_is_no_amount_is_a_fault(text: str, what: str) -> None:
    assert only_complaint(text).what == what


@pytest.mark.parametrize(
    ("text", "nearest"), [("2 cusp", "cup"), ("1 tbps", "tbsp"), ("3 punds", "pound")]
)
def test_an_unknown_unit_comes_with_the_nearest_known_one(text: str, nearest: str) -> None:
    complaint = only_complaint(text)
    assert "unknown unit" in complaint.what
    assert complaint.suggestion == nearest


def test_counts_of_different_measures_are_never_added_up() -> None:
    assert len({str(ureg.Unit(name).dimensionality) for name in COUNTS}) == len(COUNTS)


@given(st.text(max_size=12))
def test_any_text_is_an_amount_above_nothing_or_a_fault(text: str) -> None:
    try:
        found = parse_amount(text, where="the place")
    except InputFault:
        return
    assert float(found.magnitude) > 0


def test_a_temperature_is_read_in_either_scale() -> None:
    assert float(parse_temperature("375 degF", where="").magnitude) == pytest.approx(375)
    assert float(parse_temperature("190 degC", where="").magnitude) == pytest.approx(374)


@pytest.mark.parametrize("text", ["375", "hot", "375 cup", "F"])
def test_what_is_no_temperature_is_a_fault(text: str) -> None:
    with pytest.raises(InputFault, match="no temperature"):
        parse_temperature(text, where="oven")


@pytest.mark.parametrize(
    ("amount", "us", "metric"),
    [
        ("1 1/3 cup", "1 1/3 cups", "325 mL"),
        ("4 tbsp", "1/4 cup", "60 mL"),
        ("3 tsp", "1 tbsp", "1 tbsp"),
        ("4 tsp", "4 tsp", "4 tsp"),
        ("1/2 tsp", "1/2 tsp", "1/2 tsp"),
        ("1 cup", "1 cup", "240 mL"),
        ("16 cup", "4 quarts", "3.8 L"),
        ("11 cup", "2 3/4 quarts", "2.6 L"),
        ("640 g", "1 1/2 lb", "650 g"),
        ("5 lb", "5 lb", "2.25 kg"),
        ("14 1/2 oz", "14 1/2 oz", "400 g"),
        ("15.8 oz", "1 lb", "450 g"),
        ("999 g", "2 1/4 lb", "1 kg"),
        ("12 each", "12", "12"),
        ("1 clove", "1 clove", "1 clove"),
        ("2.9 clove", "3 cloves", "3 cloves"),
        ("1 1/2 each", "1 1/2", "1 1/2"),
        ("0.001 tsp", "1/8 tsp", "1/8 tsp"),
        ("0.001 g", "1/4 oz", "1 g"),
    ],
)
def test_an_amount_is_told_as_a_cook_can_measure_it(amount: str, us: str, metric: str) -> None:
    found = parse_amount(amount, where="")
    assert say(found) == us
    assert say(found, "metric") == metric


def test_what_is_weighed_is_told_in_pounds_and_ounces() -> None:
    assert say(ureg.Quantity(2, "pound"), weigh=True) == "2 lb"
    assert say(ureg.Quantity(37, "ounce"), weigh=True) == "2 lb 5 oz"
    assert say(ureg.Quantity(1.234, "kilogram"), "metric", weigh=True) == "1.25 kg"


def test_a_solid_is_told_in_cups_however_many() -> None:
    assert say(ureg.Quantity(12, "cup"), solid=True) == "12 cups"


def test_a_fiftieth_more_is_not_worth_the_next_size() -> None:
    assert say(ureg.Quantity(1.01, "cup"), up=True) == "1 cup"
    assert say(ureg.Quantity(1.1, "cup"), up=True) == "1 1/4 cups"
    assert say(ureg.Quantity(5.01, "pound"), up=True) == "5 lb"
    assert say(ureg.Quantity(5.12, "pound"), up=True) == "5 1/4 lb"


@pytest.mark.parametrize("bad", [ureg.Quantity(3, "inch"), ureg.Quantity(-1, "cup")])
def test_what_a_cook_does_not_measure_so_is_refused(bad: Quantity) -> None:
    with pytest.raises(ValueError, match=r"neither|no amount"):
        say(bad)


def test_an_unknown_system_is_refused() -> None:
    with pytest.raises(ValueError, match="imperial"):
        say(ureg.Quantity(1, "cup"), "imperial")


def change(number: float, unit: str, system: str, *, weigh: bool = False) -> tuple[float, float]:
    """What rounding changes, in the unit: as a share of the amount, and outright."""
    rounded = kitchen_round(ureg.Quantity(number, unit), system, weigh=weigh)
    outright = abs(float(rounded.to(unit).magnitude) - number)
    return outright / number, outright


@given(st.floats(0.75, 20_000), SYSTEMS)
def test_rounding_changes_a_volume_by_a_seventh_at_most(teaspoons: float, system: str) -> None:
    assert change(teaspoons, "teaspoon", system)[0] <= SEVENTH


@given(st.floats(1, 3000), SYSTEMS)
def test_rounding_changes_a_weight_by_a_seventh_at_most(ounces: float, system: str) -> None:
    assert change(ounces, "ounce", system)[0] <= SEVENTH


@given(st.floats(4, 28.4))
def test_metric_rounding_keeps_to_a_seventh_from_four_grams(grams: float) -> None:
    assert change(grams, "gram", "metric")[0] <= SEVENTH


@given(st.floats(3, 1000), SYSTEMS)
def test_rounding_changes_a_count_by_a_seventh_at_most(pieces: float, system: str) -> None:
    assert change(pieces, "each", system)[0] <= SEVENTH


@given(st.floats(280, 80_000), SYSTEMS)
def test_weighing_keeps_to_a_thirtieth(grams: float, system: str) -> None:
    assert change(grams, "gram", system, weigh=True)[0] <= THIRTIETH


@given(st.floats(1e-6, 0.75), SYSTEMS)
def test_a_small_volume_changes_by_an_eighth_of_a_teaspoon_at_most(
    teaspoons: float, system: str
) -> None:
    assert change(teaspoons, "teaspoon", system)[1] <= 1 / 8


@given(st.floats(1e-6, 1))
def test_a_small_weight_changes_by_a_quarter_of_an_ounce_at_most(ounces: float) -> None:
    assert change(ounces, "ounce", "us")[1] <= 1 / 4


@given(st.floats(1e-6, 4))
def test_a_small_metric_weight_changes_by_a_gram_at_most(grams: float) -> None:
    assert change(grams, "gram", "metric")[1] <= 1


@given(st.floats(1e-6, 3))
def test_a_small_count_changes_by_a_quarter_at_most(pieces: float) -> None:
    assert change(pieces, "each", "us")[1] <= 1 / 4


AMOUNTS: st.SearchStrategy[Quantity] = st.builds(
    ureg.Quantity,
    st.floats(1e-4, 5000),
    st.sampled_from(["teaspoon", "cup", "gram", "ounce", "pound", "litre", "each", "clove"]),
)


@given(AMOUNTS, SYSTEMS, st.booleans())
def test_what_was_rounded_stays_as_it_is(
    amount: Quantity,
    system: str,
    weigh: bool,
) -> None:
    once = kitchen_round(amount, system, weigh=weigh)
    assert float(once.magnitude) > 0
    twice = kitchen_round(once, system, weigh=weigh)
    assert float((twice / once).to("").magnitude) == pytest.approx(1)


@given(AMOUNTS, SYSTEMS)
def test_what_is_told_reads_back_as_what_was_rounded(amount: Quantity, system: str) -> None:
    told = say(amount, system)
    rounded = kitchen_round(amount, system)
    read = parse_amount(told if any(map(str.isalpha, told)) else f"{told} each", where="")
    assert float((read / rounded).to("").magnitude) == pytest.approx(1)


@given(AMOUNTS, SYSTEMS)
def test_rounding_up_falls_short_by_a_fiftieth_at_most(amount: Quantity, system: str) -> None:
    up = kitchen_round(amount, system, up=True)
    assert float((up / amount).to("").magnitude) >= 1 - 0.02 - 1e-9


@given(st.floats(1e-3, 500), st.floats(1, 1.5), SYSTEMS)
def test_more_is_never_told_as_less(cups: float, growth: float, system: str) -> None:
    less = kitchen_round(ureg.Quantity(cups, "cup"), system)
    more = kitchen_round(ureg.Quantity(cups * growth, "cup"), system)
    assert float((more / less).to("").magnitude) >= 1 - 1e-9


@given(st.integers(0, 7), st.sampled_from(["1/4", "1/3", "1/2", "2/3", "3/4"]))
def test_every_part_of_a_cup_that_has_a_measure_is_kept(whole: int, part: str) -> None:
    written = f"{whole} {part}" if whole else part
    number = whole + Fraction(part)
    told = say(parse_amount(f"{written} cup", where=""))
    assert told == f"{written} cup{'s' if number > 1 else ''}"


@pytest.mark.parametrize(
    ("grams", "weighed"),
    [(19, "19 g"), (83, "85 g"), (287, "290 g"), (613, "610 g"), (2318, "2.3 kg"), (4990, "5 kg")],
)
def test_a_metric_scale_is_read_in_the_steps_of_a_kitchen(grams: float, weighed: str) -> None:
    assert say(ureg.Quantity(grams, "gram"), "metric", weigh=True) == weighed
