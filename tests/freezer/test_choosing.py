"""The choice of dinners against every choice there is, and against its rules one by one."""

from __future__ import annotations

import datetime as dt
import itertools
import random
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence

import pytest

from batchcook.freezer.choosing import choose
from batchcook.freezer.nights import Lot, Night

FIRST = dt.date(2026, 2, 1)
LAST = dt.date(2026, 2, 28)

Dinner = Mapping[int, int]


def on(day: int) -> dt.date:
    return FIRST + dt.timedelta(days=day - 1)


def broken_rules(nights: Sequence[Night], lots: Sequence[Lot], dinners: Sequence[Dinner]) -> str:
    """The first rule that is broken, told without anything that the choice itself uses."""
    eaten: Counter[int] = Counter()
    mains = []
    for night, dinner in zip(nights, dinners, strict=True):
        if night.settled is not None:
            if dinner:
                return "a settled night was given something"
            mains.append(night.settled)
            continue
        sizes = [lots[lot].portions for lot, count in dinner.items() for _ in range(count)]
        if len({lots[lot].dish for lot in dinner}) > 1:
            return "two dishes on one night"
        if sizes and sum(sizes) - min(sizes) >= night.people:
            return "a container more than it takes"
        eaten.update(dinner)
        mains.append(frozenset(lots[lot].main or lots[lot].dish for lot in dinner))
    if not within_dates_and_counts(nights, lots, dinners, eaten):
        return "outside its dates, or more than there is"
    both = zip(itertools.pairwise(nights), itertools.pairwise(mains), strict=True)
    for (first, second), (before, after) in both:
        if before & after and not (first.settled is not None and second.settled is not None):
            return "one main ingredient on two nights running"
    return ""


def within_dates_and_counts(
    nights: Sequence[Night], lots: Sequence[Lot], dinners: Sequence[Dinner], eaten: Counter[int]
) -> bool:
    in_date = all(
        lots[lot].from_day <= night.on <= lots[lot].last_day
        for night, dinner in zip(nights, dinners, strict=True)
        for lot in dinner
    )
    return in_date and all(count <= lots[lot].count for lot, count in eaten.items())


def score(nights: Sequence[Night], lots: Sequence[Lot], dinners: Sequence[Dinner]) -> list[int]:
    """What is to be small, in order, the last goal left out."""
    passing = sum(lot.count for lot in lots if FIRST <= lot.best_by <= LAST)
    unfed = hungry = unwanted = over = 0
    for night, dinner in zip(nights, dinners, strict=True):
        if night.settled is not None:
            continue
        portions = sum(lots[lot].portions * count for lot, count in dinner.items())
        passing -= sum(
            count for lot, count in dinner.items() if night.on <= lots[lot].best_by <= LAST
        )
        unfed += max(0, night.people - portions)
        hungry += portions < night.people
        unwanted += any(lots[lot].unwanted for lot in dinner)
        over += max(0, portions - night.people)
    return [passing, unfed, hungry, unwanted, over]


def every_dinner(night: Night, lots: Sequence[Lot]) -> Iterator[Dinner]:
    if night.settled is not None:
        yield {}
        return
    for counts in itertools.product(*(range(lot.count + 1) for lot in lots)):
        dinner = {lot: count for lot, count in enumerate(counts) if count}
        if not broken_rules([night], lots, [dinner]):
            yield dinner


def best_of_all(nights: Sequence[Night], lots: Sequence[Lot]) -> list[int]:
    return min(
        score(nights, lots, dinners)
        for dinners in itertools.product(*(list(every_dinner(night, lots)) for night in nights))
        if not broken_rules(nights, lots, dinners)
    )


def some_lots(chance: random.Random, count: int, most: int) -> list[Lot]:
    lots = []
    for _ in range(count):
        dish = chance.randrange(4)
        best_by = on(chance.randint(-5, 45))
        lots.append(
            Lot(
                dish=f"dish {dish}",
                main=("beef", "chicken", "beef", "")[dish],
                portions=chance.choice([2, 4]),
                count=chance.randint(1, most),
                from_day=on(chance.choice([1, 1, 6])),
                best_by=best_by,
                last_day=best_by + dt.timedelta(days=chance.choice([0, 10, 30])),
                unwanted=dish == 1,
            )
        )
    return lots


@pytest.mark.parametrize("seed", range(25))
def test_no_choice_at_all_is_better(seed: int) -> None:
    chance = random.Random(seed)  # noqa: S311 - made-up months, no secret
    nights = [
        Night(
            on(day),
            chance.choice([2, 4, 5]),
            frozenset({"beef"}) if chance.random() < 0.15 else None,
        )
        for day in sorted(chance.sample(range(1, 29), 3))
    ]
    lots = some_lots(chance, 4, 2)
    chosen = choose(nights, lots, (FIRST, LAST))
    assert broken_rules(nights, lots, chosen.dinners) == ""
    assert chosen.proved
    reached = score(nights, lots, chosen.dinners)
    assert reached == best_of_all(nights, lots)
    assert chosen.passing == reached[0]


@pytest.mark.parametrize("seed", range(6))
def test_a_whole_month_keeps_every_rule(seed: int) -> None:
    chance = random.Random(seed)  # noqa: S311 - the same
    nights = [Night(on(day), chance.choice([2, 4, 6])) for day in range(2, 29, 3)]
    lots = some_lots(chance, 14, 5)
    chosen = choose(nights, lots, (FIRST, LAST))
    assert broken_rules(nights, lots, chosen.dinners) == ""
    assert chosen.passing == score(nights, lots, chosen.dinners)[0]
    assert choose(nights, lots, (FIRST, LAST)) == chosen


def lot(dish: str, main: str, count: int = 1, best_by: int = 60, portions: int = 4) -> Lot:
    return Lot(dish, main, portions, count, FIRST, on(best_by), on(best_by + 30))


def test_the_oldest_is_eaten_first() -> None:
    lots = [lot("stew", "beef", best_by=60), lot("pie", "lamb", best_by=40)]
    chosen = choose([Night(on(3), 4)], lots, (FIRST, LAST))
    assert chosen.dinners == ({1: 1},)


def test_of_one_dish_the_older_is_eaten_on_the_earlier_night() -> None:
    lots = [
        lot("stew", "beef", best_by=60),
        lot("stew", "beef", best_by=50),
        lot("soup", "beans", best_by=70),
    ]
    nights = [Night(on(3), 4), Night(on(5), 4), Night(on(10), 4)]
    chosen = choose(nights, lots, (FIRST, LAST))
    assert chosen.dinners == ({1: 1}, {2: 1}, {0: 1})


def test_where_the_stock_is_short_the_last_nights_are_empty() -> None:
    nights = [Night(on(day), 4) for day in (3, 5, 10, 12, 17)]
    lots = [lot("stew", "beef", 2), lot("soup", "beans", 1)]
    chosen = choose(nights, lots, (FIRST, LAST))
    assert chosen.dinners == ({0: 1}, {1: 1}, {0: 1}, {}, {})


def test_dishes_take_turns_where_all_keep_alike() -> None:
    nights = [Night(on(day), 4) for day in (2, 5, 9, 12, 16, 19, 23, 26)]
    lots = [lot(dish, dish, 8) for dish in ("stew", "soup", "pie", "curry")]
    chosen = choose(nights, lots, (FIRST, LAST))
    eaten = [next(iter(dinner)) for dinner in chosen.dinners]
    assert eaten[:4] == eaten[4:]
    assert sorted(eaten[:4]) == [0, 1, 2, 3]


def test_not_more_is_left_for_the_nights_after_the_month_than_they_can_eat() -> None:
    # Two at the table: a pan for four leaves two portions, so by itself no night would have one.
    lots = [lot("pan", "potato", 2, best_by=35), lot("soup", "beans", 2, portions=2)]
    nights = [Night(on(5), 2), Night(on(12), 2), Night(on(33), 2)]
    alone = choose(
        nights[:2], [lots[0], lot("stew", "beef", 1, portions=2), lots[1]], (FIRST, LAST)
    )
    assert sorted(lot for dinner in alone.dinners for lot in dinner) == [1, 2]
    chosen = choose(nights, lots, (FIRST, LAST), looked_to=on(40))
    assert sum(0 in dinner for dinner in chosen.dinners[:2]) == 1
    assert chosen.dinners[2] == {0: 1}
    assert (chosen.passing, chosen.proved) == (0, True)


def test_an_unwanted_dish_is_left_until_nothing_else_is_there() -> None:
    old = Lot("stew", "beef", 4, 1, FIRST, on(35), on(65), unwanted=True)
    lots = [old, lot("pie", "lamb")]
    assert choose([Night(on(3), 4)], lots, (FIRST, LAST)).dinners == ({1: 1},)
    assert choose([Night(on(3), 4)], [old], (FIRST, LAST)).dinners == ({0: 1},)


def test_nothing_in_stock_leaves_every_night_empty_and_is_proved() -> None:
    chosen = choose([Night(on(3), 4)], [], (FIRST, LAST))
    assert (chosen.dinners, chosen.passing, chosen.proved) == (({},), 0, True)


def test_with_no_time_to_search_nothing_is_claimed() -> None:
    chance = random.Random(1)  # noqa: S311 - the same
    nights = [Night(on(day), 4) for day in range(1, 29)]
    lots = some_lots(chance, 40, 6)
    chosen = choose(nights, lots, (FIRST, LAST), effort=1e-6)
    assert not chosen.proved
    assert chosen.passing == score(nights, lots, chosen.dinners)[0]
