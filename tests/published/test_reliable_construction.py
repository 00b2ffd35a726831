"""Frederick S. Hillier and Gerald J. Lieberman, Introduction to Operations Research.

The Reliable Construction Co. of the chapter on project management with PERT/CPM: its activities,
immediate predecessors, mean durations in weeks, three time estimates, and what the text works out
by hand from them. Figures from memory.
"""

from __future__ import annotations

import math
from itertools import pairwise

import networkx as nx
import numpy as np
import pytest

from batchcook.scheduling.flownetwork import FlowNetwork
from batchcook.scheduling.problem import Lag, Mode, Problem, Task
from batchcook.scheduling.retiming import floats, retime
from batchcook.scheduling.risk import Triangular, simulate
from batchcook.scheduling.schedule import Done, Schedule
from batchcook.scheduling.scheduleflow import network_of

_WEEKS = {
    "A": 2,  # excavate
    "B": 4,  # lay the foundation
    "C": 10,  # put up the rough wall
    "D": 6,  # put up the roof
    "E": 4,  # install the exterior plumbing
    "F": 5,  # install the interior plumbing
    "G": 7,  # put up the exterior siding
    "H": 9,  # do the exterior painting
    "I": 7,  # do the electrical work
    "J": 8,  # put up the wallboard
    "K": 4,  # install the flooring
    "L": 5,  # do the interior painting
    "M": 2,  # install the exterior fixtures
    "N": 6,  # install the interior fixtures
}
_AFTER = {
    "B": "A",
    "C": "B",
    "D": "C",
    "E": "C",
    "F": "E",
    "G": "D",
    "H": "EG",
    "I": "C",
    "J": "FI",
    "K": "J",
    "L": "J",
    "M": "H",
    "N": "KL",
}
# Optimistic, most likely, pessimistic.
_ESTIMATES = {
    "A": (1, 2, 3),
    "B": (2, 3.5, 8),
    "C": (6, 9, 18),
    "D": (4, 5.5, 10),
    "E": (1, 4.5, 5),
    "F": (4, 4, 10),
    "G": (5, 6.5, 11),
    "H": (5, 8, 17),
    "I": (3, 7.5, 9),
    "J": (3, 9, 9),
    "K": (4, 4, 4),
    "L": (1, 5.5, 7),
    "M": (1, 2, 3),
    "N": (5, 5.5, 9),
}
_EARLIEST_STARTS = {
    "A": 0,
    "B": 2,
    "C": 6,
    "D": 16,
    "E": 16,
    "F": 20,
    "G": 22,
    "H": 29,
    "I": 16,
    "J": 25,
    "K": 33,
    "L": 33,
    "M": 38,
    "N": 38,
}
_SLACK = {"D": 4, "G": 4, "H": 4, "M": 4, "I": 2, "K": 1}
_CRITICAL = "ABCEFJLN"


def _network() -> FlowNetwork:
    tasks = {name: Task(name, (Mode("only", weeks),)) for name, weeks in _WEEKS.items()}
    lags = tuple(
        Lag(before, "end", after, "start")
        for after, befores in _AFTER.items()
        for before in befores
    )
    # One activity after the other: as late a schedule as any, in an order that the table allows.
    done, clock = {}, 0
    for name in "ABCDEFGHIJKLMN":
        end = clock + _WEEKS[name]
        done[name] = Done(clock, clock, end, end, "only")
        clock = end
    return network_of(Problem({}, tasks, clock, lags), Schedule(done))


def _mean(name: str) -> float:
    low, likely, high = _ESTIMATES[name]
    return (low + 4 * likely + high) / 6


def _variance(name: str) -> float:
    low, _, high = _ESTIMATES[name]
    return ((high - low) / 6) ** 2


def _spread(name: str) -> Triangular:
    """Symmetric, with the mean and variance that the text gives the activity."""
    half = math.sqrt(6 * _variance(name)) / _WEEKS[name]
    return Triangular(1 - half, 1, 1 + half)


def test_the_estimates_give_the_mean_durations() -> None:
    assert {name: _mean(name) for name in _ESTIMATES} == pytest.approx(_WEEKS)


def test_the_project_takes_44_weeks() -> None:
    times = retime(_network(), {})
    assert {name: start for name, (start, _) in times.items()} == _EARLIEST_STARTS
    assert max(end for _, end in times.values()) == 44


def test_the_slack_is_what_the_text_works_out() -> None:
    network = _network()
    lengths = {name: float(weeks) for name, weeks in _WEEKS.items()}
    found = {name: round(slack) for name, slack in floats(network, lengths).items()}
    assert {name: slack for name, slack in found.items() if slack > 0} == _SLACK
    assert "".join(name for name in _WEEKS if found[name] == 0) == _CRITICAL


def test_networkx_finds_the_same_critical_path() -> None:
    path = nx.dag_longest_path(_network().graph(), weight="least")
    assert "".join(dict.fromkeys(name for name, _ in path)) == _CRITICAL


def test_the_critical_path_has_variance_9_and_is_done_in_47_weeks_at_odds_of_84_in_100() -> None:
    assert sum(_variance(name) for name in _CRITICAL) == pytest.approx(9)
    spreads = {name: _spread(name) for name in _CRITICAL}
    path = _only(_CRITICAL)
    risk = simulate(path, spreads, days=40_000)
    assert float(np.mean(risk.finishes)) == pytest.approx(44, abs=0.06)
    assert float(np.var(risk.finishes)) == pytest.approx(9, rel=0.03)
    assert risk.share_done_by(47) == pytest.approx(0.84, abs=0.01)


def test_the_whole_network_is_later_than_its_critical_path_alone() -> None:
    risk = simulate(_network(), {name: _spread(name) for name in _WEEKS}, days=40_000)
    latest = np.max(_path_lengths(40_000), axis=0)
    assert float(np.mean(risk.finishes)) == pytest.approx(float(np.mean(latest)), abs=0.06)
    assert float(np.mean(latest)) > 44.2
    assert risk.share_done_by(47) == pytest.approx(float(np.mean(latest <= 47)), abs=0.01)
    assert risk.criticality["A"] == 1.0
    assert 0 < risk.criticality["M"] < risk.criticality["E"] < 1


def _path_lengths(days: int) -> np.ndarray:
    """Each path through the project added up, without a network: a row a path."""
    rng = np.random.default_rng(2026)
    weeks = {}
    for name, mean in _WEEKS.items():
        half = math.sqrt(6 * _variance(name))
        spread = rng.triangular(-half, 0, half, days) if half else np.zeros(days)
        weeks[name] = mean + spread
    graph = nx.DiGraph((before, after) for after, befores in _AFTER.items() for before in befores)
    paths = nx.all_simple_paths(graph, "A", ["M", "N"])
    return np.array([sum(weeks[name] for name in path) for path in paths])


def _only(names: str) -> FlowNetwork:
    """The activities of one path."""
    tasks = {name: Task(name, (Mode("only", _WEEKS[name]),)) for name in names}
    lags = tuple(Lag(one, "end", other, "start") for one, other in pairwise(names))
    done = {
        name: Done(at, at, at + _WEEKS[name], at + _WEEKS[name], "only")
        for name, at in _EARLIEST_STARTS.items()
        if name in names
    }
    return network_of(Problem({}, tasks, 44, lags), Schedule(done))
