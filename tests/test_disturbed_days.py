"""Days disturbed from a seed: no limit of safety is broken without being told."""

from __future__ import annotations

import random

import pytest
from disturbances import broken, disturbed, drifted, followed, held_up, untold
from planned_days import planned

SECONDS = 3.0
LIMIT = 120


@pytest.mark.parametrize("seed", range(8))
def test_a_disturbed_day_goes_on_safely_or_says_why_not(seed: int) -> None:
    plan = planned(sausage_lentil_soup=1, salmon_potato_cakes=1)
    how, wrong = disturbed(plan, seed, SECONDS, LIMIT)
    assert wrong == [], how


def test_food_left_out_while_a_day_is_held_up_is_told_of() -> None:
    plan = planned(sausage_lentil_soup=1, salmon_potato_cakes=1)
    lost = 0
    for seed in range(30):
        rng = random.Random(seed)  # noqa: S311 - a mishap, not a secret
        state, at = drifted(plan, rng)
        following = followed(plan, state, at + held_up(rng))
        lost += bool(broken(following, LIMIT))
        assert untold(following, LIMIT) == []
    assert lost > 0
