"""The day's work as a scheduling problem."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest
from planned_days import day_of, starter

from batchcook.complaints import InputFault
from batchcook.day.formulation import Formulation, formulate
from batchcook.day.prepday import Busy, PrepDay
from batchcook.day.workday import day_work, ordered_dishes
from batchcook.dishwork.work import Job, Work
from batchcook.kitchens.kitchen import Away, KitchenCook
from batchcook.quantities import ureg
from batchcook.scheduling.check import check
from batchcook.scheduling.schedule import Answer
from batchcook.scheduling.solver import satisfy

DAY = day_of(cottage_pie=1)
LUNCH = Away(dt.time(12), dt.time(13), "lunch")
SHOP = Away(dt.time(12, 30), dt.time(14), "shopping")


def _formulated(day: PrepDay) -> Formulation:
    return formulate(day_work(ordered_dishes(day, starter()), day), day)


def _with_cooks(*away: tuple[Away, ...]) -> PrepDay:
    first = DAY.kitchen.cooks[0]
    cooks = tuple(
        replace(first, id=f"cook-{number}", away=each) for number, each in enumerate(away, 1)
    )
    return replace(DAY, kitchen=replace(DAY.kitchen, cooks=cooks))


def _told(day: PrepDay) -> str:
    with pytest.raises(InputFault) as caught:
        _formulated(day)
    return str(caught.value)


def test_minute_0_is_the_start_and_the_day_ends_at_midnight() -> None:
    found = _formulated(DAY)
    assert found.clock.instant(0).isoformat() == "2027-01-16T08:00:00"
    assert found.clock.minute(dt.time(9, 30)) == 90
    assert found.problem.horizon == 16 * 60
    assert not found.problem.free_origin


def test_a_day_with_only_a_finish_may_begin_at_any_time() -> None:
    found = _formulated(replace(_with_cooks((), (LUNCH,)), start=None, finish_by=dt.time(14)))
    assert found.problem.free_origin
    assert found.clock.instant(found.problem.horizon).isoformat() == "2027-01-16T14:00:00"


def test_a_day_that_meets_no_time_of_day_is_solved_from_its_start() -> None:
    found = _formulated(replace(DAY, start=None, finish_by=dt.time(14)))
    assert not found.problem.free_origin


def test_a_finish_before_the_start_is_refused() -> None:
    assert "07:00 is not after" in _told(replace(DAY, finish_by=dt.time(7)))


def test_cooks_who_can_do_the_same_at_the_same_times_are_one_resource() -> None:
    same = _formulated(_with_cooks((), ())).problem
    other = _formulated(_with_cooks((), (LUNCH,))).problem
    assert [same.resources[each].capacity for each in same.hands] == [2]
    assert [other.resources[each].capacity for each in other.hands] == [1, 1]
    assert [len(other.resources[each].absences) for each in other.hands] == [0, 1]


def test_heat_needs_somebody_only_where_all_are_away_at_once() -> None:
    alone = _formulated(_with_cooks((LUNCH,), (SHOP,))).problem.resources
    never = _formulated(_with_cooks((LUNCH,), ())).problem.resources
    assert [(each.start, each.end) for each in alone["somebody"].absences] == [(270, 300)]
    assert "somebody" not in never


def test_an_oven_is_not_brought_to_heat_while_nobody_is_in_the_kitchen() -> None:
    gone = Away(dt.time(9), dt.time(10), "market")
    problem = _formulated(_with_cooks((gone,), (gone,))).problem
    # The bake alone, which nothing keeps from following its warm-up at 10:00 but who watches it.
    bake = next(task for task in problem.tasks.values() if task.settings)
    alone = replace(
        problem,
        tasks={bake.id: replace(bake, when=(), earliest=61)},
        lags=(),
        budgets=(),
        occupancies=(),
        families={},
        choices={},
    )
    found = satisfy(alone, seconds=5).schedule
    assert found is not None
    assert [(each.start, each.end) for each in found.warm_ups] == [(120, 132)]
    unwatched = replace(problem.resources["oven"], warming={})
    heedless = replace(alone, resources={**alone.resources, "oven": unwatched})
    found = satisfy(heedless, seconds=5).schedule
    assert found is not None
    assert found.warm_ups[0].start < 120
    assert any(breach.rule == "capacities" for breach in check(alone, found))


def test_a_child_does_not_watch_the_heat() -> None:
    cook = replace(DAY.kitchen.cooks[0], away=(LUNCH,))
    child = KitchenCook("child", "Child", frozenset())
    day = replace(DAY, kitchen=replace(DAY.kitchen, cooks=(cook, child)))
    absences = _formulated(day).problem.resources["somebody"].absences
    assert [(each.start, each.end) for each in absences] == [(240, 300)]


def test_every_cook_who_may_do_a_job_is_a_way_to_do_it() -> None:
    child = KitchenCook("child", "Child", frozenset())
    kitchen = replace(DAY.kitchen, cooks=(*DAY.kitchen.cooks, child))
    found = _formulated(replace(DAY, kitchen=kitchen))
    ways = {task.id: len(task.modes) for task in found.problem.tasks.values()}
    assert ways["cottage-pie/cut/onion"] == 1
    assert ways["day/rinse"] == 2


def test_burners_wanted_elsewhere_are_missing_for_that_time() -> None:
    busy = Busy("burner", 2, dt.time(12), dt.time(12, 45), "lunch")
    (absence,) = _formulated(replace(DAY, busy=(busy,))).problem.resources["burner"].absences
    assert (absence.start, absence.end, absence.amount) == (240, 285, 2)


def test_what_is_busy_must_be_there_and_as_many() -> None:
    day = replace(
        DAY,
        busy=(
            Busy("burners", 1, dt.time(12), dt.time(13)),
            Busy("burner", 9, dt.time(12), dt.time(13)),
        ),
    )
    told = _told(day)
    assert "Did you mean 'burner'" in told
    assert "at most 4" in told


@pytest.mark.parametrize(
    ("lowest", "highest", "settings"),
    [
        (350, 400, (350, 375, 400)),
        (365, 385, (375,)),
        (360, 420, (375, 390, 400)),
        (380, 390, (385,)),
    ],
)
def test_an_oven_is_set_to_what_suits_a_bake_in_steps_of_its_dial(
    lowest: int, highest: int, settings: tuple[int, ...]
) -> None:
    work = _formulated(replace(DAY, orders={"cottage-pie": 1})).work
    jobs = tuple(
        job
        if job.oven is None
        else replace(job, oven=replace(job.oven, lowest=lowest, highest=highest))
        for job in work.jobs
    )
    (bake,) = [job.id for job in jobs if job.oven is not None]
    found = formulate(replace(work, jobs=jobs), replace(DAY, orders={"cottage-pie": 1}))
    assert found.problem.tasks[bake].settings == settings


def test_a_bake_goes_into_any_oven_that_it_fits_into() -> None:
    (oven,) = DAY.kitchen.ovens
    small = replace(oven, id="small oven", shelves=oven.shelves - 1)
    day = replace(
        DAY,
        orders={"turkey-meatballs": 2, "cottage-pie": 1},
        kitchen=replace(DAY.kitchen, ovens=(oven, small)),
    )
    found = _formulated(day)
    taken = {job.id: job.oven.half_shelves for job in found.work.jobs if job.oven is not None}
    assert {2 * oven.shelves, 1} == set(taken.values())
    for name, half_shelves in taken.items():
        ovens = {mode.id for mode in found.problem.tasks[name].modes}
        assert ovens == ({"oven", "small oven"} if half_shelves == 1 else {"oven"})


def test_an_oven_is_wanted_elsewhere_as_a_whole() -> None:
    roast = Busy("oven", 1, dt.time(12), dt.time(13), "a roast")
    oven = _formulated(replace(DAY, busy=(roast,))).problem.resources["oven"]
    (absence,) = oven.absences
    assert absence.amount == oven.capacity > 1


@pytest.mark.parametrize("who", ["cooks:1", "somebody"])
def test_people_are_nothing_that_is_wanted_elsewhere(who: str) -> None:
    away = replace(DAY.kitchen.cooks[1], away=(Away(dt.time(9), dt.time(10), "school"),))
    kitchen = replace(DAY.kitchen, cooks=(away, away))
    told = _told(replace(DAY, kitchen=kitchen, busy=(Busy(who, 1, dt.time(12), dt.time(13)),)))
    assert f"there is no {who!r}" in told
    assert "cooks:" not in told.replace(repr(who), "")
    assert "somebody" not in told.replace(repr(who), "")


@pytest.mark.parametrize("dish", ["beef-barley-stew", "chicken-coconut-curry"])
@pytest.mark.parametrize("alone", ["cook", "skillet"])
def test_one_cook_or_one_skillet_suffices_for_two_batches_to_brown(dish: str, alone: str) -> None:
    fewer = {
        "cook": replace(DAY.kitchen, cooks=DAY.kitchen.cooks[:1]),
        "skillet": replace(DAY.kitchen, skillets=(replace(DAY.kitchen.skillets[0], count=1),)),
    }[alone]
    formulated = _formulated(replace(DAY, kitchen=fewer, orders={dish: 2}))
    assert satisfy(formulated.problem, seconds=20).answer is Answer.PLAN


def test_work_that_no_cook_may_do_is_told_once_for_each_skill() -> None:
    cook = replace(DAY.kitchen.cooks[0], skills=frozenset({"hot pans"}))
    told = _told(replace(DAY, kitchen=replace(DAY.kitchen, cooks=(cook,)))).splitlines()
    assert any("'knife'" in each for each in told)
    assert any("'oven'" in each for each in told)
    assert len(set(told)) == len(told)


def test_a_board_that_is_not_there_is_told() -> None:
    kitchen = replace(DAY.kitchen, boards={"produce": 0, "raw": 1})
    assert "board for produce" in _told(replace(DAY, kitchen=kitchen))


def test_an_oven_offers_the_temperatures_on_its_dial_within_reach() -> None:
    tasks = _formulated(day_of(cottage_pie=1)).problem.tasks
    (settings,) = {task.settings for task in tasks.values() if task.settings}
    middle = settings[len(settings) // 2]
    assert settings == (middle - 25, middle, middle + 25)
    strict = _formulated(day_of(vegetable_egg_bake=1)).problem.tasks
    assert {task.settings for task in strict.values() if task.settings} == {(350,)}


@pytest.mark.parametrize(("room", "limit"), [(72, 120), (90, 120), (91, 60)])
def test_food_may_be_out_two_hours_and_one_in_a_hot_room(room: float, limit: int) -> None:
    # USDA FSIS: never over 2 hours, or 1 hour where the temperature is above 90 degF.
    kitchen = replace(DAY.kitchen, room=ureg.Quantity(room, "degF"))
    budgets = _formulated(replace(day_of(vegetable_egg_bake=1), kitchen=kitchen)).problem.budgets
    assert {budget.limit for budget in budgets} == {limit}
    assert all(str(limit) in budget.reason for budget in budgets)


def test_a_job_that_ends_at_a_time_of_day_has_a_window() -> None:
    job = Job("plate", "Plate", "plate", 5, frozenset(), "counter", "", ends_at=dt.time(12))
    task = formulate(Work((job,)), DAY).problem.tasks["plate"]
    assert (task.earliest, task.latest) == (235, 240)
