from __future__ import annotations

from pathlib import Path

import pytest
from freezer_process import DAY, NOW, put_in

from batchcook.complaints import InputFault
from batchcook.freezer.changes import Moment
from batchcook.freezer.stock import stock_of
from batchcook.freezer.store import read_journal
from batchcook.freezer.undoing import undo
from batchcook.freezer.verdicts import rate

MOMENT = Moment(NOW, DAY)


def test_the_latest_verdict_stands_and_the_one_before_comes_back(tmp_path: Path) -> None:
    place = tmp_path / "freezer.sqlite"
    put_in(place)
    assert rate(place, "MINESTRONE", "keep", "", MOMENT) == "Minestrone"
    rate(place, "minestrone", "change", "less salt", MOMENT)
    found = stock_of(read_journal(place)).ratings["minestrone"]
    assert (found.verdict, found.note, found.on) == ("change", "less salt", DAY)
    undo(place, None, now=NOW)
    assert stock_of(read_journal(place)).ratings["minestrone"].verdict == "keep"


def test_an_unknown_dish_and_verdict_are_both_told(tmp_path: Path) -> None:
    place = tmp_path / "freezer.sqlite"
    put_in(place)
    with pytest.raises(InputFault) as raised:
        rate(place, "minestroni", "kepe", "", MOMENT)
    assert [each.suggestion for each in raised.value.complaints] == ["minestrone", "keep"]


def test_a_starter_recipe_is_dropped_before_it_was_ever_made(tmp_path: Path) -> None:
    place = tmp_path / "freezer.sqlite"
    assert rate(place, "cottage-pie", "drop", "no meat", MOMENT) == "Cottage pie"
    assert stock_of(read_journal(place)).ratings["cottage-pie"].verdict == "drop"
