from __future__ import annotations

import datetime as dt
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from freezer_process import soup

from batchcook.complaints import InputFault
from batchcook.documents.month_sheet import month_sheet_html
from batchcook.freezer.changes import Moment, add, take
from batchcook.freezer.entries import PLANNED, Draft
from batchcook.freezer.evenings import evenings_of
from batchcook.freezer.monthplan import MonthPlan, plan_month
from batchcook.freezer.monthrequest import MonthRequest
from batchcook.freezer.monthwords import month_as_data, month_lines, moves_of, remarks
from batchcook.freezer.stock import stock_of
from batchcook.freezer.store import read_journal, write_entries
from batchcook.freezer.thawing import thaw
from batchcook.freezer.undoing import undo
from batchcook.freezer.verdicts import rate
from batchcook.quantities import ureg

TODAY = dt.date(2026, 1, 30)
NOW = dt.datetime(2026, 1, 30, 12, tzinfo=dt.UTC)
MOMENT = Moment(NOW, TODAY)
TUE_THU = (1, 3)


@pytest.fixture
def place(tmp_path: Path) -> Path:
    return tmp_path / "freezer.sqlite"


def stocked(place: Path) -> None:
    for title, main, packed_on, count in (
        ("Beef stew", "beef", dt.date(2025, 12, 10), 3),
        ("Minestrone", "beans", dt.date(2026, 1, 10), 4),
        ("Chicken soup", "chicken", dt.date(2026, 1, 20), 4),
    ):
        details = soup(title, packed_on, main=main)
        add(place, details, count, MOMENT)


def plan(place: Path, today: dt.date = TODAY, **asked: Any) -> MonthPlan:  # noqa: ANN401 - a request's own fields
    given: dict[str, Any] = {"first": dt.date(2026, 2, 1), "weekdays": TUE_THU}
    request = MonthRequest(**(given | asked))
    return plan_month(place, request, today, now=NOW)


def titles(planned: MonthPlan) -> dict[int, str]:
    return {each.evening.on.day: each.evening.title for each in planned.dinners}


def on(number: int) -> dt.date:
    return dt.date(2026, 2, number)


def test_the_nights_are_filled_and_what_passes_best_by_first_comes_first(place: Path) -> None:
    stocked(place)
    planned = plan(place)
    assert list(titles(planned)) == [3, 5, 10, 12, 17, 19, 24, 26]
    assert all(titles(planned).values())
    # The stew is best by 10 February; of Tuesday, Thursday, Tuesday it can have two.
    assert titles(planned)[3] == titles(planned)[10] == "Beef stew"
    assert [each.title for each in planned.passing] == ["Beef stew"]
    assert planned.proved
    assert "1 container passes best by" in month_lines(planned)[0]
    assert "fewer is not possible" in month_lines(planned)[0]


def test_no_main_ingredient_on_two_nights_running(place: Path) -> None:
    stocked(place)
    mains = [each.evening.mains for each in plan(place).dinners]
    assert all(first != second for first, second in pairwise(mains))


def test_planning_again_changes_nothing_and_writes_nothing(place: Path) -> None:
    stocked(place)
    first = plan(place)
    content = place.read_bytes()
    again = plan(place, weekdays=None)
    assert again.dinners == first.dinners
    assert place.read_bytes() == content


def test_without_nights_now_or_before_there_is_a_fault(place: Path) -> None:
    with pytest.raises(InputFault, match="--nights"):
        plan(place, weekdays=None)


def test_the_next_month_goes_on_with_the_nights_and_the_people_of_the_month_before(
    place: Path,
) -> None:
    stocked(place)
    plan(place, people=2, table={on(10): 6})
    march = plan(place, first=dt.date(2026, 3, 1), weekdays=None)
    assert [each.evening.on.day for each in march.dinners] == [3, 5, 10, 12, 17, 19, 24, 26, 31]
    assert {each.evening.people for each in march.dinners} == {2}
    january = {"first": dt.date(2026, 1, 1), "weekdays": None}
    with pytest.raises(InputFault, match="--nights"):
        plan(place, dt.date(2026, 1, 12), **january)


def test_what_the_calendar_said_stands_until_it_is_read_anew(place: Path) -> None:
    stocked(place)
    crunch, away = {on(6): ("Choir",)}, {on(10): ("Holiday",)}
    plan(place, crunch=crunch, away=away, calendar=True)
    again = plan(place, weekdays=None, swaps=((on(3), on(5)),))
    assert 6 in titles(again)
    assert 10 not in titles(again)
    assert again.crunch == crunch
    assert "The family's calendar counts as it was read last" in month_lines(again)[-1]
    content = place.read_bytes()
    plan(place, weekdays=None)
    assert place.read_bytes() == content
    anew = plan(place, calendar=True)
    assert 6 not in titles(anew)
    assert 10 in titles(anew)
    march = plan(place, first=dt.date(2026, 3, 1), weekdays=None)
    assert (march.crunch, march.away) == ({}, {})


def test_evenings_without_a_dinner_are_the_last_and_are_told_once(place: Path) -> None:
    add(place, soup("Stew", dt.date(2026, 1, 20), main="beef"), 1, MOMENT)
    add(place, soup("Soup", dt.date(2026, 1, 20), main="beans"), 1, MOMENT)
    planned = plan(place, weekdays=(1,))
    assert [each.evening.on.day for each in planned.dinners if each.containers] == [3, 10]
    assert remarks(planned, planned.dinners[-1]) == ("no dinner",)
    assert month_lines(planned)[1].startswith("2 evenings without a dinner: what is left does not")


def test_not_more_is_left_for_the_next_month_than_it_can_eat_in_time(place: Path) -> None:
    # Two at the table: pans of four leave two portions, and there is soup enough for February. But
    # the pans are best by 10 March, and March can have one of them by then, not two running.
    for title, main, portions in (("Pie", "potato", 4), ("Soup", "beans", 2), ("Dal", "rice", 2)):
        details = soup(title, dt.date(2026, 1, 10), main=main, portions=portions)
        best_by = {"best_by": "2026-03-10" if title == "Pie" else "2026-04-01"}
        add(place, details | best_by, 3, MOMENT)
    asked: dict[str, Any] = {"weekdays": (1,), "people": 2}
    ahead = plan(place, **asked)
    assert sorted(titles(ahead).values()).count("Pie") == 2
    # Where March is planned already, its dinners are taken, and nothing is guessed about it.
    march = plan(place, first=dt.date(2026, 3, 1), **asked)
    assert not march.passing


def test_what_is_fixed_stays_when_the_month_is_planned_again(place: Path) -> None:
    stocked(place)
    fixed = plan(place, fix={on(17): ("Z3",)})
    assert titles(fixed)[17] == "Beef stew"
    assert "settled" in remarks(fixed, fixed.dinners[4])
    take(place, ["Z8"], MOMENT)
    assert titles(plan(place))[17] == "Beef stew"
    freed = plan(place, free=frozenset({on(17)}))
    assert not freed.dinners[4].evening.kept


def test_a_swap_changes_two_evenings_and_stays(place: Path) -> None:
    stocked(place)
    before = titles(plan(place))
    swapped = titles(plan(place, swaps=((on(3), on(12)),)))
    assert (swapped[3], swapped[12]) == (before[12], before[3])
    again = titles(plan(place))
    assert (again[3], again[12]) == (before[12], before[3])


def test_a_swap_with_an_evening_that_has_nothing_is_refused(place: Path) -> None:
    stocked(place)
    plan(place)
    with pytest.raises(InputFault, match="2026-02-04 has no dinner to swap"):
        plan(place, swaps=((on(3), on(4)),))


def test_one_container_cannot_be_on_two_evenings(place: Path) -> None:
    stocked(place)
    with pytest.raises(InputFault, match="two evenings"):
        plan(place, fix={on(3): ("Z1",), on(5): ("Z1",)})


def test_what_one_evening_is_settled_on_no_other_is(place: Path) -> None:
    stocked(place)
    plan(place, fix={on(10): ("Z1",)})
    with pytest.raises(InputFault, match=r"Z1 is on Tue 10 Feb 2026 already.*--free 2026-02-10"):
        plan(place, fix={on(12): ("Z1",)})
    moved = plan(place, fix={on(12): ("Z1",)}, free=frozenset({on(10)}))
    assert [
        dinner.evening.on
        for dinner in moved.dinners
        if "Z1" in {each.code for each in dinner.containers}
    ] == [on(12)]
    # An evening that is over no longer holds it, nor does one that was only chosen.
    assert titles(plan(place, today=on(13), fix={on(17): ("Z1",)}))[17] == "Beef stew"


def test_what_another_month_has_is_on_no_evening_of_this_one(place: Path) -> None:
    stocked(place)
    third = dt.date(2026, 3, 3)
    march = MonthRequest(dt.date(2026, 3, 1), weekdays=(1,), fix={third: ("Z8",)})
    plan_month(place, march, TODAY, now=NOW)
    with pytest.raises(InputFault, match=r"Z8 is on Tue 3 Mar 2026 already.*month 2026-03 --free"):
        plan(place, fix={on(12): ("Z8",)})
    # One that was only chosen gives way, and is told.
    chosen = plan_month(place, MonthRequest(march.first, free=frozenset({third})), TODAY, now=NOW)
    having = [each for each in chosen.dinners if "Z8" in {one.code for one in each.containers}]
    (evening,) = (each.evening.on for each in having)
    planned = plan(place, fix={on(12): ("Z8",)})
    assert titles(planned)[12] == "Chicken soup"
    assert any(f"{evening:%-d} Mar 2026 has lost its dinner" in note for note in planned.notes)
    key = having[0].evening.keys[0]
    days = [
        each.on for each in evenings_of(read_journal(place)).by_day.values() if key in each.keys
    ]
    assert days == [on(12)]
    again = plan_month(place, MonthRequest(march.first), TODAY, now=NOW)
    assert not any(key in each.evening.keys for each in again.dinners)


def test_a_file_with_one_container_on_two_evenings_is_set_right(place: Path) -> None:
    stocked(place)
    settled = {"people": 4, "title": "Beef stew", "mains": ["beef"], "why": "Tue", "kept": True}
    key = next(iter(stock_of(read_journal(place)).here))
    drafts = [
        Draft(PLANNED, on(day).isoformat(), TODAY, {"keys": [key], **settled, "off": False})
        for day in (10, 17)
    ]
    write_entries(place, lambda _: (drafts, None), now=NOW)
    planned = plan(place)
    having = [dinner.evening.on for dinner in planned.dinners if key in dinner.evening.keys]
    assert having == [on(10)]
    assert any("Tue 17 Feb 2026 was settled on Beef stew, but Z1" in each for each in planned.notes)


def test_an_evening_without_stays_without(place: Path) -> None:
    stocked(place)
    assert 10 not in titles(plan(place, without=frozenset({on(10)})))
    assert 10 not in titles(plan(place))
    assert 10 in titles(plan(place, free=frozenset({on(10)})))


def test_a_settled_dinner_that_was_eaten_is_chosen_anew_and_said_so(place: Path) -> None:
    stocked(place)
    plan(place, fix={on(17): ("Z3",)})
    take(place, ["Z3"], MOMENT)
    planned = plan(place)
    assert titles(planned)[17] != "Beef stew"
    assert any("Z3 cannot be eaten then any more" in note for note in planned.notes)


def test_crunch_evenings_are_added_and_evenings_away_left_out(place: Path) -> None:
    stocked(place)
    planned = plan(place, crunch={on(6): ("Choir",)}, away={on(12): ("Ski trip",)})
    assert list(titles(planned)) == [3, 5, 6, 10, 17, 19, 24, 26]
    assert any("away (Ski trip)" in note for note in planned.notes)
    assert "crunch: Choir" in remarks(planned, planned.dinners[2])


def test_an_evening_away_that_is_settled_is_told_once_and_without_contradiction(
    place: Path,
) -> None:
    stocked(place)
    away = {on(12): ("Ski trip",)}
    settled = plan(place, fix={on(12): ("Z3",)}, away=away)
    assert titles(settled)[12] == "Beef stew"
    assert settled.notes == ("Thu 12 Feb 2026 is settled although nobody eats at home then.",)
    take(place, ["Z3"], MOMENT)
    eaten = plan(place, away=away)
    assert 12 not in titles(eaten)
    assert [note.partition(" Feb")[2] for note in eaten.notes] == [
        " 2026 was settled on Beef stew, but Z3 cannot be eaten then any more.",
        " 2026 has no freezer night: away (Ski trip).",
    ]


def test_what_is_eaten_after_its_best_by_is_not_called_uneaten(place: Path) -> None:
    add(place, soup("Beef stew", dt.date(2025, 12, 10), main="beef"), 2, MOMENT)
    # Best by 10 February, and no freezer night until after it.
    planned = plan(place, weekdays=(1,), without=frozenset({on(3), on(10)}))
    assert [each.code for each in planned.passing] == ["Z1", "Z2"]
    assert month_lines(planned)[0].startswith(
        "2 containers pass best by this month before being eaten (fewer is not possible with these "
        "nights): Z1 (planned for Tue 17 Feb 2026), Z2 (on no evening). "
    )


def test_what_thaws_on_no_evening_is_a_matter_of_safety(place: Path) -> None:
    stocked(place)
    thaw(place, ["Z4", "Z5"], MOMENT)
    planned = plan(place, weekdays=(), without=frozenset())
    told = month_lines(planned)
    assert [each.code for each in planned.thawed] == ["Z4", "Z5"]
    assert not {each.code for each in planned.passing} & {"Z4", "Z5"}
    assert told[0] == ("Z4 Minestrone: thawing, eat by Tue 3 Feb 2026.")
    late = month_lines(plan(place, today=on(5)))
    assert "throw" in late[0]


def test_the_table_is_fed_whoever_is_at_it(place: Path) -> None:
    stocked(place)
    planned = plan(place, table={on(3): 8}, people=4)
    assert planned.dinners[0].portions == 8
    assert all(each.portions == 4 for each in planned.dinners[1:])


def test_what_is_past_stays_as_it_was(place: Path) -> None:
    stocked(place)
    before = plan(place)
    eaten = before.dinners[0].containers[0]
    take(place, [before.codes[eaten.key]], MOMENT)
    later = plan(place, today=on(4))
    assert titles(later)[3] == titles(before)[3]
    assert list(titles(later)) == [3, 5, 10, 12, 17, 19, 24, 26]


def test_what_thaws_is_eaten_within_its_days_and_never_planned_past_them(place: Path) -> None:
    stocked(place)
    thaw(place, ["Z5"], MOMENT)
    planned = plan(place)
    assert titles(planned)[3] == "Minestrone"
    assert [each.code for each in planned.dinners[0].containers] == ["Z5"]
    later = plan(place, today=on(5)).dinners
    to_come = [dinner for dinner in later if dinner.evening.on >= on(5)]
    assert "Z5" not in {each.code for dinner in to_come for each in dinner.containers}


def test_what_must_thaw_has_its_days_for_it(place: Path) -> None:
    add(
        place,
        soup("Roast", dt.date(2026, 1, 10), weight=ureg.Quantity(9, "pound"), thaw_days=3),
        2,
        MOMENT,
    )
    planned = plan(place, today=on(1))
    assert titles(planned)[3] == ""
    assert titles(planned)[5] == "Roast"
    assert moves_of(planned)[0].on == on(2)


@pytest.mark.parametrize(
    ("thaw_by", "words", "never"),
    [
        ("refrigerator", "no time to thaw it in the refrigerator", "cook from frozen"),
        ("either", "cook from frozen", "no time to thaw it in the refrigerator"),
    ],
)
def test_only_what_may_be_cooked_from_frozen_is_said_to_be(
    place: Path, thaw_by: str, words: str, never: str
) -> None:
    kit = soup("Meat loaf", dt.date(2026, 1, 10), raw=True) | {"thaw": thaw_by}
    add(place, kit, 1, MOMENT)
    (tonight, *_) = plan(place, today=on(3), fix={on(3): ("Z1",)}).dinners
    told = "; ".join(remarks(plan(place, today=on(3)), tonight))
    assert words in told
    assert never not in told
    assert "RAW: cook it through" in told
    # What could still be thawed in time says neither.
    (later, *_) = plan(place, today=on(2)).dinners
    said = "; ".join(remarks(plan(place, today=on(2)), later))
    assert words not in said
    assert never not in said


def test_past_use_by_is_not_planned_and_not_called_to_throw_out(place: Path) -> None:
    add(place, soup("Old soup", dt.date(2025, 9, 10)), 1, MOMENT)
    planned = plan(place)
    assert not any(titles(planned).values())
    told = " ".join(month_lines(planned))
    assert "Safe while frozen" in told
    assert "throw" not in told


@pytest.mark.parametrize(("packed_on", "title"), [(3, "Last soup"), (2, "")])
def test_the_last_day_of_a_container_may_be_the_first_evening(
    place: Path, packed_on: int, title: str
) -> None:
    # A soup keeps 3 months at most, so until 3 February; from frozen, it needs no day before.
    add(place, soup("Last soup", dt.date(2025, 11, packed_on), thaw_days=0), 1, MOMENT)
    assert titles(plan(place, today=on(3)))[3] == title


def test_the_last_night_of_the_month_before_counts_for_the_first(place: Path) -> None:
    add(place, soup("Beef stew", dt.date(2026, 1, 10), main="beef"), 4, MOMENT)
    january = MonthRequest(dt.date(2026, 1, 1), weekdays=(5,))
    assert titles(plan_month(place, january, TODAY, now=NOW)) == {31: "Beef stew"}
    assert titles(plan(place))[3] == ""


def test_verdicts_are_shown_and_a_dropped_dish_comes_last(place: Path) -> None:
    stocked(place)
    rate(place, "minestrone", "drop", "nobody eats it", MOMENT)
    rate(place, "Chicken soup", "change", "more pepper", MOMENT)
    planned = plan(place)
    told = {line for dinner in planned.dinners for line in remarks(planned, dinner)}
    assert "change: more pepper" in told
    without_it = plan(place, weekdays=(1,))
    assert "Minestrone" not in titles(without_it).values()


def test_raw_meat_thaws_on_the_lowest_shelf_and_is_cooked_to_its_temperature(place: Path) -> None:
    kit = soup("Beef kit", dt.date(2026, 1, 20), main="beef") | {
        "state": "raw-kit",
        "thaw": "refrigerator",
        "thaw_days": 1,
    }
    add(place, kit, 1, MOMENT)
    planned = plan(place)
    [dinner] = [each for each in planned.dinners if each.containers]
    # Where the book does not know the kit's own, the highest of the published: poultry's 165.
    assert "RAW: cook it through, to 165\u00a0°F" in remarks(planned, dinner)
    [move] = moves_of(planned)
    assert move.where == "RAW: on a tray on the lowest shelf"
    assert "lowest shelf" in month_sheet_html(planned)
    add(
        place,
        kit | {"title": "Steak kit", "dish": "steak-kit", "cook_to_fahrenheit": 145},
        1,
        MOMENT,
    )
    steak = next(each for each in plan(place).dinners if each.evening.title == "Steak kit")
    assert "RAW: cook it through, to 145\u00a0°F" in remarks(planned, steak)


def test_a_plan_can_be_undone(place: Path) -> None:
    stocked(place)
    plan(place, fix={on(17): ("Z3",)})
    undo(place, None, now=NOW)
    assert not any(each.evening.kept for each in plan(place).dinners)


def test_a_whole_bird_is_moved_days_before_by_its_weight_and_said_to_be_raw(place: Path) -> None:
    bird = soup(
        "Whole turkey",
        dt.date(2026, 1, 10),
        main="turkey",
        rows=("raw-poultry-whole",),
        thaw_days=None,
        weight=ureg.Quantity(14, "pound"),
    )
    add(place, bird, 1, MOMENT)
    planned = plan(place, weekdays=(3,), fix={on(5): ("Z1",)})
    # USDA FSIS, The Big Thaw: 24 hours for each 4 to 5 lb, so 14 lb takes up to 4 days.
    assert moves_of(planned)[0].on == on(1)
    # FoodSafety.gov, Safe Minimum Internal Temperature Chart: poultry 165 degF.
    assert remarks(planned, planned.dinners[0])[0] == "RAW: cook it through, to 165\u00a0°F"


def test_what_has_no_time_to_thaw_is_never_sent_frozen_into_a_slow_cooker(place: Path) -> None:
    add(
        place,
        soup("Roast", dt.date(2026, 1, 10), weight=ureg.Quantity(9, "pound"), thaw_days=3),
        1,
        MOMENT,
    )
    planned = plan(place, today=on(2), fix={on(3): ("Z1",)})
    (told,) = [line for line in remarks(planned, planned.dinners[0]) if "thaw" in line]
    assert "never in a slow cooker" in told


def test_what_thawed_and_has_no_evening_is_told_with_its_day_and_not_as_quality(
    place: Path,
) -> None:
    stocked(place)
    thaw(place, ["Z5"], MOMENT)
    rest = plan(place, weekdays=(4,))
    first, second, *_ = month_lines(rest)
    assert first == "Z5 Minestrone: thawing, eat by Tue 3 Feb 2026."
    assert "Z5" not in second
    last, *_ = month_lines(plan(place, weekdays=(4,), today=on(4)))
    assert last == "Z5 Minestrone: eat today, last day Wed 4 Feb 2026."
    late = plan(place, weekdays=(4,), today=on(5))
    assert month_lines(late)[0] == "Z5 Minestrone: throw out."
    assert month_as_data(late)["overdue"] == {"Z5": "throw out"}
