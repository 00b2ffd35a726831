"""The amounts that close a task's words."""

from __future__ import annotations

import pytest

from batchcook.documents.amounts import is_batches, split_amounts


@pytest.mark.parametrize(
    ("words", "split"),
    [
        ("Stir. (1 tsp salt; 2 eggs)", ("Stir.", ("1 tsp salt", "2 eggs"))),
        ("(3 cups (480 g) onions)", ("", ("3 cups (480 g) onions",))),
        ("Stir (gently) now.", ("Stir (gently) now.", ())),
        ("", ("", ())),
        ("open) (shut) )", ("open) (shut) )", ())),
    ],
)
def test_the_closing_bracket_is_taken_off_as_a_list(
    words: str, split: tuple[str, tuple[str, ...]]
) -> None:
    assert split_amounts(words) == split


def test_an_amount_in_batches_tells_nothing_and_others_do() -> None:
    assert is_batches("2 batches")
    assert is_batches("1 batch")
    assert is_batches("")
    assert not is_batches("3 cups onions")
