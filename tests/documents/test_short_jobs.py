"""Work too short to be read by itself in the picture of the day."""

from __future__ import annotations

import datetime as dt
import itertools

from sample_plan import sample_plan

from batchcook.documents.columns import Entry, columns
from batchcook.documents.dishkeys import dish_keys
from batchcook.documents.picture import picture
from batchcook.documents.shortjobs import drawn_work

READABLE = dt.timedelta(minutes=8)


def entry(start: int, end: int, label: str, *dishes: str) -> Entry:
    day = dt.datetime(2027, 1, 16, 8, tzinfo=dt.UTC)
    return Entry(
        day + dt.timedelta(minutes=start),
        day + dt.timedelta(minutes=end),
        title=label,
        dishes=dishes,
        label=label,
    )


def labels(*entries: Entry) -> list[list[str]]:
    return [[label for _, label in work.jobs] for work in drawn_work(entries, READABLE)]


def test_short_jobs_on_end_are_drawn_as_one() -> None:
    found = labels(entry(0, 2, "a"), entry(2, 5, "b"), entry(6, 9, "c"), entry(9, 30, "long"))
    assert found == [["a", "b", "c"], ["long"]]


def test_as_many_as_make_a_readable_block() -> None:
    found = labels(*(entry(each, each + 4, str(each)) for each in range(0, 16, 4)))
    assert found == [["0", "4"], ["8", "12"]]


def test_a_long_job_is_never_drawn_together_with_another() -> None:
    assert labels(entry(0, 9, "long"), entry(9, 11, "a"), entry(11, 20, "longer")) == [
        ["long"],
        ["a"],
        ["longer"],
    ]


def test_a_pause_between_them_keeps_short_jobs_apart() -> None:
    assert labels(entry(0, 2, "a"), entry(7, 9, "b")) == [["a"], ["b"]]


def test_every_job_with_hands_is_drawn_once_and_a_cue_is_not() -> None:
    cue = entry(3, 3, "done")
    found = labels(entry(0, 2, "a"), cue, entry(2, 4, "b"), entry(40, 60, "c"))
    assert sorted(label for each in found for label in each) == ["a", "b", "c"]


def test_dishes_of_several_jobs_are_told_in_order_and_once() -> None:
    [work] = drawn_work([entry(0, 2, "x", "a", "b"), entry(2, 4, "y", "b", "c")], READABLE)
    assert work.dishes == ("a", "b", "c")


def test_nothing_in_the_picture_is_in_type_too_small_to_read() -> None:
    plan = sample_plan()
    drawn = picture(plan, columns(plan), dish_keys(plan.dishes), 450.0)
    assert min(words.size for words in drawn.words) >= 6


def test_work_of_a_cook_has_a_word_on_it_wherever_a_line_has_room() -> None:
    plan = sample_plan()
    cooks = columns(plan)
    drawn = picture(plan, cooks, dish_keys(plan.dishes), 450.0)
    blocks = [each for each in drawn.blocks if each.kind == "hands"]
    assert blocks
    for block in blocks:
        inside = [
            words
            for words in drawn.words
            if block.x <= words.x <= block.x + block.width
            and block.y - 0.1 <= words.y <= block.y + block.height
        ]
        assert inside or block.height < 8


def test_no_two_blocks_of_a_cook_lie_over_each_other() -> None:
    plan = sample_plan()
    drawn = picture(plan, columns(plan), dish_keys(plan.dishes), 450.0)
    hands = sorted((each.x, each.y, each.height) for each in drawn.blocks if each.kind == "hands")
    assert len(hands) > len({x for x, _, _ in hands})
    for (x, y, height), (other, below, _) in itertools.pairwise(hands):
        assert x != other or y + height <= below + 0.1


def test_a_cook_without_any_work_has_an_empty_column() -> None:
    assert drawn_work([], READABLE) == ()
