"""Settings brought as near as can be to what each task would have by itself."""

from batchcook.scheduling.check import check
from batchcook.scheduling.problem import Mode, Problem, Resource, Task
from batchcook.scheduling.schedule import Done, Schedule, WarmUp
from batchcook.scheduling.settling import settled

OVEN = Resource("oven", 2, warm_up=10, keeps=10)


def _bake(name: str, *settings: int) -> Task:
    return Task(name, (Mode("oven", 30, {"oven": 1}),), settings=settings)


def _problem(*tasks: Task) -> Problem:
    return Problem({"oven": OVEN}, {task.id: task for task in tasks}, 200)


def _done(start: int, setting: int) -> Done:
    return Done(start, start, start + 30, start + 30, "oven", setting=setting)


def test_a_task_alone_gets_what_it_would_have_by_itself() -> None:
    problem = _problem(_bake("pie", 375, 400, 425))
    schedule = Schedule({"pie": _done(10, 375)}, {}, (WarmUp("oven", 0, 10, 375, "pie"),))
    found = settled(problem, schedule, {"pie": 400})
    assert found.tasks["pie"].setting == 400
    assert found.warm_ups[0].setting == 400
    assert check(problem, found) == []


def test_tasks_at_one_heat_keep_one_setting_that_suits_them_all() -> None:
    problem = _problem(_bake("pie", 375, 400, 425), _bake("bread", 350, 375, 400))
    schedule = Schedule(
        {"pie": _done(10, 375), "bread": _done(15, 375)},
        {},
        (WarmUp("oven", 0, 10, 375, "pie"),),
    )
    found = settled(problem, schedule, {"pie": 400, "bread": 375})
    assert found.tasks["pie"].setting == found.tasks["bread"].setting
    assert found.tasks["pie"].setting in {375, 400}
    assert check(problem, found) == []


def test_each_warm_up_is_settled_by_itself() -> None:
    problem = _problem(_bake("pie", 375, 400, 425), _bake("eggs", 325, 350, 375))
    schedule = Schedule(
        {"pie": _done(10, 375), "eggs": _done(50, 375)},
        {},
        (WarmUp("oven", 0, 10, 375, "pie"), WarmUp("oven", 40, 50, 375, "eggs")),
    )
    found = settled(problem, schedule, {"pie": 400, "eggs": 350})
    assert (found.tasks["pie"].setting, found.tasks["eggs"].setting) == (400, 350)
    assert check(problem, found) == []
