"""Thirty prep days drawn at random: each is planned soundly, or refused with a reason.

A plan has passed the scheduling checker and the replay of its food's events before it is made;
here it also passes the checker that knows only ``plan.json``, and a refusal is confirmed: what it
names is impossible by a second model, or by arithmetic done again, and what it offers works.
``tests/benchmarks/random_days.py`` does the same for a thousand days.
"""

from __future__ import annotations

from collections import Counter
from functools import cache

import pytest
from random_prep_days import outcome, random_day

from batchcook.cookbook import load_cookbook

DAYS = range(30)
SECONDS = 1.0
FEWEST_PLANS = 3


@cache
def _found(seed: int) -> tuple[str, tuple[str, ...]]:
    cookbook = load_cookbook()
    how, wrong = outcome(random_day(seed, cookbook), cookbook, SECONDS)
    return how, tuple(wrong)


@pytest.mark.parametrize("seed", DAYS)
def test_a_random_day_is_planned_soundly_or_refused_with_a_reason(seed: int) -> None:
    how, wrong = _found(seed)
    assert wrong == (), how


def test_enough_of_the_random_days_are_planned_and_some_are_refused() -> None:
    counts = Counter(_found(seed)[0] for seed in DAYS)
    assert counts["plan"] >= FEWEST_PLANS
    assert counts["refused"] > 0
    assert counts["no plan"] > 0
