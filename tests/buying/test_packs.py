"""How many of which pack: enough, with little left over, and said as one asks for it."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from batchcook.buying.packs import Choice, Size, choice_words, choose, fewer, more, sizes
from batchcook.foods import load_foods

BOUGHT = [name for name in load_foods() if name != "water"]
SMALL, BIG, LOOSE = Size("15 oz can", 425.0), Size("28 oz can", 794.0), Size("each", 122.0, True)

PACKED = st.lists(
    st.builds(Size, st.sampled_from(["a", "b", "c"]), st.floats(50, 2000)),
    min_size=1,
    max_size=2,
    unique_by=lambda size: size.words,
)
NEEDS = st.floats(1, 5000)


def least_over(need: float, sold: list[Size]) -> float:
    """By trying every count: the least that can be left over, a fiftieth too little allowed."""
    counts = [range(int(need / size.grams) + 2) for size in sold]
    totals = (
        sum(size.grams * count for size, count in zip(sold, each, strict=True))
        for each in itertools.product(*counts)
    )
    return min(total for total in totals if total >= 0.98 * need)


@given(NEEDS, PACKED)
def test_packs_are_enough_and_leave_little_more_than_the_least_over(
    need: float, sold: list[Size]
) -> None:
    chosen = choose(need, sold)
    assert chosen.grams >= 0.98 * need * (1 - 1e-9)
    assert chosen.grams <= least_over(need, sold) + 0.1 * need + 1e-6


@given(NEEDS, PACKED)
def test_no_pack_can_be_put_back_again(need: float, sold: list[Size]) -> None:
    chosen = choose(need, sold)
    for size in chosen.counts:
        assert chosen.grams - size.grams < least_over(need, sold) + 0.1 * need


def test_nothing_needed_is_nothing_bought() -> None:
    assert choose(0, [SMALL]).counts == {}


def test_a_bag_nearly_used_up_is_taken_before_loose_ones_are_counted() -> None:
    bag = Size("3 lb bag", 1361.0)
    assert choose(2608, [bag, LOOSE]).counts == {bag: 2}
    assert choose(500, [bag, LOOSE]).counts == {LOOSE: 5}


def test_one_big_can_is_taken_before_two_small_ones_of_like_waste() -> None:
    assert choose(790, [SMALL, BIG]).counts == {BIG: 1}
    assert choose(840, [SMALL, BIG]).counts == {SMALL: 2}


def test_of_choices_with_like_waste_the_cheapest_is_taken_where_all_prices_are_known() -> None:
    assert choose(800, [SMALL, BIG], {SMALL: 0.5, BIG: 1.9}).counts == {SMALL: 2}
    assert choose(800, [SMALL, BIG], {SMALL: 0.5}).counts == {BIG: 1}


def test_the_cost_is_unknown_where_one_price_is() -> None:
    both = Choice({SMALL: 2, BIG: 1})
    assert both.cost({SMALL: 0.5, BIG: 1.5}) == pytest.approx(2.5)
    assert both.cost({SMALL: 0.5}) is None


def test_as_much_as_possible_is_put_back() -> None:
    held = Choice({SMALL: 2, BIG: 2})
    assert fewer(held, 800).counts == {BIG: 1}
    assert fewer(held, 840).counts == {SMALL: 2}
    assert fewer(held, 2400).counts == held.counts
    assert fewer(held, 0).counts == {}


@pytest.mark.parametrize("name", BOUGHT)
def test_every_food_is_sold_in_sizes_that_hold_something(name: str) -> None:
    assert all(size.grams > 0 for size in sizes(name))
    assert sum(size.loose for size in sizes(name)) <= 1


@pytest.mark.parametrize("name", BOUGHT)
def test_every_food_can_be_bought_in_words(name: str) -> None:
    words = choice_words(name, choose(900, sizes(name)), "us")
    assert words[0].isdigit()
    assert "None" not in words


def test_of_a_drained_can_only_what_is_kept_counts() -> None:
    # USDA SR26: a can of chickpeas, drained and rinsed, is 254 g.
    assert [size.grams for size in sizes("chickpeas, canned")] == [254.0]
    assert sizes("crushed tomatoes, canned")[1].grams == pytest.approx(793.8, abs=0.1)


@pytest.mark.parametrize(
    ("name", "need", "words"),
    [
        ("onion", 2608, "2 bags of 3 lb"),
        ("potato", 2419, "1 bag of 5 lb and 1 medium"),
        ("crushed tomatoes, canned", 2380, "3 cans of 28 oz"),
        ("diced tomatoes, canned", 1644, "4 cans of 14 1/2 oz"),
        ("diced tomatoes, canned", 1180, "1 can of 14 1/2 oz and 1 can of 28 oz"),
        ("kale", 659, "3 bunches"),
        ("garlic", 131, "4 heads"),
        ("egg", 600, "1 carton of 12 large"),
        ("hamburger buns", 600, "2 bags of 8"),
        ("crusty bread", 800, "2 loaves"),
        ("mushroom", 468, "1 box of 8 oz and 1 box of 16 oz"),
        ("soy sauce", 100, "1 bottle of 10 fl oz"),
        ("cream, heavy", 500, "1 carton of 1/2 pint and 1 carton of 1 pint"),
        ("beef chuck", 1814, "4 lb"),
        ("lemon juice", 130, "3"),
        ("thyme, dried", 6, "1 jar"),
    ],
)
def test_packs_are_said_as_one_asks_for_them(name: str, need: float, words: str) -> None:
    assert choice_words(name, choose(need, sizes(name)), "us") == words


@pytest.mark.parametrize("name", BOUGHT)
def test_no_metric_pack_is_told_in_ounces(name: str) -> None:
    metric = sizes(name, "metric")
    assert all(size.grams > 0 for size in metric)
    words = " ".join(size.words for size in metric).split()
    assert not {"oz", "lb", "pound", "pint", "quart", "gallon"} & {*words}


@pytest.mark.parametrize(
    ("name", "need", "words"),
    [
        ("onion", 1850, "2 bags of 1 kg"),
        ("ground beef", 907, "1 package of 1 kg"),
        ("milk, whole", 1900, "2 cartons of 1 L"),
        # A recipe that takes four cans of 15 oz takes four of 400 g.
        ("black beans, canned", 4 * 425, "4 cans of 400 g"),
        ("chickpeas, canned", 2 * 254, "2 cans of 400 g"),
        ("diced tomatoes, canned", 411, "1 can of 400 g"),
        ("crushed tomatoes, canned", 794, "1 can of 800 g"),
        ("coconut milk", 2 * 383, "2 cans of 400 mL"),
        ("beef chuck", 1814, "1.8 kg"),
        ("garlic", 131, "4 heads"),
    ],
)
def test_metric_packs_are_those_of_a_metric_store(name: str, need: float, words: str) -> None:
    # Sizes of packs: common practice, no source.
    assert choice_words(name, choose(need, sizes(name, "metric")), "metric") == words


def test_what_is_added_to_a_cart_comes_to_what_a_new_list_says() -> None:
    sold = sizes("black beans, canned", "metric")
    need = 425
    for had, now in ((1, 2), (4, 6), (2, 12)):
        held = choose(need * had, sold)
        added = more(held, need * now, sold)
        assert held.pieces + added.pieces == choose(need * now, sold).pieces == now


def test_what_is_weighed_at_the_counter_is_said_in_the_units_of_the_day() -> None:
    assert choice_words("beef chuck", choose(1814, sizes("beef chuck")), "metric").endswith("kg")
