from __future__ import annotations

from batchcook.scheduling.flownetwork import Away, Hold, Limit
from batchcook.scheduling.handovers import Draft, connect
from batchcook.scheduling.problem import Budget, Lag, Span
from batchcook.scheduling.watching import Alarm, watch


def test_a_maximal_lag_is_told_with_the_minute_at_which_it_runs_out() -> None:
    draft = Draft(
        {"out": (0, 5), "heat": (60, 70)},
        lags=[Lag("out", "start", "heat", "start", 0, 120, reason="2 h out of the refrigerator")],
    )
    network = connect(draft)
    assert watch(network, {"out": (0, 5), "heat": (120, 130)}) == []
    assert watch(network, {"out": (0, 5), "heat": (131, 141)}) == [
        Alarm("lag", ("out", "heat"), 120, 11, "2 h out of the refrigerator")
    ]


def test_a_latest_end_counts_from_the_origin() -> None:
    draft = Draft({"pack": (0, 5)}, latest=[Limit(None, "start", "pack", "end", 50, "bus")])
    assert watch(connect(draft), {"pack": (48, 53)}) == [Alarm("latest", ("pack",), 50, 3, "bus")]


def test_a_limit_that_is_only_held_where_possible_is_not_told() -> None:
    draft = Draft(
        {"heat": (0, 10), "bake": (10, 20)},
        kept=[Limit("heat", "end", "bake", "start", 0, told=False)],
    )
    assert watch(connect(draft), {"heat": (0, 10), "bake": (30, 40)}) == []


def test_a_budget_runs_out_when_its_spans_together_have_used_it() -> None:
    draft = Draft(
        {"a": (0, 10), "b": (20, 30), "c": (50, 60)},
        budgets=[
            Budget(
                "warm", (Span("a", "end", "b", "start"), Span("b", "end", "c", "start")), 40, "2 h"
            )
        ],
    )
    network = connect(draft)
    assert watch(network, {"a": (0, 10), "b": (20, 30), "c": (60, 70)}) == []
    # 20 minutes from 10 to 30, then 20 more from 40 on are the 40 there are: 60.
    times = {"a": (0, 10), "b": (30, 40), "c": (75, 85)}
    assert watch(network, times) == [Alarm("budget", ("a", "b", "c"), 60, 15, "2 h", "warm")]


def test_spans_of_a_budget_that_run_side_by_side_use_it_twice_as_fast() -> None:
    spans = (Span("a", "start", "c", "start"), Span("b", "start", "c", "start"))
    draft = Draft({"a": (0, 1), "b": (0, 1), "c": (10, 11)}, budgets=[Budget("warm", spans, 20)])
    times = {"a": (0, 1), "b": (0, 1), "c": (15, 16)}
    assert watch(connect(draft), times) == [
        Alarm("budget", ("a", "c", "b"), 10, 10, "warm", "warm")
    ]


def test_a_budget_that_runs_out_within_a_minute_is_used_up_at_its_end() -> None:
    spans = (Span("a", "start", "c", "start"), Span("b", "start", "c", "start"))
    draft = Draft({"a": (0, 1), "b": (0, 1), "c": (10, 11)}, budgets=[Budget("warm", spans, 21)])
    (alarm,) = watch(connect(draft), {"a": (0, 1), "b": (0, 1), "c": (15, 16)})
    assert (alarm.at, alarm.over) == (11, 9)


def test_a_pot_that_is_still_kept_when_burners_go_is_told() -> None:
    draft = Draft(
        times={"fill": (0, 5), "wash": (20, 25), "fry": (0, 25)},
        holds=[Hold("burner", 1, ("fill",), "wash"), Hold("burner", 1, ("fry",), "fry")],
        capacities={"burner": 2},
        away=[Away("burner", 30, 60, 1)],
    )
    network = connect(draft)
    one_over = {"fill": (0, 5), "wash": (32, 37), "fry": (0, 25)}
    assert watch(network, one_over) == []
    both_over = {"fill": (0, 5), "wash": (32, 37), "fry": (0, 34)}
    assert watch(network, both_over) == [Alarm("away", ("wash", "fry"), 30, 7, "burner")]


def test_alarms_come_in_the_order_in_which_limits_run_out() -> None:
    draft = Draft(
        {"a": (0, 1), "b": (5, 6), "c": (9, 10)},
        lags=[Lag("a", "end", "c", "start", 0, 30), Lag("a", "end", "b", "start", 0, 20)],
    )
    alarms = watch(connect(draft), {"a": (0, 1), "b": (40, 41), "c": (50, 51)})
    assert [alarm.at for alarm in alarms] == [21, 31]
