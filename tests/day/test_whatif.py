"""What would help."""

import datetime as dt
from dataclasses import replace

from planned_days import starter

from batchcook.day.prepday import PrepDay
from batchcook.day.solving import Effort
from batchcook.day.whatif import NotKnown, kinds_held, variants, what_would_help
from batchcook.dishwork.dishes import dish_work
from batchcook.dishwork.draft import Dish
from batchcook.kitchens.kitchen import KitchenCook, default_kitchen
from batchcook.plan import WhatIf
from batchcook.planning import plan_day
from batchcook.wording import change_notes

DAY = PrepDay(dt.date(2027, 1, 16), dt.time(8), {"cottage-pie": 1}, default_kitchen())


def test_each_change_is_of_one_thing_only() -> None:
    words = [each for each, _ in variants(DAY.kitchen)]
    assert len(words) == len(set(words))
    changed = dict(variants(DAY.kitchen))
    assert changed["one more burner"].burners.count == 5
    assert changed["one less burner"].burners.count == 3
    assert changed["one less slow cooker"].slow_cookers == ()
    assert changed["one more board for produce"].boards == {"produce": 3, "raw": 1}
    assert changed["one less board for raw meat"].boards == {"produce": 2, "raw": 0}
    assert changed["one more oven shelf"].ovens[0].shelves == 3
    assert len(changed["without Second cook"].cooks) == 1


def test_what_helps_most_comes_first_and_what_cannot_be_done_last() -> None:
    def measure(day: PrepDay, _: bool) -> tuple[int, int] | None:
        if day.kitchen.burners.count == 3:
            return None
        minutes = 200 - 10 * (len(day.kitchen.cooks) - 2)
        return minutes, minutes

    found = what_would_help(DAY, (200, 200), measure)
    assert found[0].change.startswith("a helper")
    assert found[0].minutes == -10
    assert found[-1].change == "one less burner"
    assert found[-1].minutes is None
    assert next(each for each in found if each.change == "without Second cook").minutes == 10


def test_more_of_something_is_never_told_as_a_loss() -> None:
    found = what_would_help(DAY, (200, 180), lambda _day, _as: (203, 180))
    assert all(each.minutes == 0 for each in found if each.change.startswith("one more"))
    assert all(each.minutes == 3 for each in found if each.change.startswith("one less"))
    assert not any(each.proved for each in found)


def test_more_of_something_makes_nothing_impossible() -> None:
    """The day as it is can still be done with more; that none was found says nothing else."""
    found = what_would_help(DAY, (200, 200), lambda _day, _as: None)
    minutes = {each.change: each.minutes for each in found}
    assert minutes["one more burner"] == 0
    assert minutes["one less burner"] is None


def test_more_and_less_of_a_pan_is_tried_where_the_day_holds_such_pans() -> None:
    changed = dict(variants(DAY.kitchen, {"sheet-pan"}))
    assert changed["one more sheet pan"].sheet_pans[0].count == 5
    assert changed["one less sheet pan"].sheet_pans[0].count == 3
    assert not any("baking dish" in words for words in changed)


def test_nothing_is_told_of_what_the_day_makes_no_use_of() -> None:
    words = [each for each, _ in variants(DAY.kitchen, {"pot", "burner"})]
    assert "one less pot" in words
    assert "one more burner" in words
    assert not any("slow cooker" in each or "oven" in each for each in words)


def test_what_was_not_found_is_told_apart_from_what_is_proved_to_change_nothing() -> None:
    same = WhatIf(change="one more pot", minutes=0, proved=True)
    unsure = WhatIf(change="one more burner", minutes=0, proved=False)
    assert change_notes([same]) == ()
    (both,) = change_notes([same, unsure])
    assert both.startswith("no change: the day is proved to be just as long. no change found: the")
    (only,) = change_notes([unsure])
    assert only.startswith("no change found: the day found is just as long; a shorter one")


def test_where_the_day_can_be_done_with_less_it_is_not_solved_again() -> None:
    solved = []

    def measure(day: PrepDay, _: bool) -> tuple[int, int]:
        solved.append(day)
        return 230, 190

    def stands(day: PrepDay) -> bool:
        return day.kitchen.burners.count == 3

    found = {each.change: each for each in what_would_help(DAY, (200, 180), measure, stands=stands)}
    assert found["one less burner"].minutes == 0
    assert not any(day.kitchen.burners.count == 3 for day in solved)
    assert found["one less pot"].minutes == 30


def test_a_change_of_which_nothing_was_found_is_told_so_and_last() -> None:
    def measure(day: PrepDay, _: bool) -> tuple[int, int] | None:
        if len(day.kitchen.cooks) == 1:
            raise NotKnown
        return None if day.kitchen.burners.count == 3 else (200, 200)

    *_, unknown, impossible = what_would_help(DAY, (200, 200), measure)
    assert (unknown.change, unknown.minutes, unknown.proved) == ("without Second cook", None, False)
    assert (impossible.change, impossible.proved) == ("one less burner", True)


def test_what_the_day_as_planned_stands_in_is_known_without_a_plan_found() -> None:
    def measure(_day: PrepDay, as_planned: bool) -> tuple[int, int]:
        assert as_planned
        raise NotKnown

    found = what_would_help(DAY, (200, 200), measure, stands=lambda _: True)
    assert all((each.minutes, each.proved) == (0, False) for each in found if "more" in each.change)
    assert all((each.minutes, each.proved) == (0, True) for each in found if "less" in each.change)


def test_with_less_no_day_is_shorter_than_what_the_day_cannot_go_under() -> None:
    found = what_would_help(DAY, (200, 200), lambda _day, _as: (200, 150))
    less = [each for each in found if "less" in each.change or "without" in each.change]
    assert less
    assert all((each.minutes, each.proved) == (0, True) for each in less)
    assert not any(each.proved for each in found if each not in less)


def test_one_more_of_anything_is_proved_from_the_day_as_it_is() -> None:
    plan = plan_day(DAY, starter(), Effort(8), what_if=True)
    assert plan.summary.proved_shortest
    more = [each for each in plan.what_if if each.change.startswith("one more")]
    assert more
    assert all(each.proved for each in more)


def test_one_pot_less_than_a_dish_has_is_seen_to_change_nothing() -> None:
    plan = plan_day(DAY, starter(), Effort(8), what_if=True)
    changes = {each.change: each.minutes for each in plan.what_if}
    assert changes["one less pot"] == 0
    assert "one less slow cooker" not in changes


def test_a_day_holds_the_kinds_of_vessel_that_its_dishes_are_in() -> None:
    def held(name: str) -> set[str]:
        return kinds_held(dish_work(Dish(starter()[name], 1, "bowl"), DAY.kitchen))

    assert "sheet-pan" in held("turkey-meatballs")
    assert "sheet-pan" not in held("sausage-lentil-soup")
    assert "baking-dish" not in held("cottage-pie")  # in foil pans, which are packed
    assert {"burner", "oven", "pot", "skillet", "board:produce"} <= held("cottage-pie")
    assert not {"oven", "slow-cooker"} & held("sausage-lentil-soup")


def test_the_helper_is_nobody_who_cooks_already() -> None:
    cooks = (KitchenCook("helper", "Helper", frozenset({"knife"})), *default_kitchen().cooks)
    for _, kitchen in variants(replace(default_kitchen(), cooks=cooks)):
        ids = [cook.id for cook in kitchen.cooks]
        assert len(ids) == len(set(ids))
