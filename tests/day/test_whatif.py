"""What would help."""

import datetime as dt

from planned_days import starter

from batchcook.day.prepday import PrepDay
from batchcook.day.whatif import kinds_held, variants, what_would_help
from batchcook.dishwork.dishes import dish_work
from batchcook.dishwork.draft import Dish
from batchcook.kitchens.kitchen import default_kitchen

DAY = PrepDay(dt.date(2027, 1, 16), dt.time(8), {"cottage-pie": 1}, default_kitchen())


def test_each_change_is_of_one_thing_only() -> None:
    words = [each for each, _ in variants(DAY.kitchen)]
    assert len(words) == len(set(words))
    changed = dict(variants(DAY.kitchen))
    assert changed["one more burner"].burners.count == 5
    assert changed["one less burner"].burners.count == 3
    assert changed["one less slow cooker"].slow_cookers == ()
    assert changed["one more oven shelf"].ovens[0].shelves == 3
    assert len(changed["without Second cook"].cooks) == 1


def test_what_helps_most_comes_first_and_what_cannot_be_done_last() -> None:
    def measure(day: PrepDay) -> tuple[int, int] | None:
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
    found = what_would_help(DAY, (200, 180), lambda _: (203, 180))
    assert all(each.minutes == 0 for each in found if each.change.startswith("one more"))
    assert all(each.minutes == 3 for each in found if each.change.startswith("one less"))
    assert not any(each.proved for each in found)


def test_more_and_less_of_a_pan_is_tried_where_the_day_holds_such_pans() -> None:
    changed = dict(variants(DAY.kitchen, {"sheet-pan"}))
    assert changed["one more sheet pan"].sheet_pans[0].count == 5
    assert changed["one less sheet pan"].sheet_pans[0].count == 3
    assert not any("baking dish" in words for words in changed)


def test_a_day_holds_the_kinds_of_vessel_that_its_dishes_are_in() -> None:
    def held(name: str) -> set[str]:
        return kinds_held(dish_work(Dish(starter()[name], 1, "bowl"), DAY.kitchen))

    assert "sheet-pan" in held("turkey-meatballs")
    assert "sheet-pan" not in held("sausage-lentil-soup")
    assert "baking-dish" not in held("cottage-pie")  # in foil pans, which are packed
