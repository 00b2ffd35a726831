from __future__ import annotations

from batchcook.freezer.servings import servings


def ways(there: dict[int, int], people: int) -> set[tuple[tuple[int, int], ...]]:
    return {way.counts for way in servings("stew", there, people)}


def test_a_table_for_four_takes_two_small_ones_or_one_large_one() -> None:
    assert ways({2: 5, 4: 5}, 4) == {((2, 1),), ((2, 2),), ((4, 1),)}


def test_no_more_than_there_is() -> None:
    assert ways({2: 1}, 6) == {((2, 1),)}


def test_never_a_container_more_than_it_takes() -> None:
    for way in servings("stew", {1: 6, 2: 6, 4: 6}, 5):
        smallest = min(size for size, _ in way.counts)
        assert way.portions - smallest < 5
