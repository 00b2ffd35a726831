"""The choice of recipes against every choice there is."""

from __future__ import annotations

import itertools
import random
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

import pytest
from suggest_cases import night, offer, request

from batchcook.kitchens.kitchen import default_kitchen
from batchcook.quantities import ureg
from batchcook.suggesting.candidates import (
    CHANGE,
    KEEP,
    LEFT_OVER,
    OPEN_NIGHT,
    SAME_DISH,
    SAME_MAIN,
    Candidate,
    fair_share,
)
from batchcook.suggesting.fromstock import NightAhead
from batchcook.suggesting.model import SuggestModel
from batchcook.suggesting.offers import Offer, Size
from batchcook.suggesting.request import SuggestRequest


def _worth(
    nights: Sequence[NightAhead],
    offers: Mapping[str, Offer],
    orders: Mapping[str, int],
    dinners: Sequence[str],
    asked: SuggestRequest,
) -> int | None:
    """Cost and length of a choice in minutes, or None where a rule is broken."""
    sizes = {name: offers[name].sizes[count - 1] for name, count in orders.items() if count}
    mains = [
        {offers[dish].main} if dish else set(one.mains)
        for dish, one in zip(dinners, nights, strict=True)
    ]
    if not _eaten_in_time_and_enough(nights, offers, sizes, dinners):
        return None
    if any(
        before & after and (nights[place].open or nights[place + 1].open)
        for place, (before, after) in enumerate(itertools.pairwise(mains))
    ):
        return None
    if sum(size.space for size in sizes.values()) > 5 + 1e-9:
        return None
    hands = sum(size.hands_on for size in sizes.values())
    if hands > int(len(asked.kitchen.cooks) * asked.longest * 1.1):
        return None
    length = max([-(-hands // len(asked.kitchen.cooks)), *(s.alone for s in sizes.values())])
    return length + _cost(nights, offers, sizes, dinners, mains)


def _eaten_in_time_and_enough(
    nights: Sequence[NightAhead],
    offers: Mapping[str, Offer],
    sizes: Mapping[str, Size],
    dinners: Sequence[str],
) -> bool:
    for name, size in sizes.items():
        at = [nights[place] for place, dish in enumerate(dinners) if dish == name]
        if not at or not _fed(size, [one.people for one in at]):
            return False
        if not all(offers[name].in_time(one.on) for one in at):
            return False
    return all(not dish or dish in sizes for dish in dinners)


def _cost(
    nights: Sequence[NightAhead],
    offers: Mapping[str, Offer],
    sizes: Mapping[str, Size],
    dinners: Sequence[str],
    mains: Sequence[set[str]],
) -> int:
    cost = OPEN_NIGHT * sum(
        not dish and one.open for dish, one in zip(dinners, nights, strict=True)
    )
    for name in sizes:
        rating = offers[name].rating
        cost += 0 if rating is None else {"keep": KEEP, "change": CHANGE}[rating.verdict]
    for name in offers:
        cost += SAME_DISH * max(0, dinners.count(name) - 2)
    for main in {each.main for each in offers.values()}:
        over = sum(main in of_night for of_night in mains) - fair_share(len(nights))
        new = sum(bool(dish) and offers[dish].main == main for dish in dinners)
        cost += SAME_MAIN * max(0, min(over, new))
    for dish, one in zip(dinners, nights, strict=True):
        if dish:
            each = offers[dish].recipe.portions_per_container
            cost += LEFT_OVER * (-(-one.people // each) * each - one.people)
    return cost


def _fed(size: Size, tables: Sequence[int]) -> bool:
    """Whether the containers feed tables of one number of people, one after another."""
    waiting = sorted(size.portions, reverse=True)
    for people in tables:
        fed = 0
        while fed < people:
            if not waiting:
                return False
            fed += waiting.pop(0)
    return True


def _every_choice(
    nights: Sequence[NightAhead], offers: Mapping[str, Offer]
) -> Iterator[tuple[dict[str, int], tuple[str, ...]]]:
    counts = [range(len(each.sizes) + 1) for each in offers.values()]
    for batches in itertools.product(*counts):
        orders = dict(zip(offers, batches, strict=True))
        made = ["", *(name for name, count in orders.items() if count)]
        for dinners in itertools.product(*(made if one.open else [""] for one in nights)):
            yield orders, dinners


def _best(nights: Sequence[NightAhead], offers: Mapping[str, Offer], asked: SuggestRequest) -> int:
    found = (
        _worth(nights, offers, orders, dinners, asked)
        for orders, dinners in _every_choice(nights, offers)
    )
    return min(worth for worth in found if worth is not None)


@pytest.mark.parametrize("seed", range(25))
def test_no_choice_is_better_than_the_one_that_is_made(seed: int) -> None:
    rng = random.Random(seed)  # noqa: S311 - variety, not secrecy
    people = rng.choice([2, 4, 5])
    nights = [
        night(day, people, rng.choice(["", "", "", "beef", "beans"]))
        for day in sorted(rng.sample(range(1, 30), 4))
    ]
    offers = {
        name: offer(
            name,
            rng.choice(["beef", "chicken", "beans"]),
            verdict=rng.choice([None, "keep", "change"]),
            each=rng.choice([2, 4]),
            servings=rng.choice([4, 6, 8]),
            hands_on=rng.randrange(20, 300),
            alone=rng.randrange(40, 300),
            space=rng.choice([0.2, 2.0]),
            first=rng.choice([1, 2, 3]),
            last=rng.choice([10, 20, 60]),
        )
        for name in ("ada", "bea", "cleo")
    }
    asked = request(4, longest=rng.choice([150, 360]), people=people)
    found = SuggestModel(nights, list(offers.values()), asked).best()
    assert found is not None
    dinners = [found.dinners.get(place, "") for place in range(len(nights))]
    orders = {name: found.orders.get(name, 0) for name in offers}
    assert _worth(nights, offers, orders, dinners, asked) == _best(nights, offers, asked)


def _only(*offers: Offer, nights: Sequence[NightAhead]) -> Mapping[str, int]:
    found = SuggestModel(nights, offers, request(len(nights))).best()
    assert found is not None
    return found.orders


def test_a_dish_to_keep_goes_before_its_equal() -> None:
    nights = [night(5), night(10)]
    liked, other = offer("liked", "beef", verdict="keep"), offer("other", "beans")
    assert "liked" in _only(other, liked, nights=nights)


def test_a_dish_to_be_changed_goes_after_its_equal() -> None:
    nights = [night(5)]
    poor, other = offer("a-poor", "beef", verdict="change"), offer("other", "beans")
    assert dict(_only(poor, other, nights=nights)) == {"other": 1}


def test_what_is_past_its_best_by_on_the_night_is_not_for_it() -> None:
    found = SuggestModel([night(20)], [offer("soup", "beans", last=19)], request(1)).best()
    assert found is not None
    assert (found.orders, found.uncovered) == ({}, (0,))


def test_an_order_left_out_takes_everything_larger_with_it() -> None:
    nights = [night(5), night(10), night(15)]
    model = SuggestModel(nights, [offer("a", "beef"), offer("b", "beans")], request(3))
    first = model.best()
    assert first is not None
    seen: list[Mapping[str, int]] = []
    found: Candidate | None = first
    while found is not None and found.orders:
        assert not any(
            all(found.orders.get(dish, 0) >= count for dish, count in earlier.items())
            for earlier in seen
        )
        seen.append(found.orders)
        model.without(found.orders)
        found = model.best()
    assert len(seen) > 1


def test_a_full_freezer_leaves_nights_open_instead_of_overflowing() -> None:
    bulky = [offer(name, name, space=3.0, most=1) for name in ("a", "b", "c")]
    found = SuggestModel([night(d) for d in (4, 8, 12, 16)], bulky, request(4)).best()
    assert found is not None
    assert len(found.orders) == 1
    assert len(found.uncovered) >= 2


def test_no_more_is_made_than_a_small_freezer_freezes_before_it_spoils() -> None:
    kitchen = default_kitchen()
    # Three pounds a cubic foot a day, for today and one day of waiting: 12 pounds of 5 each.
    small = replace(kitchen.freezer, capacity=ureg.Quantity(2, "foot ** 3"))
    asked = request(4, kitchen=replace(kitchen, freezer=small))
    dishes = [offer(name, name, waits=1, most=1, servings=4) for name in ("a", "b", "c", "d")]
    found = SuggestModel([night(d) for d in (4, 8, 12, 16)], dishes, asked).best()
    assert found is not None
    assert len(found.orders) == 2
