"""A dish swapped mid-shop: only what changes is told, and what is in the cart is kept in use."""

from __future__ import annotations

import pytest
from shopping_days import bought, plan_with, tub

from batchcook.buying.packs import choose, sizes
from batchcook.buying.pantry import parse_have
from batchcook.buying.purchasechanges import Change, changes
from batchcook.plan import Plan


def changed(old: Plan, new: Plan) -> Change:
    (found,) = changes(old, new)
    return found


def test_the_same_plan_changes_nothing() -> None:
    plan = plan_with([bought("onion", 2608), bought("lemon juice", 60)], [tub(1)])
    assert changes(plan, plan) == ()


def test_a_new_food_is_bought_and_one_no_longer_needed_is_left_out() -> None:
    old, new = plan_with([bought("kale", 600)]), plan_with([bought("celery", 500)])
    assert [(each.what, each.food, each.difference) for each in changes(old, new)] == [
        ("buy", "celery", "2 bunches"),
        ("leave out", "kale", "3 bunches"),
    ]


def test_more_is_added_to_what_the_list_said() -> None:
    found = changed(plan_with([bought("onion", 2608)]), plan_with([bought("onion", 3900)]))
    assert (found.what, found.difference) == ("buy more", "10 medium")
    assert (found.was, found.now) == ("2 bags of 3 lb", "2 bags of 3 lb and 10 medium")


def test_as_many_packs_as_possible_are_put_back() -> None:
    found = changed(plan_with([bought("onion", 2608)]), plan_with([bought("onion", 1200)]))
    assert (found.what, found.difference, found.now) == (
        "buy less",
        "1 bag of 3 lb",
        "1 bag of 3 lb",
    )


def test_a_little_more_that_the_packs_hold_anyway_is_no_change() -> None:
    old = plan_with([bought("carrot", 1000)])
    assert changes(old, plan_with([bought("carrot", 1300)])) == ()


@pytest.mark.parametrize("before", [300, 800, 1900, 3000])
@pytest.mark.parametrize("after", [250, 900, 2000, 3100])
def test_old_list_and_change_together_are_enough(before: int, after: int) -> None:
    food = "crushed tomatoes, canned"
    held = choose(before, sizes(food))
    found = changes(
        plan_with([bought(food, before, "canned")]), plan_with([bought(food, after, "canned")])
    )
    if not found:
        assert held.covers(after)
        assert all(not held.grams - size.grams >= after for size in held.counts)
    else:
        assert found[0].what == ("buy less" if held.covers(after) else "buy more")


def test_one_size_is_never_exchanged_for_another() -> None:
    food = "crushed tomatoes, canned"
    found = changed(
        plan_with([bought(food, 790, "canned")]), plan_with([bought(food, 1180, "canned")])
    )
    assert (found.difference, found.now) == ("1 can of 15 oz", "1 can of 28 oz and 1 can of 15 oz")


def test_what_is_at_home_counts_for_both() -> None:
    old, new = plan_with([bought("onion", 900)]), plan_with([bought("onion", 1900)])
    assert changes(old, new, parse_have(["onion 2 kg"])) == ()


def test_amounts_without_packs_are_set_side_by_side() -> None:
    found = changed(
        plan_with([bought("ice", 9000, "frozen")]), plan_with([bought("ice", 5000, "frozen")])
    )
    assert (found.what, found.was, found.now) == ("buy less", "9000 g", "5000 g")


def test_containers_change_too() -> None:
    old = plan_with([], [tub(1), tub(2), tub(3, "quart freezer bag")])
    new = plan_with([], [tub(1), tub(2, "pint tub")])
    assert [(each.what, each.difference, each.food) for each in changes(old, new)] == [
        ("buy less", "1", "quart tubs with lids"),
        ("buy", "1", "pint tubs with lids"),
        ("leave out", "1", "quart freezer bags"),
    ]


def test_meat_that_is_added_has_its_first_day() -> None:
    found = changed(plan_with([]), plan_with([bought("ground beef", 900, "meat and fish")]))
    assert found.when == "not before Thu 14 Jan; better from Fri 15 Jan"


def test_what_is_put_back_or_left_out_has_no_day() -> None:
    lots, less = (
        plan_with([bought("ground turkey", grams, "meat and fish")]) for grams in (1800, 900)
    )
    assert changed(lots, less).when == ""
    assert changed(lots, plan_with([])).when == ""


def test_a_fruit_bought_whole_compares_with_one_bought_for_its_juice() -> None:
    one, juice = (float(sizes(each)[0].grams) for each in ("lemon", "lemon juice"))
    whole = bought("lemon", round(2 * one))
    old, new = plan_with([whole]), plan_with([whole, bought("lemon juice", round(4 * juice))])
    more, less = changed(old, new), changed(new, old)
    assert (more.what, more.difference, more.was, more.now) == ("buy more", "4", "2", "6")
    assert (less.what, less.difference, less.was, less.now) == ("buy less", "4", "6", "2")
