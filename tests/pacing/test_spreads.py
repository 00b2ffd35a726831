from __future__ import annotations

import tomllib
from importlib import resources

import pytest

from batchcook.kitchens.techniques import load_routines, load_techniques
from batchcook.pacing.spreads import spread_of
from batchcook.scheduling.risk import Triangular

_TABLE = tomllib.loads(
    resources.files("batchcook.data").joinpath("spreads.toml").read_text("utf-8")
)
# Work of plans that is in no table of techniques: ovens warming, pots cooling.
_OTHERS = {"preheat", "cool"}


def test_hands_vary_more_than_the_clock() -> None:
    by_hand, by_itself = (spread_of("none such", by_hand=each) for each in (True, False))
    assert by_hand.quantile(0.9) > by_itself.quantile(0.9)
    assert by_hand.quantile(0.1) < by_itself.quantile(0.1)


@pytest.mark.parametrize("technique", sorted(_TABLE["techniques"]))
def test_every_technique_of_the_table_is_one(technique: str) -> None:
    assert technique in {*load_techniques(), *load_routines(), *_OTHERS}


@pytest.mark.parametrize("technique", sorted(_TABLE["techniques"]))
def test_every_spread_is_about_the_planned_time_and_overruns_more_than_it_saves(
    technique: str,
) -> None:
    spread = spread_of(technique, by_hand=True)
    assert isinstance(spread, Triangular)
    assert 0 < spread.low < spread.mode == 1 < spread.high
    assert spread.high - 1 >= 1 - spread.low
