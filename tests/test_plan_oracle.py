"""Every starter recipe and several mixes pass the checker of plans; spoilt plans do not."""

from __future__ import annotations

import copy
import datetime as dt
from collections.abc import Callable
from typing import Any

import pytest
from plan_oracle import RULES, breaches
from planned_days import planned, starter, written

Plan = dict[str, Any]
MIX = {"cottage_pie": 1, "lemon_herb_chicken_kit": 1, "chicken_coconut_curry": 1}
SECONDS = 2.5
"""Whether a plan is sound does not ask for the best one."""


@pytest.mark.parametrize("name", sorted(starter()))
def test_each_recipe_alone_has_a_sound_plan(name: str) -> None:
    assert breaches(written(**{name: 1})) == []


@pytest.mark.parametrize(
    "orders",
    [
        MIX,
        {"beef_barley_stew": 2, "cider_pulled_pork": 1},
        {"turkey_meatballs": 2, "spinach_ricotta_shells": 1},
        {"sausage_lentil_soup": 2, "squash_red_lentil_soup": 2},
    ],
)
def test_mixes_have_sound_plans(orders: dict[str, int]) -> None:
    assert breaches(written(SECONDS, **orders)) == []


def _begun_an_hour_early(plan: Plan) -> None:
    plan["start"] = _moved(plan["start"], -60)
    for name in ("makespan_minutes", "best_bound_minutes"):
        plan["summary"][name] += 60


def test_a_day_may_begin_before_its_first_task_where_all_cooks_are_away() -> None:
    plan = _sound()
    begun = plan["start"]
    _begun_an_hour_early(plan)
    for resource in plan["resources"]:
        if resource["id"].startswith("cook:"):
            gone = {"from": plan["start"], "to": begun, "amount": resource["capacity"]}
            resource["away"] = [*resource["away"], gone]
    assert breaches(plan) == []


# ---- spoilt plans -------------------------------------------------------------------------------


def _sound() -> Plan:
    return copy.deepcopy(dict(written(SECONDS, **MIX)))


def _task(plan: Plan, technique: str) -> Plan:
    found: Plan = next(task for task in plan["tasks"] if task["technique"] == technique)
    return found


def _moved(at: str, minutes: int) -> str:
    moved = dt.datetime.fromisoformat(at) + dt.timedelta(minutes=minutes)
    return moved.isoformat(timespec="minutes")


def _move(task: Plan, minutes: int) -> None:
    for end in ("start", "end"):
        task[end] = _moved(task[end], minutes)


def _unknown_task(plan: Plan) -> None:
    plan["lags"][0]["before"] = "nothing"


def _no_time(plan: Plan) -> None:
    _task(plan, "portion")["end"] = _task(plan, "portion")["start"]


def _one_burner(plan: Plan) -> None:
    next(each for each in plan["resources"] if each["id"] == "burner")["capacity"] = 0


def _away(plan: Plan) -> None:
    cook = f"cook:{_task(plan, 'portion')['cook']}"
    resource = next(each for each in plan["resources"] if each["id"] == cook)
    resource["away"] = [{"from": plan["start"], "to": plan["finish"], "amount": 1}]


def _kept_pot(plan: Plan) -> None:
    pot = next(each for each in plan["occupancies"] if each["resource"].startswith("pot:"))
    pot["amount"] += 4


def _two_things_at_once(plan: Plan) -> None:
    task, second = _task(plan, "wash"), _task(plan, "portion")
    task["cook"], task["uses"] = second["cook"], dict(second["uses"])
    task["start"], task["end"] = second["start"], second["end"]


def _other_hands(plan: Plan) -> None:
    _task(plan, "portion")["cook"] = None


def _short_simmer(plan: Plan) -> None:
    lag = next(each for each in plan["lags"] if each["max_minutes"] is None)
    lag["min_minutes"] = 1000


def _late(plan: Plan) -> None:
    next(each for each in plan["lags"] if each["min_minutes"] == 0)["max_minutes"] = -1


def _two_temperatures(plan: Plan) -> None:
    one = plan["settings"][0]
    plan["settings"].append({**one, "degF": one["degF"] + 100})


def _cold_oven(plan: Plan) -> None:
    plan["settings"][0]["degF"] += 100


def _long_out(plan: Plan) -> None:
    for event in plan["events"]:
        if event["event"] == "refrigerated":
            event["at"] = _moved(event["at"], 150)


def _never_away(plan: Plan) -> None:
    plan["events"] = [each for each in plan["events"] if each["event"] in {"out", "on-heat"}]


def _event_at_no_time(plan: Plan) -> None:
    next(e for e in plan["events"] if e["event"] == "out")["at"] = _moved(plan["start"], 1)


def _frozen_hot(plan: Plan) -> None:
    for event in plan["events"]:
        if event["event"] == "refrigerated":
            event["event"] = "frozen"


def _other_freezing_day(plan: Plan) -> None:
    plan["containers"][0]["frozen_on"] = "2027-01-25"


def _left_half_raw(plan: Plan) -> None:
    for event in plan["events"]:
        if event["event"] == "off-heat" and event["dish"] == "cottage-pie":
            event["kind"] = "raw-ground-beef"


def _straight_but_late(plan: Plan) -> None:
    load = next(e for e in plan["events"] if e["event"] == "off-heat" and e["kind"][:4] == "raw-")
    load["at"] = _moved(load["at"], -11)


def _raw_board(plan: Plan) -> Plan:
    found: Plan = next(
        task
        for task in plan["tasks"]
        if task["technique"] == "clean-down" and "board:raw" in task["uses"]
    )
    return found


def _unwashed_board(plan: Plan) -> None:
    _raw_board(plan)["technique"] = "rest"


def _wrong_board(plan: Plan) -> None:
    for event in plan["events"]:
        task = next(task for task in plan["tasks"] if task["id"] == event["task"])
        if event["event"] == "out" and "board:raw" in task["uses"]:
            task["uses"] = {"board:produce": 1, f"cook:{task['cook']}": 1}


def _unwashed_hands(plan: Plan) -> None:
    for task in plan["tasks"]:
        if task["technique"] == "clean-down":
            task["technique"] = "rest"


def _no_pot_kept(plan: Plan) -> None:
    plan["occupancies"] = [
        each
        for each in plan["occupancies"]
        if not each["resource"].startswith("pot:") or "curry" not in each["from_task"]
    ]


def _burner_given_up(plan: Plan) -> None:
    kept = next(each for each in plan["occupancies"] if each["resource"] == "burner")
    kept["to_task"] = kept["from_task"]


def _early_start(plan: Plan) -> None:
    _move(_task(plan, "wash"), -600)


def _late_finish(plan: Plan) -> None:
    _move(_task(plan, "wash"), 600)


def _no_cleanup(plan: Plan) -> None:
    _task(plan, "cleanup")["technique"] = "rest"


def _gap_in_a_run(plan: Plan) -> None:
    run = plan["shared"][0]
    _move(next(task for task in plan["tasks"] if task["id"] == run["bowls"][-1]["task"]), 1)


def _run_by_another(plan: Plan) -> None:
    plan["shared"][0]["cook"] = "nobody"


def _untold_run(plan: Plan) -> None:
    plan["shared"] = plan["shared"][1:]


def _other_bowl(plan: Plan) -> None:
    plan["shared"][0]["bowls"][0]["amount"] = "a handful"


def _late_date(plan: Plan) -> None:
    plan["containers"][0]["best_by"] = plan["containers"][0]["use_by"] = "2028-01-01"


def _unpublished_row(plan: Plan) -> None:
    plan["containers"][0]["storage_rows"] = ["soup-of-the-day"]


def _keeps_for_ever(plan: Plan) -> None:
    plan["containers"][0]["keeps_thawed_days"] = 9


def _reheated_raw(plan: Plan) -> None:
    raw = next(each for each in plan["containers"] if each["state"] == "raw-kit")
    raw["cook_to_degF"] = None


def _lost_container(plan: Plan) -> None:
    plan["containers"] = plan["containers"][1:]


def _one_code(plan: Plan) -> None:
    plan["containers"][1]["code"] = plan["containers"][0]["code"]


def _shorter_than_it_is(plan: Plan) -> None:
    plan["summary"]["makespan_minutes"] -= 1


def _fewer_hands(plan: Plan) -> None:
    plan["summary"]["hands_on_minutes"] -= 1


def _proved_without_proof(plan: Plan) -> None:
    plan["summary"] |= {"best_bound_minutes": 1, "proved_shortest": True}


def _saved_more(plan: Plan) -> None:
    plan["summary"]["sharing_saved_minutes"] += 1


SPOILT: list[tuple[str, Callable[[Plan], None]]] = [
    ("names", _unknown_task),
    ("times", _no_time),
    ("capacities", _one_burner),
    ("capacities", _away),
    ("capacities", _kept_pot),
    ("cooks", _two_things_at_once),
    ("cooks", _other_hands),
    ("lags", _short_simmer),
    ("lags", _late),
    ("settings", _two_temperatures),
    ("settings", _cold_oven),
    ("clock", _long_out),
    ("clock", _never_away),
    ("events", _event_at_no_time),
    ("freezing", _frozen_hot),
    ("freezing", _other_freezing_day),
    ("straight-on", _left_half_raw),
    ("straight-on", _straight_but_late),
    ("raw boards", _unwashed_board),
    ("raw boards", _wrong_board),
    ("raw hands", _unwashed_hands),
    ("on the heat", _no_pot_kept),
    ("on the heat", _burner_given_up),
    ("frame", _early_start),
    ("frame", _late_finish),
    ("frame", _no_cleanup),
    ("runs", _gap_in_a_run),
    ("runs", _run_by_another),
    ("runs", _untold_run),
    ("runs", _other_bowl),
    ("dates", _late_date),
    ("dates", _unpublished_row),
    ("dates", _keeps_for_ever),
    ("dates", _reheated_raw),
    ("containers", _lost_container),
    ("containers", _one_code),
    ("summary", _begun_an_hour_early),
    ("summary", _shorter_than_it_is),
    ("summary", _fewer_hands),
    ("summary", _proved_without_proof),
    ("summary", _saved_more),
]


@pytest.mark.parametrize(("rule", "spoil"), SPOILT)
def test_a_spoilt_plan_is_caught_by_its_rule(rule: str, spoil: Callable[[Plan], None]) -> None:
    plan = _sound()
    spoil(plan)
    assert rule in {breach.split(":")[0] for breach in breaches(plan)}


def test_every_rule_has_a_plan_that_breaks_it() -> None:
    assert {rule for rule, _ in SPOILT} == {*RULES, "names", "clock"}


def test_in_a_hot_room_an_hour_is_all_that_food_has() -> None:
    longest = breaches(written(SECONDS, **MIX), 20)
    assert any(each.startswith("clock") for each in longest)


def test_the_plan_that_is_spoilt_was_sound_and_has_something_of_everything() -> None:
    plan = planned(**MIX)
    assert plan.shared
    assert plan.settings
    assert plan.occupancies
    assert {each.state for each in plan.containers} == {"cooked", "raw-kit"}
