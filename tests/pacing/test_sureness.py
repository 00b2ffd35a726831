"""How sure a finish is: told from the plan alone, with what has begun, and with time to spare."""

from __future__ import annotations

import datetime as dt

import pytest
from planned_days import planned

from batchcook.pacing.spreads import plan_spreads
from batchcook.pacing.sureness import how_sure
from batchcook.pacing.surewords import risk_words, sure_words, watch_lines
from batchcook.plan import AtRisk, Plan, Sureness
from batchcook.plans.network import budget_named, minute_of, network_of_plan
from batchcook.scheduling.risk import simulate


@pytest.fixture(scope="module")
def plan() -> Plan:
    return planned(sausage_lentil_soup=1, salmon_potato_cakes=1)


def padded(plan: Plan, pad: int) -> Plan:
    """The same minutes, had so many percent of them been to spare."""
    assert plan.order is not None
    return plan.model_copy(
        update={"order": plan.order.model_copy(update={"day": {**plan.order.day, "pad": pad}})}
    )


def test_a_plan_carries_how_sure_it_is(plan: Plan) -> None:
    assert plan.sure is not None
    assert plan.finish < plan.sure.half <= plan.sure.nine_of_ten
    assert plan.sure == how_sure(plan)


def test_on_half_and_on_nine_of_ten_days_it_is_over_by_the_time_told(plan: Plan) -> None:
    assert plan.sure is not None
    days = simulate(network_of_plan(plan), plan_spreads(plan), days=20_000, seed=7)
    for at, share in ((plan.sure.half, 0.5), (plan.sure.nine_of_ten, 0.9)):
        minute = minute_of(plan, at)
        assert at.minute % 5 == 0
        assert days.share_done_by(minute) >= share - 0.01
        assert days.share_done_by(minute - 5) < share + 0.01


def test_minutes_to_spare_make_it_surer(plan: Plan) -> None:
    assert plan.sure is not None
    spare = how_sure(padded(plan, 25))
    assert spare.half < plan.sure.half
    assert spare.nine_of_ten < plan.sure.nine_of_ten


def test_what_is_done_is_as_it_was_and_only_the_rest_varies(plan: Plan) -> None:
    over = {
        task.id: (minute_of(plan, task.start), minute_of(plan, task.end)) for task in plan.tasks
    }
    end = minute_of(plan, plan.finish)
    hour = end - 60
    done = how_sure(plan, fixed=over, now=end)
    assert plan.finish <= done.half == done.nine_of_ten < plan.finish + dt.timedelta(minutes=5)
    early = {name: at for name, at in over.items() if at[1] <= hour}
    left = how_sure(plan, fixed=early, now=hour)
    assert left.half < left.nine_of_ten


def test_a_task_known_to_take_longer_makes_the_day_longer(plan: Plan) -> None:
    assert plan.sure is not None
    longest = max(plan.tasks, key=lambda task: task.end - task.start)
    minutes = minute_of(plan, longest.end) - minute_of(plan, longest.start) + 60
    assert how_sure(plan, durations={longest.id: minutes}).half > plan.sure.half


def test_food_is_named_that_is_out_too_long_on_many_days(plan: Plan) -> None:
    tight = tuple(
        each.model_copy(update={"limit_minutes": each.limit_minutes // 3}) for each in plan.budgets
    )
    found = how_sure(plan.model_copy(update={"budgets": tight})).at_risk
    titles = {dish.id: dish.title for dish in plan.dishes}
    assert found
    for each in found:
        foods = [budget.food for budget in plan.budgets if budget.dish == each.dish]
        assert each.words in {f"{titles[each.dish]}: {food} out too long" for food in foods}
    assert [each.share for each in found] == sorted((each.share for each in found), reverse=True)


def test_every_budget_of_the_network_is_one_of_the_plan(plan: Plan) -> None:
    budgets = network_of_plan(plan).budgets
    assert [budget_named(plan, each.id) for each in budgets] == list(plan.budgets)


def test_the_words() -> None:
    at = dt.datetime(2027, 1, 16, 14, 10)  # noqa: DTZ001 - plans hold wall-clock times
    later = Sureness(half=at, nine_of_ten=at + dt.timedelta(minutes=45))
    assert sure_words(later) == "done by 14:10 in half of all days, by 14:55 in nine of ten"
    assert sure_words(Sureness(half=at, nine_of_ten=at)) == "done by 14:10 in nine of ten days"
    risk = AtRisk(dish="soup", words="Soup: chicken out too long", share=0.01)
    assert risk_words(risk) == "Soup: chicken out too long on 1 day of 100"


def test_a_day_on_which_food_may_be_out_too_long_says_what_to_do_when_late(plan: Plan) -> None:
    assert plan.sure is not None
    waits = AtRisk(dish="soup", words="Soup: browned meat waiting too long", share=0.1)
    out = AtRisk(dish="soup", words="Soup: chicken out too long", share=0.1)
    for risks, told in (((), False), ((waits,), False), ((waits, out), True)):
        said = " ".join(watch_lines(plan.sure.model_copy(update={"at_risk": risks})))
        assert ("waits in the refrigerator" in said) is told
