from __future__ import annotations

import networkx as nx
import pytest

from batchcook.scheduling.flownetwork import Away, FlowNetwork, Hold, Limit
from batchcook.scheduling.handovers import Draft, connect
from batchcook.scheduling.problem import Lag, Mode, Problem, Resource, Task
from batchcook.scheduling.retiming import floats, retime
from batchcook.scheduling.schedule import Done, Schedule
from batchcook.scheduling.scheduleflow import network_of
from batchcook.scheduling.watching import watch


def _own(resource: str, *steps: str) -> list[Hold]:
    return [Hold(resource, 1, (step,), step) for step in steps]


def _one_cook(*steps: str) -> FlowNetwork:
    """Steps of ten minutes, one after the other by one cook."""
    times = {name: (10 * place, 10 * place + 10) for place, name in enumerate(steps)}
    return connect(Draft(times, holds=_own("cook", *steps), capacities={"cook": 1}))


def test_a_late_step_moves_those_that_wait_for_its_cook() -> None:
    times = retime(_one_cook("a", "b", "c"), {"a": 25})
    assert times == {"a": (0, 25), "b": (25, 35), "c": (35, 45)}


def test_a_step_done_early_lets_the_next_begin_early() -> None:
    times = retime(_one_cook("a", "b"), {}, fixed={"a": (0, 6)}, now=6)
    assert times["b"] == (6, 16)


def test_a_step_that_still_runs_ends_now_at_the_earliest() -> None:
    times = retime(_one_cook("a", "b"), {}, fixed={"a": (0, None)}, now=17)
    assert times == {"a": (0, 17), "b": (17, 27)}


def test_a_step_begun_out_of_turn_passes_the_claim_of_the_one_before_it_on() -> None:
    times = retime(_one_cook("a", "b", "c"), {}, fixed={"b": (0, 10)}, now=10)
    assert times["a"] == (10, 20)
    assert times["c"] == (20, 30)


def test_a_claim_is_passed_on_through_a_pot_that_is_kept() -> None:
    draft = Draft(
        times={"soup": (0, 10), "fill": (10, 15), "wash": (30, 35), "stew": (35, 50)},
        lags=[Lag("fill", "end", "wash", "start", 15)],
        holds=[Hold("pot", 1, ("fill",), "wash"), *_own("pot", "soup", "stew")],
        capacities={"pot": 1},
    )
    times = retime(connect(draft), {"soup": 60}, fixed={"fill": (0, 5)}, now=5)
    assert times["soup"] == (5, 65)
    assert times["stew"][0] == 65


def test_food_is_not_taken_out_early_for_a_pan_that_is_late() -> None:
    draft = Draft(
        times={"pan": (0, 20), "take out": (10, 15), "brown": (20, 30)},
        lags=[
            Lag("pan", "end", "brown", "start"),
            Lag("take out", "end", "brown", "start", 0, 10),
        ],
    )
    network = connect(draft)
    assert retime(network, {})["take out"] == (5, 10)
    assert retime(network, {"pan": 50})["take out"] == (35, 40)
    begun = retime(network, {"pan": 50}, fixed={"take out": (5, 10)}, now=10)
    assert begun["brown"] == (60, 70)


def test_a_limit_that_waiting_cannot_keep_delays_nothing() -> None:
    draft = Draft(
        times={"sear": (0, 5), "stir": (5, 10), "pot": (10, 20)},
        lags=[
            Lag("sear", "end", "stir", "start"),
            Lag("stir", "end", "pot", "start"),
            Lag("sear", "end", "pot", "start", None, 8),
        ],
    )
    times = retime(connect(draft), {"stir": 30})
    assert times == {"sear": (0, 5), "stir": (5, 35), "pot": (35, 45)}


def test_a_step_that_would_run_into_its_cooks_absence_waits_for_its_end() -> None:
    draft = Draft(
        times={"a": (0, 10), "b": (10, 20), "c": (40, 50)},
        holds=_own("cook", "a", "b", "c"),
        capacities={"cook": 1},
        away=[Away("cook", 22, 40, 1)],
    )
    network = connect(draft)
    assert retime(network, {})["c"] == (40, 50)
    assert retime(network, {"a": 15}) == {"a": (0, 15), "b": (40, 50), "c": (50, 60)}


def test_an_oven_that_changes_at_once_still_bakes_one_setting_at_a_time() -> None:
    oven = Resource("oven", 2, warm_up=0)
    modes = (Mode("oven", 20, {"oven": 1}),)
    tasks = {
        name: Task(name, modes, settings=(at,)) for name, at in {"pie": 375, "roast": 425}.items()
    }
    schedule = Schedule(
        {
            "pie": Done(0, 0, 20, 20, "oven", setting=375),
            "roast": Done(20, 20, 40, 40, "oven", setting=425),
        }
    )
    network = network_of(Problem({"oven": oven}, tasks, 100), schedule)
    assert retime(network, {"pie": 33})["roast"] == (33, 53)


def test_the_oven_is_turned_on_just_in_time() -> None:
    draft = Draft(
        times={"heat": (20, 30), "mix": (0, 30), "bake": (30, 60)},
        lags=[Lag("mix", "end", "bake", "start")],
        holds=[Hold("oven", 2, ("heat",), "heat"), *_own("oven", "bake")],
        capacities={"oven": 2},
        kept=[Limit("heat", "end", "bake", "start", 0, told=False)],
    )
    assert retime(connect(draft), {"mix": 45})["heat"] == (35, 45)


def test_a_minimal_lag_against_the_order_becomes_a_limit() -> None:
    draft = Draft(
        times={"first": (0, 30), "second": (10, 20)},
        lags=[Lag("second", "end", "first", "end", 5), Lag("first", "start", "second", "start")],
    )
    network = connect(draft)
    assert [(each.before, each.after) for each in network.arcs] == [("first", "second")]
    (limit,) = network.limits
    assert (limit.before, limit.origin, limit.after, limit.to) == ("first", "end", "second", "end")
    assert limit.most == -5


def test_what_begins_together_waits_together() -> None:
    draft = Draft(
        times={"season": (0, 10), "bath": (10, 40), "water": (10, 15)},
        lags=[Lag("bath", "start", "water", "start", 0, 0)],
        holds=_own("cook", "season", "water"),
        capacities={"cook": 1},
    )
    times = retime(connect(draft), {"season": 25})
    assert times["bath"][0] == times["water"][0] == 25


def test_more_in_use_than_there_is_is_refused() -> None:
    draft = Draft(
        {"a": (0, 10), "b": (5, 15)}, holds=_own("cook", "a", "b"), capacities={"cook": 1}
    )
    with pytest.raises(ValueError, match="minute 5: 1 of cook too much is in use"):
        connect(draft)


def test_a_hand_over_follows_an_order_that_is_there_already() -> None:
    draft = Draft(
        times={"a": (0, 10), "b": (0, 20), "c": (20, 30)},
        lags=[Lag("b", "end", "c", "start")],
        holds=_own("burner", "a", "b", "c"),
        capacities={"burner": 2},
    )
    network = connect(draft)
    handed = [(arc.before, arc.after) for arc in network.arcs if arc.resources]
    assert handed == [("b", "c")]


def _braid() -> FlowNetwork:
    draft = Draft(
        times={"a": (0, 7), "b": (0, 4), "c": (7, 12), "d": (4, 13), "e": (14, 20)},
        lags=[
            Lag("a", "end", "c", "start"),
            Lag("b", "end", "d", "start"),
            Lag("a", "start", "d", "end", 3),
            Lag("c", "end", "e", "start", 2),
            Lag("d", "start", "e", "start", 9),
        ],
        holds=_own("cook", "b", "d", "e"),
        capacities={"cook": 1},
    )
    return connect(draft)


@pytest.mark.parametrize("durations", [{}, {"a": 20}, {"d": 1, "c": 30}, {"b": 11, "e": 1}])
def test_earliest_times_are_the_longest_paths_that_networkx_finds(
    durations: dict[str, int],
) -> None:
    network = _braid()
    graph = network.graph(durations)
    times = retime(network, durations)
    for node in graph:
        before = graph.subgraph(nx.ancestors(graph, node) | {node})
        name, anchor = node
        minute = times[name][anchor == "end"]
        assert nx.dag_longest_path_length(before, weight="least") == minute


def test_the_steps_without_float_are_the_longest_path_that_networkx_finds() -> None:
    network = _braid()
    lengths = {name: float(step.minutes) for name, step in network.steps.items()}
    found = floats(network, lengths)
    path = nx.dag_longest_path(network.graph(), weight="least")
    assert {name for name, slack in found.items() if slack == 0} == {name for name, _ in path}


@pytest.mark.parametrize("name", ["a", "b", "c", "d", "e"])
def test_a_step_may_be_late_by_its_float_and_no_more(name: str) -> None:
    network = _braid()
    lengths = {each: float(step.minutes) for each, step in network.steps.items()}
    slack = round(floats(network, lengths)[name])
    finish = max(end for _, end in retime(network, {}).values())
    longer = network.steps[name].minutes + slack
    assert max(end for _, end in retime(network, {name: longer}).values()) == finish
    assert max(end for _, end in retime(network, {name: longer + 1}).values()) > finish


def test_a_step_before_an_absence_has_the_float_that_ends_there() -> None:
    draft = Draft(
        times={"a": (0, 10), "b": (30, 60), "other": (0, 60)},
        holds=_own("cook", "a", "b"),
        capacities={"cook": 1},
        away=[Away("cook", 18, 30, 1)],
    )
    network = connect(draft)
    lengths = {name: float(step.minutes) for name, step in network.steps.items()}
    assert floats(network, lengths)["a"] == 8


@pytest.mark.parametrize("weighty", ["c", "a"])
def test_of_limits_that_clash_the_one_with_a_reason_is_kept(weighty: str) -> None:
    ends = {"c": "b", "a": "d"}
    draft = Draft(
        times={"a": (0, 1), "c": (0, 1), "b": (1, 2), "d": (1, 2)},
        lags=[
            Lag("a", "end", "b", "start"),
            Lag("c", "end", "d", "start"),
            *(
                Lag(first, "start", last, "start", None, 2, reason="safety" * (first == weighty))
                for first, last in ends.items()
            ),
        ],
    )
    network = connect(draft)
    assert watch(network, retime(network, {})) == []
    (alarm,) = watch(network, retime(network, {"a": 5, "c": 5}))
    assert alarm.reason == ""
    assert weighty not in alarm.ids
