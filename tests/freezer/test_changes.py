from __future__ import annotations

import datetime as dt
import json
from pathlib import Path

import pytest
from freezer_process import DAY, NOW, put_in, soup

from batchcook.complaints import InputFault
from batchcook.freezer.adding import corrected_details
from batchcook.freezer.changes import Moment, add, correct, pack, take, throw
from batchcook.freezer.codes import short_codes
from batchcook.freezer.stock import Stock, stock_of
from batchcook.freezer.store import read_journal
from batchcook.freezer.thawing import thaw
from batchcook.freezer.undoing import history, undo
from batchcook.quantities import ureg

MOMENT = Moment(NOW, DAY)


@pytest.fixture
def place(tmp_path: Path) -> Path:
    return tmp_path / "freezer.sqlite"


def stock(place: Path) -> Stock:
    return stock_of(read_journal(place))


def codes(place: Path) -> list[str]:
    return sorted(short_codes(stock(place)).values())


def labelled(code: str, dish: str = "Beef stew", packed_on: dt.date = DAY) -> dict[str, object]:
    return {"code": code, **soup(dish, packed_on)}


def test_what_is_taken_is_gone_and_what_is_undone_is_back(place: Path) -> None:
    put_in(place, 3)
    take(place, ["z1", "Z3"], MOMENT)
    assert codes(place) == ["Z2"]
    assert undo(place, None, now=NOW) == "step 2: Z1 and Z3 eaten"
    assert codes(place) == ["Z1", "Z2", "Z3"]


def test_an_undoing_can_be_undone(place: Path) -> None:
    put_in(place)
    take(place, ["Z1"], MOMENT)
    undo(place, None, now=NOW)
    assert undo(place, 3, now=NOW) == "step 3: step 2 undone"
    assert codes(place) == []
    undo(place, 4, now=NOW)
    assert codes(place) == ["Z1"]


def test_undoing_again_and_again_goes_back_step_by_step(place: Path) -> None:
    put_in(place, 2)
    take(place, ["Z1"], MOMENT)
    throw(place, ["Z2"], "spilled", MOMENT)
    undo(place, None, now=NOW)
    undo(place, None, now=NOW)
    assert codes(place) == ["Z1", "Z2"]
    undo(place, None, now=NOW)
    assert codes(place) == []
    with pytest.raises(InputFault, match="nothing to undo"):
        undo(place, None, now=NOW)


def test_what_a_later_step_builds_on_is_not_undone_alone(place: Path) -> None:
    put_in(place, 2)
    take(place, ["Z1"], MOMENT)
    with pytest.raises(InputFault, match="step 2: Z1 eaten"):
        undo(place, 1, now=NOW)
    undo(place, 2, now=NOW)
    undo(place, 1, now=NOW)
    assert codes(place) == []


def test_an_undoing_on_which_a_later_step_builds_stays(place: Path) -> None:
    put_in(place)
    take(place, ["Z1"], MOMENT)
    undo(place, 2, now=NOW)
    throw(place, ["Z1"], "spilled", MOMENT)
    with pytest.raises(InputFault, match="cannot be undone alone"):
        undo(place, 3, now=NOW)


@pytest.mark.parametrize(("step", "words"), [(9, "there is no step 9"), (2, "undone already")])
def test_a_step_that_is_not_there_or_undone_is_refused(place: Path, step: int, words: str) -> None:
    put_in(place)
    take(place, ["Z1"], MOMENT)
    undo(place, None, now=NOW)
    with pytest.raises(InputFault, match=words):
        undo(place, step, now=NOW)


def test_every_wrong_code_is_told_and_none_is_taken(place: Path) -> None:
    put_in(place, 3)
    take(place, ["Z3"], MOMENT)
    with pytest.raises(InputFault) as raised:
        take(place, ["Z1", "Z1", "Z9", "Z3"], MOMENT)
    told = [str(each) for each in raised.value.complaints]
    assert len(told) == 3
    assert "named twice" in told[0]
    assert "is no container in the freezer" in told[1]
    assert "is not in the freezer any more" in told[2]
    assert codes(place) == ["Z1", "Z2"]


def test_the_same_code_of_two_prep_days_is_told_apart_by_the_day(place: Path) -> None:
    before = DAY - dt.timedelta(days=28)
    pack(place, [labelled("A1", packed_on=before)], Moment(NOW, before))
    packed = pack(place, [labelled("A1", "Cottage pie"), labelled("A2", "Cottage pie")], MOMENT)
    assert packed.shared == ("A1",)
    assert codes(place) == ["A1@2026-02-14", "A1@2026-03-14", "A2"]
    with pytest.raises(InputFault, match="A1@2026-02-14 is Beef stew; A1@2026-03-14 is Cottage"):
        take(place, ["A1"], MOMENT)
    take(place, ["a1@2026-02-14"], MOMENT)
    assert codes(place) == ["A1", "A2"]
    assert take(place, ["A1"], MOMENT)[0].title == "Cottage pie"


def test_a_plan_is_packed_once(place: Path) -> None:
    plan = [labelled("A1"), labelled("A2")]
    pack(place, plan, MOMENT)
    take(place, ["A1"], MOMENT)
    with pytest.raises(InputFault) as raised:
        pack(place, [*plan, labelled("A3")], MOMENT)
    (complaint,) = raised.value.complaints
    assert "in the book already: A1 A2, " in str(complaint)
    assert codes(place) == ["A2"]


def test_a_packing_that_was_undone_can_be_packed_again(place: Path) -> None:
    pack(place, [labelled("A1")], MOMENT)
    undo(place, None, now=NOW)
    assert pack(place, [labelled("A1")], MOMENT).codes == ("A1",)


def test_another_dish_of_the_same_day_gets_a_letter_on_its_label(place: Path) -> None:
    pack(place, [labelled("A1")], MOMENT)
    packed = pack(place, [labelled("A1", "Cottage pie")], MOMENT)
    assert packed.relabel == {"A1": "A1b"}
    assert take(place, ["A1B"], MOMENT)[0].title == "Cottage pie"


def test_a_plan_that_was_relabelled_is_packed_once_as_well(place: Path) -> None:
    other = [labelled("A1", "Cottage pie"), labelled("A2", "Cottage pie")]
    pack(place, [labelled("A1")], MOMENT)
    assert pack(place, other, MOMENT).codes == ("A1b", "A2")
    with pytest.raises(InputFault) as raised:
        pack(place, other, MOMENT)
    assert "in the book already: A1 A2, Cottage pie" in str(raised.value)
    assert pack(place, [labelled("A1", "Chili")], MOMENT).codes == ("A1c",)


def test_no_two_codes_differ_only_in_capitals(place: Path) -> None:
    pack(place, [labelled("A1")], MOMENT)
    assert add(place, soup(), 1, MOMENT, "a1b") == ("A1B",)
    assert pack(place, [labelled("A1", "Cottage pie")], MOMENT).codes == ("A1c",)
    with pytest.raises(InputFault, match="in the book already"):
        add(place, soup(), 1, MOMENT, "A1C")


def test_the_alphabet_ends(place: Path) -> None:
    for number in range(26):
        pack(place, [labelled("A1", f"Dish {number}")], MOMENT)
    with pytest.raises(InputFault, match="26 dishes of 2026-03-14 have it already"):
        pack(place, [labelled("A1", "One more")], MOMENT)


@pytest.mark.parametrize("code", ["@x", "A1@2026-03-14", " ", "-a", "a,b", "A 1", "a" * 13, "Ä1"])
def test_what_could_not_be_typed_as_a_code_is_none(place: Path, code: str) -> None:
    with pytest.raises(InputFault, match="is no code"):
        add(place, soup(), 1, MOMENT, code)
    assert not place.exists()


def test_a_code_of_ones_own_is_found_as_it_was_typed(place: Path) -> None:
    assert add(place, soup(), 1, MOMENT, " a1 ") == ("A1",)
    assert take(place, [" a1"], MOMENT)[0].code == "A1"


def test_no_number_comes_twice_after_an_undoing_either(place: Path) -> None:
    assert put_in(place, 2) == ("Z1", "Z2")
    undo(place, None, now=NOW)
    assert put_in(place) == ("Z3",)
    undo(place, 2, now=NOW)
    assert codes(place) == ["Z1", "Z2", "Z3"]


def test_what_came_in_anew_is_not_brought_back_beside_it(place: Path) -> None:
    pack(place, [labelled("A1")], MOMENT)
    undo(place, 1, now=NOW)
    pack(place, [labelled("A1")], MOMENT)
    undo(place, 3, now=NOW)
    undo(place, 2, now=NOW)
    with pytest.raises(InputFault, match=r"bring A1@2026-03-14 in twice: step 1: .*, and step 3: "):
        undo(place, 4, now=NOW)
    assert codes(place) == ["A1"]
    undo(place, 1, now=NOW)
    undo(place, 4, now=NOW)
    assert codes(place) == ["A1"]


def test_thawing_starts_the_clock_and_happens_once(place: Path) -> None:
    put_in(place)
    thaw(place, ["Z1"], MOMENT)
    (only,) = stock(place).here.values()
    assert only.place == "refrigerator"
    # A soup keeps 3 days (the short end of the chart), after the day that it thaws.
    assert only.eat_by == DAY + dt.timedelta(days=1 + 3)
    with pytest.raises(InputFault, match="in the refrigerator already"):
        thaw(place, ["Z1"], MOMENT)
    assert take(place, ["Z1"], MOMENT)


def test_a_correction_stands_and_its_dates_follow(place: Path) -> None:
    put_in(place)
    earlier = DAY - dt.timedelta(days=31)
    correct(
        place,
        "Z1",
        lambda stored: corrected_details(stored, portions=3, packed_on=earlier),
        MOMENT,
    )
    (only,) = stock(place).here.values()
    assert (only.portions, only.packed_on) == (3, earlier)
    assert only.best_by == dt.date(2026, 4, 11)
    undo(place, None, now=NOW)
    (only,) = stock(place).here.values()
    assert (only.portions, only.packed_on) == (4, DAY)


def test_the_date_on_a_package_outlives_any_correction(place: Path) -> None:
    package = dt.date(2026, 5, 1)
    add(place, soup(use_by=package), 1, MOMENT)

    def use_by(packed_on: dt.date) -> dt.date:
        correct(place, "Z1", lambda each: corrected_details(each, packed_on=packed_on), MOMENT)
        (only,) = stock(place).here.values()
        assert only.best_by <= only.use_by
        return only.use_by

    # By the chart a soup keeps 2 to 3 months: until 14 June, 1 April, 10 June.
    assert next(iter(stock(place).here.values())).use_by == package
    assert use_by(dt.date(2026, 1, 1)) == dt.date(2026, 4, 1)
    assert use_by(dt.date(2026, 3, 10)) == package


def test_days_that_cannot_be_are_refused(place: Path) -> None:
    early, late = DAY - dt.timedelta(days=9), DAY + dt.timedelta(days=1)
    with pytest.raises(InputFault, match="2026-03-15 is after 2026-03-14"):
        add(place, soup(packed_on=late), 1, MOMENT)
    with pytest.raises(InputFault, match="2026-03-13 is before it was frozen"):
        soup(use_by=DAY - dt.timedelta(days=1))
    add(place, soup(use_by=DAY), 1, MOMENT)
    add(place, soup(packed_on=early), 1, MOMENT)

    def frozen_on(code: str, packed_on: dt.date) -> None:
        correct(place, code, lambda each: corrected_details(each, packed_on=packed_on), MOMENT)

    with pytest.raises(InputFault, match="2026-03-15 is after 2026-03-14"):
        frozen_on("Z2", late)
    with pytest.raises(InputFault, match="after the date on its package"):
        frozen_on("Z1", late)
    thaw(place, ["Z2"], Moment(NOW, early))
    with pytest.raises(InputFault, match="after the day it went to the refrigerator"):
        frozen_on("Z2", DAY)
    assert len(read_journal(place).entries) == 3


def test_nothing_happens_to_a_container_before_it_was_frozen_or_thawed(place: Path) -> None:
    put_in(place)
    before = Moment(NOW, DAY - dt.timedelta(days=1))
    for change in (take, thaw, lambda *said: throw(said[0], said[1], "spilled", said[2])):
        with pytest.raises(
            InputFault, match=r"(was frozen on 2026-03-14|Z1 went into the freezer)"
        ):
            change(place, ["Z1"], before)
    thaw(place, ["Z1"], MOMENT)
    next_day = Moment(NOW + dt.timedelta(days=1), DAY + dt.timedelta(days=1))
    assert take(place, ["Z1"], next_day)
    add(place, soup(packed_on=DAY - dt.timedelta(days=9)), 1, MOMENT)
    thaw(place, ["Z2"], MOMENT)
    with pytest.raises(InputFault, match="went to the refrigerator on 2026-03-14"):
        take(place, ["Z2"], before)


def test_a_correction_of_nothing_is_refused(place: Path) -> None:
    put_in(place)
    with pytest.raises(InputFault, match="nothing was named"):
        correct(place, "Z1", corrected_details, MOMENT)


def test_numbers_go_on_after_those_that_are_gone(place: Path) -> None:
    put_in(place, 2)
    take(place, ["Z2"], MOMENT)
    assert put_in(place) == ("Z3",)


def test_a_code_of_ones_own_is_for_one_container(place: Path) -> None:
    assert add(place, soup(), 1, MOMENT, "s1") == ("S1",)
    with pytest.raises(InputFault, match="in the book already"):
        add(place, soup(), 1, MOMENT, "S1")
    with pytest.raises(InputFault, match="one code for 2"):
        add(place, soup(), 2, MOMENT, "S2")


def test_nothing_happens_on_a_day_still_to_come(place: Path) -> None:
    put_in(place)
    with pytest.raises(InputFault, match="still to come"):
        take(place, ["Z1"], Moment(NOW, DAY + dt.timedelta(days=1)))


def test_the_history_tells_everything_that_is_undone_too(place: Path) -> None:
    put_in(place)
    thaw(place, ["Z1"], MOMENT)
    throw(place, ["Z1"], "forgotten", MOMENT)
    undo(place, None, now=NOW)
    told = history(read_journal(place), "z1")
    assert [(each.step, each.words, each.counts) for each in told] == [
        (1, "Minestrone, serves 4, put into the freezer", True),
        (2, "moved to the refrigerator", True),
        (3, "thrown out: forgotten", False),
    ]
    with pytest.raises(InputFault, match="never in the freezer"):
        history(read_journal(place), "Q7")


def test_every_entry_carries_its_day_and_when_it_was_written(place: Path) -> None:
    put_in(place)
    take(place, ["Z1"], Moment(NOW, DAY - dt.timedelta(days=0)))
    entry = read_journal(place).entries[1]
    assert (entry.on, entry.at, json.loads(entry.details)) == (
        "2026-03-14",
        "2026-03-14T18:30:00+00:00",
        {},
    )


def test_a_weight_set_right_changes_only_how_long_it_thaws_and_never_below_a_plan(
    place: Path,
) -> None:
    heavy = ureg.Quantity(9, "pound")
    add(place, {**soup(), "thaw": "either", "holds": "deep pan", "thaw_days": 2}, 1, MOMENT, "A1")
    add(place, soup(thaw_days=0), 1, MOMENT, "A2")
    for code in ("A1", "A2"):
        correct(place, code, lambda stored: corrected_details(stored, weight=heavy), MOMENT)
    found = {each.code: each for each in stock(place).here.values()}
    assert (found["A1"].thaw, found["A1"].thaw_days) == ("either", 3)
    assert (found["A2"].thaw, found["A2"].thaw_days) == ("from-frozen", 0)
    light = ureg.Quantity(1, "pound")
    correct(place, "A1", lambda stored: corrected_details(stored, weight=light), MOMENT)
    assert stock(place).here[found["A1"].key].thaw_days == 3
