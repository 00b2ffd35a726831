"""Days disturbed from a seed: no limit of safety is broken without being told."""

from __future__ import annotations

import pytest
from disturbances import disturbed
from planned_days import planned

SECONDS = 3.0
LIMIT = 120


@pytest.mark.parametrize("seed", range(8))
def test_a_disturbed_day_goes_on_safely_or_says_why_not(seed: int) -> None:
    plan = planned(sausage_lentil_soup=1, salmon_potato_cakes=1)
    how, wrong = disturbed(plan, seed, SECONDS, LIMIT)
    assert wrong == [], how
