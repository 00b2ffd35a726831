from __future__ import annotations

import pytest

from batchcook.complaints import Complaint, InputFault
from batchcook.metricwords import metric_fault, metric_words


@pytest.mark.parametrize(
    ("text", "metric"),
    [
        ("until 165 degF in the middle.", "until 74 degC in the middle."),
        ("safe from 160 degF", "safe from 71 degC"),
        ("Tender at 195 to 205 degF.", "Tender at 91 to 96 degC."),
        ("Keep at 34 to 40 degF.", "Keep at 1 to 4 degC."),
        ("between 36-38 degF", "between 2-3 degC"),
        ("between 40 and 140 degF", "between 4 and 60 degC"),
        ("Turn the freezer down to -10 degF.", "Turn the freezer down to -23 degC."),
        ("at 0 degF or below", "at -18 degC or below"),
        ("Oven 375 degF, 40 min thawed", "Oven 190 degC, 40 min thawed"),
        ("Warm 2 portions to 165 degF", "Warm 2 portions to 74 degC"),
        ("Put by 2 and 165 degF", "Put by 2 and 74 degC"),
        ("Cut beef chuck into 1-inch cubes", "Cut beef chuck into 2.5 cm cubes"),
        ("1/2-inch dice", "1.5 cm dice"),
        ("1 1/2-inch chunks", "4 cm chunks"),
        ("4 x foil pan with lid, 8 x 8 inch", "4 x foil pan with lid, 20 x 20 cm"),
        ("a pan of 9 x 13 inches", "a pan of 23 x 33 cm"),
        ("quart tub, 4.25 in deep, straight", "quart tub, 11 cm deep, straight"),
        ("at most 2 inches deep", "at most 5 cm deep"),
        ("a quart tub in the refrigerator", "a quart tub in the refrigerator"),
        ("74 degC already", "74 degC already"),
    ],
)
def test_temperatures_and_lengths_are_told_in_metric(text: str, metric: str) -> None:
    assert metric_words(text) == metric
    assert metric_words(metric) == metric


def test_room_is_told_in_litres() -> None:
    # A cubic foot is 28.316847 L: NIST Handbook 44, Appendix C.
    told = "takes 3.7 cubic feet with air around it, 3.5 cubic feet are free"
    assert metric_words(told) == "takes 105 litres with air around it, 100 litres are free"
    assert metric_words("1 cubic foot") == "30 litres"


def test_a_fault_is_told_in_metric_words_with_its_place_as_it_is() -> None:
    fault = InputFault(Complaint("kitchen.toml, room", "95 degF", "below 90 degF", "room"))
    (told,) = metric_fault(fault).complaints
    assert (told.where, told.suggestion) == ("kitchen.toml, room", "room")
    assert (told.what, told.expected) == ("35 degC", "below 32 degC")
