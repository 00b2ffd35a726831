from __future__ import annotations

import datetime as dt

from retimed import food_breaches, retimed_plan

from batchcook import plan
from batchcook.quantities import ureg

_START = dt.datetime(2027, 1, 16, 8, 0)  # noqa: DTZ001 - plans hold wall-clock times
_ROOM = ureg.Quantity(72, "degF")
_DISH = "chicken-soup"


def _at(minute: int) -> dt.datetime:
    return _START + dt.timedelta(minutes=minute)


def _task(name: str, start: int, end: int, run: str | None = None) -> plan.Task:
    return plan.Task(
        id=name, title=name, technique="mix", start=_at(start), end=_at(end), run=run, cook="ann"
    )


def _event(food: str, kind: str, event: str, minute: int, task: str) -> plan.Event:
    return plan.Event.model_validate(
        {"dish": _DISH, "food": food, "kind": kind, "event": event, "at": _at(minute), "task": task}
    )


def _plan() -> plan.Plan:
    """Two parts cut in a run, simmered in a pot that is on the heat already, packed, frozen."""
    thigh = ("chicken thigh", "raw-poultry")
    cooked = ("chicken thigh", "cooked")
    return plan.Plan(
        date=_START.date(),
        start=_START,
        finish=_at(150),
        summary=plan.Summary(
            makespan_minutes=150,
            best_bound_minutes=150,
            proved_shortest=True,
            one_after_another_minutes=150,
            hands_on_minutes=40,
        ),
        cooks=(plan.Cook(id="ann", name="Ann"),),
        dishes=(),
        resources=(),
        tasks=(
            _task("soften", 0, 15),
            _task("cut", 0, 20, run="cubes"),
            _task("cut/clean-down", 20, 25, run="cubes"),
            _task("simmer", 30, 90),
            _task("pack", 120, 150),
        ),
        events=(
            _event(*thigh, "out", 0, "cut"),
            _event(*thigh, "on-heat", 30, "simmer"),
            _event(*cooked, "off-heat", 90, "simmer"),
            _event(*cooked, "refrigerated", 150, "pack"),
            _event(*cooked, "frozen", 400, "pack"),
        ),
        shared=(
            plan.SharedRun(
                id="cubes",
                title="Cube chicken",
                technique="cut",
                food="chicken thigh",
                cook="ann",
                start=_at(0),
                end=_at(25),
                bowls=(
                    plan.Bowl(name="blue", dish=_DISH, amount="2 lb", task="cut", ready=_at(20)),
                ),
                minutes_saved=0,
            ),
        ),
    )


_PLANNED = {
    "soften": (0, 15),
    "cut": (0, 20),
    "cut/clean-down": (20, 25),
    "simmer": (30, 90),
    "pack": (120, 150),
}


def _events(made: plan.Plan) -> list[int]:
    return [int((event.at - _START).total_seconds() // 60) for event in made.events]


def test_a_plan_at_its_own_times_is_itself() -> None:
    assert retimed_plan(_plan(), _PLANNED) == _plan()


def test_events_move_with_the_start_or_the_end_of_their_task() -> None:
    moved = retimed_plan(_plan(), _PLANNED | {"simmer": (40, 115), "pack": (125, 160)})
    assert _events(moved) == [0, 40, 115, 160, 410]
    assert moved.finish == _at(160)


def test_runs_and_bowls_move_with_their_parts() -> None:
    moved = retimed_plan(_plan(), _PLANNED | {"cut": (5, 33), "cut/clean-down": (33, 39)})
    (run,) = moved.shared
    assert (run.start, run.end, run.bowls[0].ready) == (_at(5), _at(39), _at(33))


def test_food_that_waited_for_a_pot_goes_in_no_earlier_than_it_was_ready() -> None:
    # The pot was ready at 15 and the chicken at 20: in the plan it goes on at 20.
    events = (
        _event("chicken thigh", "raw-poultry", "out", 0, "cut"),
        _event("chicken thigh", "raw-poultry", "off-heat", 20, "cut"),
        _event("chicken thigh", "raw-poultry", "on-heat", 20, "soften"),
    )
    made = _plan().model_copy(update={"events": events})
    assert _events(retimed_plan(made, _PLANNED)) == [0, 20, 20]
    assert _events(retimed_plan(made, _PLANNED | {"cut": (0, 28)})) == [0, 28, 28]
    assert _events(retimed_plan(made, _PLANNED | {"soften": (0, 35)})) == [0, 20, 35]


def test_a_day_as_planned_breaks_no_food_limit() -> None:
    assert food_breaches(_plan(), _PLANNED, _ROOM) == []


def test_chicken_that_waits_too_long_for_the_heat_is_told() -> None:
    times = _PLANNED | {"simmer": (130, 190), "pack": (200, 215)}
    (breach,) = food_breaches(_plan(), times, _ROOM)
    assert (breach.rule, breach.food, breach.limit_minutes) == ("time-out", "chicken thigh", 120)


def test_spells_that_are_short_apart_add_up() -> None:
    # 70 minutes before the heat and 60 after it: each within two hours, together not.
    times = _PLANNED | {"simmer": (70, 130), "pack": (160, 190)}
    (breach,) = food_breaches(_plan(), times, _ROOM)
    assert breach.minutes == 130
