"""The day against its dishes one after another, where that is not found."""

from __future__ import annotations

import datetime as dt
from unittest import mock

import pytest
from planned_days import day_of, planned, starter

from batchcook.cli.summary import apart_words
from batchcook.day import comparing
from batchcook.day.formulation import Formulation
from batchcook.day.solving import Effort, NoAnswer, NoPlan
from batchcook.day.tonight import Tonight
from batchcook.day.workday import ordered_dishes
from batchcook.scheduling.schedule import Schedule


@pytest.mark.parametrize("fault", [NoAnswer, NoPlan])
def test_a_figure_that_is_not_found_costs_nobody_the_plan(fault: type[Exception]) -> None:
    day = day_of(lemon_herb_chicken_kit=1)
    with (
        mock.patch.object(comparing, "solved", side_effect=fault),
        mock.patch("batchcook.scheduling.listing.list_schedule", return_value=None),
    ):
        found = comparing.one_after_another(ordered_dishes(day, starter()), day, Effort(1))
    assert found is None


def test_one_dish_after_nothing_takes_as_long_as_its_own_day() -> None:
    """Setting up and closing down are counted once, with the dish itself."""
    day = day_of(lemon_herb_chicken_kit=1)
    found = comparing.one_after_another(ordered_dishes(day, starter()), day, Effort(8))
    own = planned(lemon_herb_chicken_kit=1).summary
    assert own.proved_shortest
    assert found == own.makespan_minutes


def test_what_would_help_is_asked_of_the_day_with_its_dinner() -> None:
    day = day_of(squash_red_lentil_soup=1)
    dinner = Tonight("squash-red-lentil-soup", 2, dt.time(12))
    asked: list[Formulation] = []

    def solved(formulation: Formulation, *_: object, **__: object) -> None:
        asked.append(formulation)
        raise NoAnswer

    with mock.patch.object(comparing, "solved", solved):
        comparing.changed_kitchens(
            ordered_dishes(day, starter()),
            day,
            Schedule({}),
            planned(lemon_herb_chicken_kit=1).summary,
            Effort(1),
            dinner=dinner,
        )
    assert asked
    assert all("squash-red-lentil-soup/plate" in each.problem.tasks for each in asked)


def test_what_is_not_known_is_told_as_not_known() -> None:
    known = planned(lemon_herb_chicken_kit=1).summary
    longer = known.model_copy(
        update={"one_after_another_minutes": known.makespan_minutes + 90},
    )
    waiting = known.model_copy(
        update={"one_after_another_minutes": known.makespan_minutes - 62},
    )
    unknown = known.model_copy(update={"one_after_another_minutes": None})
    assert apart_words(longer).endswith("so 1 h 30 min saved")
    assert apart_words(waiting).endswith("so nothing saved")
    assert apart_words(unknown).startswith("not known")
