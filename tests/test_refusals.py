"""Those who confirm refusals can say no: the second model, and the arithmetic done again."""

from __future__ import annotations

import datetime as dt
import sys
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import HealthCheck, assume, given, settings
from plain_model import clash
from refusals import faults_confirmed, unconfirmed

from batchcook.complaints import Complaint, InputFault
from batchcook.cookbook import load_cookbook
from batchcook.day.prepday import PrepDay
from batchcook.day.solving import Effort, NoPlan
from batchcook.kitchens.kitchen import default_kitchen
from batchcook.planning import plan_day
from batchcook.scheduling.problem import Problem
from batchcook.scheduling.relaxing import elements

sys.path.insert(0, str(Path(__file__).parent / "scheduling"))
from oracle import best_values
from small_problems import small_problems

KITCHEN = default_kitchen()
MEATBALLS = PrepDay(dt.date(2027, 1, 16), dt.time(8), {"turkey-meatballs": 6}, KITCHEN)


@settings(
    max_examples=60,
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)
@given(small_problems())
def test_the_second_model_finds_no_possible_problem_impossible(problem: Problem) -> None:
    assume(best_values(problem) is not None)
    assert clash(problem, tuple(elements(problem)), seconds=20) == "possible"


def test_a_conflict_with_a_limit_too_few_is_not_confirmed() -> None:
    with pytest.raises(NoPlan) as caught:
        plan_day(MEATBALLS, load_cookbook(), Effort(seconds=5))
    found = caught.value.clash
    assert found is not None
    assert unconfirmed(found, load_cookbook()) == []
    short = replace(found.conflict, references=found.conflict.references[1:])
    assert unconfirmed(replace(found, conflict=short), load_cookbook()) != []
    larger = replace(found.changes[0], day=MEATBALLS)
    assert unconfirmed(replace(found, changes=(larger,)), load_cookbook()) != []


def test_a_complaint_that_is_not_so_is_not_confirmed() -> None:
    no_oven = InputFault(Complaint("cottage-pie, step 'bake'", "the kitchen has no oven"))
    assert faults_confirmed(MEATBALLS, no_oven, load_cookbook())[1] != []
    bare = replace(MEATBALLS, kitchen=replace(KITCHEN, ovens=()))
    assert faults_confirmed(bare, no_oven, load_cookbook()) == (1, [])
