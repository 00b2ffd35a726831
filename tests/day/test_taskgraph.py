"""The task graph and what it refuses."""

from itertools import pairwise

import networkx as nx
import pytest
from planned_days import day_of, starter

from batchcook.complaints import InputFault
from batchcook.day.taskgraph import check_graph, task_graph
from batchcook.day.workday import day_work, ordered_dishes
from batchcook.dishwork.work import Job, Link, Work


def _job(name: str, technique: str = "mix") -> Job:
    return Job(name, name, technique, 5, frozenset(), "counter", name)


def _work(names: str, *links: tuple[str, str], last: str = "wash") -> Work:
    jobs = (*map(_job, names), _job("end", last))
    return Work(jobs, tuple(Link(before, after) for before, after in links))


def _told(work: Work) -> list[str]:
    with pytest.raises(InputFault) as caught:
        check_graph(task_graph(work), "Stew")
    return [str(each) for each in caught.value.complaints]


def test_jobs_are_nodes_and_waiting_is_an_edge() -> None:
    graph = task_graph(_work("ab", ("a", "b"), ("b", "end")))
    assert isinstance(graph, nx.DiGraph)
    assert set(graph) == {"a", "b", "end"}
    assert graph.nodes["a"]["job"].title == "a"
    assert list(graph.edges) == [("a", "b"), ("b", "end")]


def test_a_link_without_a_least_time_is_no_waiting() -> None:
    work = Work((_job("a"), _job("b")), (Link("a", "b", low=None, high=10),))
    assert not task_graph(work).edges


def test_a_sound_graph_passes() -> None:
    check_graph(task_graph(_work("ab", ("a", "b"), ("b", "end"))), "Stew")


def test_a_circle_is_told_in_the_order_of_waiting() -> None:
    told = _told(_work("abc", ("a", "c"), ("c", "b"), ("b", "a"), ("a", "end")))
    assert len(told) == 1
    assert told[0].startswith("Stew: these wait for each other in a circle")
    circle = told[0].split(": ")[2].split(";")[0].split(" -> ")
    assert circle[0] == circle[-1]
    assert set(pairwise(circle)) == {("a", "c"), ("c", "b"), ("b", "a")}


def test_a_job_that_waits_for_itself_is_told() -> None:
    assert "a -> a" in _told(_work("a", ("a", "a"), ("a", "end")))[0]


def test_a_job_waited_for_that_nothing_does_is_told() -> None:
    assert any("'ghost' is waited for" in each for each in _told(_work("a", ("ghost", "end"))))


def test_an_outcome_that_nothing_takes_is_told() -> None:
    told = _told(_work("ab", ("a", "end")))
    assert told == ["Stew: nothing takes what 'b' makes; expected a later step"]


def test_all_faults_are_told_at_once() -> None:
    work = _work("abcd", ("a", "b"), ("b", "a"), ("ghost", "c"), ("c", "end"))
    assert len(_told(work)) == 3


@pytest.mark.parametrize("name", sorted(starter()))
def test_every_starter_recipe_is_a_graph_from_setting_up_to_closing_down(name: str) -> None:
    day = day_of(**{name: 1})
    graph = task_graph(day_work(ordered_dishes(day, starter()), day))
    assert nx.is_directed_acyclic_graph(graph)
    assert [node for node in graph if not graph.in_degree(node)] == ["day/clear"]
    assert [node for node in graph if not graph.out_degree(node)] == ["day/cleanup"]
