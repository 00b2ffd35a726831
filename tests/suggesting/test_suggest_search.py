"""A suggested day, from the freezer's journal to a schedule, against its promises one by one."""

from __future__ import annotations

import datetime as dt
import itertools
from collections import Counter
from pathlib import Path

import pytest
from suggest_cases import DAY, request

from batchcook.cookbook import Cookbook, load_cookbook
from batchcook.day.formulation import formulate
from batchcook.day.labelling import containers
from batchcook.day.prepday import PrepDay
from batchcook.day.workday import day_work, ordered_dishes
from batchcook.freezer import adding, changes
from batchcook.freezer.changes import Moment
from batchcook.freezer.monthplan import plan_month
from batchcook.freezer.monthrequest import MonthRequest
from batchcook.freezer.packing import main_ingredient
from batchcook.freezer.stock import stock_of
from batchcook.freezer.store import Journal, read_journal
from batchcook.freezer.thawing import thaw
from batchcook.freezer.verdicts import rate
from batchcook.plan import read_plan
from batchcook.scheduling.energy import shortest_day
from batchcook.scheduling.network import network
from batchcook.suggesting.fromstock import ahead
from batchcook.suggesting.offers import main_of, offers
from batchcook.suggesting.reasons import chosen_dishes
from batchcook.suggesting.search import Suggestion, suggest_day

ROOT = Path(__file__).parents[2]
NAMES = (
    "lemon-herb-chicken-kit",
    "squash-red-lentil-soup",
    "turkey-meatballs",
    "cider-pulled-pork",
    "sausage-lentil-soup",
)
MOMENT = Moment(dt.datetime(2027, 1, 10, 12, tzinfo=dt.UTC), dt.date(2027, 1, 10))
SECONDS = 8.0


@pytest.fixture(scope="module")
def cookbook() -> Cookbook:
    book = load_cookbook()
    return {name: book[name] for name in NAMES}


def _stocked(place: Path, title: str, count: int, main: str) -> None:
    details = adding.details_of_addition(
        title,
        packed_on=MOMENT.on,
        rows=("soup-or-stew",),
        use_by=None,
        portions=4,
        main=main,
        raw=False,
        thaw_days=1,
    )
    changes.add(place, details, count, MOMENT)


@pytest.fixture(scope="module")
def journal(tmp_path_factory: pytest.TempPathFactory) -> Journal:
    """Two nights of minestrone, and sausage soup that nobody wants any more of."""
    place = tmp_path_factory.mktemp("freezer") / "freezer.sqlite"
    _stocked(place, "Minestrone", 2, "beans")
    _stocked(place, "Sausage lentil soup", 2, "sausage")
    rate(place, "sausage-lentil-soup", "drop", "too salty", MOMENT)
    return read_journal(place)


@pytest.fixture(scope="module")
def found(cookbook: Cookbook, journal: Journal) -> Suggestion:
    asked = request(6, days=30, seconds=SECONDS)
    return suggest_day(asked, cookbook, journal, lambda _: None)


def test_every_night_has_its_dinner(found: Suggestion) -> None:
    assert found.chosen is not None
    assert len(found.ahead.nights) == 6
    assert not found.uncovered


def test_what_is_in_the_freezer_comes_first(found: Suggestion) -> None:
    stocked = [night.title for night in found.ahead.nights if not night.open]
    assert stocked == ["Minestrone", "Minestrone"]


def test_a_dropped_dish_is_neither_made_nor_counted_on(found: Suggestion) -> None:
    assert "sausage-lentil-soup" not in found.offers
    why = {each.dish: each.why for each in found.left_out}
    assert why["sausage-lentil-soup"] == "dropped on 10 Jan 2027: too salty"
    assert {each.title for each in found.ahead.unwanted} == {"Sausage lentil soup"}


def test_a_dish_that_alone_takes_longer_is_left_out_with_its_length(found: Suggestion) -> None:
    why = {each.dish: each.why for each in found.left_out}
    assert "6 h 26 min at the least, longer than 6 h 00 min" in why["cider-pulled-pork"]


def test_no_main_ingredient_comes_two_nights_running(found: Suggestion) -> None:
    assert found.chosen is not None
    mains = [
        {found.offers[found.chosen.candidate.dinners[number]].main} if night.open else night.mains
        for number, night in enumerate(found.ahead.nights)
    ]
    assert not any(before & after for before, after in itertools.pairwise(mains))


def test_each_dinner_is_thawed_and_within_the_date_on_its_label(
    found: Suggestion, cookbook: Cookbook
) -> None:
    assert found.chosen is not None
    orders = found.chosen.candidate.orders
    dishes = ordered_dishes(PrepDay(DAY, dt.time(8), orders, found.request.kitchen), cookbook)
    labels = {each.dish: each for each in containers(dishes, DAY, "us")}
    for number, dish in found.chosen.candidate.dinners.items():
        label = labels[dish]
        thaws = label.thaw_days if label.thaw == "refrigerator" else 0
        on = found.ahead.nights[number].on
        assert DAY + dt.timedelta(days=thaws) < on <= label.best_by


def test_the_labels_portions_feed_the_table_on_every_night(
    found: Suggestion, cookbook: Cookbook
) -> None:
    assert found.chosen is not None
    orders = found.chosen.candidate.orders
    dishes = ordered_dishes(PrepDay(DAY, dt.time(8), orders, found.request.kitchen), cookbook)
    made: Counter[str] = Counter()
    for each in containers(dishes, DAY, "us"):
        made[each.dish] += each.portions
    for dish, nights in Counter(found.chosen.candidate.dinners.values()).items():
        assert made[dish] >= 4 * nights


def test_the_day_was_scheduled_within_what_is_allowed_and_over_its_bound(
    found: Suggestion, cookbook: Cookbook
) -> None:
    assert found.chosen is not None
    day = PrepDay(DAY, dt.time(8), found.chosen.candidate.orders, found.request.kitchen)
    problem = formulate(day_work(ordered_dishes(day, cookbook), day), day).problem
    assert shortest_day(problem, network(problem)) <= found.chosen.bound
    assert found.chosen.bound <= found.chosen.minutes <= found.request.longest


def test_no_other_day_that_fits_is_worth_more(found: Suggestion) -> None:
    assert found.chosen is not None
    assert all(other.worth >= found.chosen.worth for other in found.others)


def test_every_dish_comes_with_every_reason(found: Suggestion) -> None:
    dishes = chosen_dishes(found)
    assert dishes
    for each in dishes:
        assert [reason.about for reason in each.reasons] == [
            "liked",
            "portions",
            "varied",
            "in date",
            "work and room",
        ]


def test_a_day_too_short_for_all_leaves_nights_open(cookbook: Cookbook) -> None:
    asked = request(6, days=30, seconds=SECONDS, longest=60)
    short = suggest_day(asked, cookbook, Journal(), lambda _: None)
    assert short.chosen is not None
    assert short.chosen.minutes <= 60
    assert set(short.chosen.candidate.orders) == {"lemon-herb-chicken-kit"}
    assert len(short.uncovered) == 6 - len(short.chosen.candidate.dinners) > 0


def test_nothing_is_made_where_the_freezer_covers_all(cookbook: Cookbook, journal: Journal) -> None:
    there = suggest_day(request(1, days=10), cookbook, journal, lambda _: None)
    assert there.chosen is None
    assert not there.uncovered


def test_the_stock_goes_to_the_evenings_for_which_nothing_is_thawed_yet(journal: Journal) -> None:
    nights = ahead(request(20, days=20), journal).nights
    covered = [(night.on - DAY).days for night in nights if not night.open]
    assert covered[0] <= 2


def test_progress_names_every_recipe(cookbook: Cookbook) -> None:
    told: list[str] = []
    asked = request(2)
    offers(asked, cookbook, ahead(asked, Journal()), told.append)
    assert [name for name in cookbook if any(cookbook[name].title in line for line in told)] == [
        *cookbook
    ]


def test_main_ingredients_are_told_with_the_words_that_the_freezer_keeps() -> None:
    plan = read_plan(ROOT / "output_samples" / "prep-day")
    book = load_cookbook()
    dishes = [dish.id for dish in plan.dishes]
    assert dishes
    assert {name: main_of(book[name]) for name in dishes} == {
        name: main_ingredient(plan, name) for name in dishes
    }


def test_a_verdict_to_change_is_told_with_its_note(cookbook: Cookbook, tmp_path: Path) -> None:
    place = tmp_path / "freezer.sqlite"
    details = adding.details_of_addition(
        "Squash red lentil soup",
        packed_on=MOMENT.on,
        rows=("soup-or-stew",),
        use_by=None,
        portions=2,
        main="butternut squash",
        raw=False,
        thaw_days=1,
    )
    changes.add(place, details, 1, MOMENT)
    rate(place, "squash-red-lentil-soup", "change", "less cumin", MOMENT)
    journal = read_journal(place)
    assert stock_of(journal).ratings["squash-red-lentil-soup"].note == "less cumin"
    only = {"squash-red-lentil-soup": cookbook["squash-red-lentil-soup"]}
    found = suggest_day(request(1, seconds=SECONDS), only, journal, lambda _: None)
    (dish,) = chosen_dishes(found)
    assert dish.reasons[0].words == "you want it changed (10 Jan 2027): less cumin"


def test_a_dinner_that_the_household_has_planned_stays_on_its_evening(
    tmp_path: Path,
) -> None:
    place = tmp_path / "freezer.sqlite"
    _stocked(place, "Minestrone", 3, "beans")
    evening = dt.date(2027, 2, 9)
    month = MonthRequest(first=dt.date(2027, 2, 1), weekdays=(1,), people=4, fix={evening: ("Z2",)})
    plan_month(place, month, DAY, now=dt.datetime(2027, 1, 16, 9, tzinfo=dt.UTC))
    asked = request(5, days=30)
    nights = {night.on: night for night in ahead(asked, read_journal(place)).nights}
    assert nights[evening].codes == ("Z2",)
    assert len(nights) == 5
    eaten = Counter(code for night in nights.values() for code in night.codes)
    assert max(eaten.values()) == 1


def test_a_planned_dinner_that_thawed_too_early_is_not_counted_on(tmp_path: Path) -> None:
    place = tmp_path / "freezer.sqlite"
    _stocked(place, "Minestrone", 1, "beans")
    evening = dt.date(2027, 2, 9)
    month = MonthRequest(first=dt.date(2027, 2, 1), weekdays=(1,), people=4, fix={evening: ("Z1",)})
    plan_month(place, month, DAY, now=dt.datetime(2027, 1, 16, 9, tzinfo=dt.UTC))
    thaw(place, ["Z1"], MOMENT)
    nights = {night.on: night for night in ahead(request(5, days=30), read_journal(place)).nights}
    assert nights[evening].open


def test_the_same_container_is_never_counted_for_two_nights(journal: Journal) -> None:
    eaten = Counter(key for night in ahead(request(10), journal).nights for key in night.keys)
    assert set(eaten.values()) == {1}
    assert not any("sausage" in key for key in eaten)
