"""Amounts that say something."""

from __future__ import annotations

from batchcook.documents.amounts import is_batches


def test_an_amount_in_batches_tells_nothing_and_others_do() -> None:
    assert is_batches("2 batches")
    assert is_batches("1 batch")
    assert is_batches("")
    assert not is_batches("3 cups onions")
