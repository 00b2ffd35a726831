"""The list as it is bought: packs, what is at home, when, for how much."""

from __future__ import annotations

import datetime as dt

import pytest
from shopping_days import DAY, bought, plan_with, tub

from batchcook.buying.packs import sizes
from batchcook.buying.pantry import Pantry, parse_have
from batchcook.buying.purchases import ShoppingList, shopping_list
from batchcook.plan import ShoppingLine


def line(found: ShoppingList, food: str) -> ShoppingLine:
    (one,) = [each for each in found.lines if each.food == food]
    return one


def test_every_line_says_its_packs_and_what_is_left_of_them() -> None:
    found = line(shopping_list(plan_with([bought("carrot", 1007)])), "carrot")
    assert found.purchase == "1 bag of 1 lb and 1 bag of 2 lb"
    assert found.leftover == "12 1/2 oz"


def test_nothing_is_told_to_be_left_of_loose_pieces_or_of_a_spice() -> None:
    found = shopping_list(
        plan_with([bought("sweet potato", 700), bought("cumin", 3, "spices")])
    ).lines
    assert [each.leftover for each in found] == ["", ""]


def test_the_need_itself_stays_as_it_was() -> None:
    before = bought("onion", 2608)
    after = line(shopping_list(plan_with([before])), "onion")
    assert (after.grams, after.amount, after.dishes) == (before.grams, before.amount, ("soup",))


def test_what_is_at_home_is_taken_off() -> None:
    plan = plan_with([bought("onion", 2608), bought("carrot", 400)])
    found = shopping_list(plan, parse_have(["onion 2 kg", "carrot 1 lb"]))
    assert line(found, "onion").purchase == "5 medium"
    assert line(found, "onion").on_hand == "4 1/2 lb"
    assert [each.food for each in found.at_home] == ["carrot"]


def test_more_at_home_than_needed_leaves_nothing_to_buy() -> None:
    found = shopping_list(plan_with([bought("onion", 500)]), parse_have(["onion 2 kg"]))
    assert found.lines == ()
    assert found.at_home[0].on_hand == "1 lb"


def test_what_keeps_is_bought_once_for_the_prep_day_and_the_nights() -> None:
    plan = plan_with(
        [
            bought("green peas, frozen", 200, "frozen"),
            bought("green peas, frozen", 260, "frozen", later=True, dish="stew"),
        ]
    )
    found = line(shopping_list(plan), "green peas, frozen")
    assert found.dishes == ("soup", "stew")
    assert found.purchase == "1 bag of 16 oz"
    assert found.amount == "200 g, and 260 g for the nights"


def test_fresh_food_for_the_nights_has_no_packs_and_no_day() -> None:
    plan = plan_with([bought("parsley", 30, later=True), bought("parsley", 100)])
    now, later = sorted(shopping_list(plan).lines, key=lambda each: each.later)
    assert now.purchase == "2 bunches"
    assert (later.purchase, later.buy_from) == ("", None)


def test_what_is_at_home_goes_to_the_prep_day_first() -> None:
    plan = plan_with([bought("parsley", 60), bought("parsley", 60, later=True)])
    found = shopping_list(plan, parse_have(["parsley 80 g"]))
    assert [each.later for each in found.at_home] == [False]
    assert line(found, "parsley").on_hand == "3/4 oz"


@pytest.mark.parametrize(
    ("food", "first", "words"),
    [
        ("ground beef", dt.date(2027, 1, 14), "better from Fri 15 Jan"),
        ("chicken thigh", dt.date(2027, 1, 14), "better from Fri 15 Jan"),
        ("italian sausage", dt.date(2027, 1, 14), "better from Fri 15 Jan"),
        ("salmon fillet", dt.date(2027, 1, 14), "better from Fri 15 Jan"),
        (
            "beef chuck",
            dt.date(2027, 1, 11),
            "better from Wed 13 Jan; ready cut up, not before Thu 14 Jan",
        ),
        ("bacon", dt.date(2027, 1, 9), ""),
    ],
)
def test_fresh_meat_has_its_first_day(food: str, first: dt.date, words: str) -> None:
    found = line(shopping_list(plan_with([bought(food, 900, "meat and fish")])), food)
    assert found.buy_from == first
    assert found.when == words


@pytest.mark.parametrize("food", ["onion", "flour", "milk, whole", "egg", "spinach, frozen"])
def test_everything_else_is_bought_any_day(food: str) -> None:
    assert line(shopping_list(plan_with([bought(food, 900)])), food).buy_from is None


def test_juice_and_zest_come_from_the_same_fruit() -> None:
    plan = plan_with(
        [bought("lemon juice", 130), bought("lemon zest", 6, dish="kit"), bought("lemon", 110)]
    )
    (fruit,) = shopping_list(plan).lines
    juice, zest, whole = (
        shopping_list(plan_with([each])).purchases[0].choice for each in plan.shopping
    )
    assert juice is not None
    assert zest is not None
    assert whole is not None
    assert fruit.food == "lemon"
    assert fruit.purchase == str(max(juice.pieces, zest.pieces) + whole.pieces)
    assert set(fruit.dishes) == {"soup", "kit"}


def test_fruit_at_home_is_fruit_for_its_juice() -> None:
    plan = plan_with([bought("lemon juice", 130)])
    assert line(shopping_list(plan), "lemon").purchase == "3"
    assert line(shopping_list(plan, parse_have(["lemon 2 each"])), "lemon").purchase == "1"


def test_fruit_at_home_is_taken_once_for_its_juice_and_for_eating() -> None:
    plan = plan_with([bought("lemon juice", 130), bought("lemon", 3 * 158)])
    assert line(shopping_list(plan), "lemon").purchase == "6"
    assert line(shopping_list(plan, parse_have(["lemon 3 each"])), "lemon").purchase == "3"


def test_fruit_at_home_that_the_prep_day_takes_is_gone_for_the_nights() -> None:
    plan = plan_with([bought("lemon juice", 130), bought("lemon juice", 130, later=True)])
    found = shopping_list(plan, parse_have(["lemon 3 each"]))
    assert [each.later for each in found.lines] == [True]
    both = shopping_list(plan, parse_have(["lemon 6 each"]))
    assert both.lines == ()


def test_a_fruit_at_home_gives_both_its_juice_and_its_zest() -> None:
    plan = plan_with([bought("lemon zest", 12), bought("lemon juice", 130)])
    assert shopping_list(plan, parse_have(["lemon 3 each"])).lines == ()


def test_juice_at_home_spares_the_fruit_at_home() -> None:
    plan = plan_with([bought("lemon juice", 130), bought("lemon", 3 * 158)])
    found = shopping_list(plan, parse_have(["lemon juice 1 cup", "lemon 3 each"]))
    assert found.lines == ()


def test_costs_add_up_and_what_has_no_price_is_counted() -> None:
    bag = sizes("onion")[0]
    pantry = Pantry(prices={"onion": {bag: 3.5}})
    found = shopping_list(plan_with([bought("onion", 2608), bought("kale", 300)]), pantry)
    assert line(found, "onion").cost == pytest.approx(7.0)
    assert found.cost == pytest.approx(7.0)
    assert found.unpriced == 1
    assert shopping_list(plan_with([bought("kale", 300)])).cost is None


def test_what_no_table_knows_stays_on_the_list_as_it_is() -> None:
    ice = bought("ice", 9000, "frozen").model_copy(update={"when": "the day before"})
    (found,) = shopping_list(plan_with([ice])).lines
    assert found == ice


def test_containers_are_counted_by_kind_with_their_lids_less_those_at_home() -> None:
    pans = [tub(number, "foil pan with lid, 8 x 8 inch") for number in (4, 5)]
    bags = [tub(6, "quart freezer bag")]
    plan = plan_with([], [*map(tub, (1, 2, 3)), *pans, *bags])
    found = shopping_list(plan, parse_have(["quart tub 1"])).containers
    assert [(each.words, each.count, each.buy) for each in found] == [
        ("quart tubs with lids", 3, 2),
        ("foil pans with lids, 8 x 8 inch", 2, 2),
        ("quart freezer bags", 1, 1),
    ]


def test_the_dates_are_those_of_the_plan() -> None:
    later = plan_with([bought("cod", 500, "meat and fish")]).model_copy(
        update={"date": DAY + dt.timedelta(days=30)}
    )
    assert line(shopping_list(later), "cod").buy_from == dt.date(2027, 2, 13)
