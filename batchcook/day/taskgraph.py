"""The task graph of a day: what must come before what, checked so that a recipe writer follows."""

from __future__ import annotations

import networkx as nx

from batchcook.complaints import Complaint, InputFault
from batchcook.dishwork.work import Work

__all__ = ["check_graph", "task_graph"]


def task_graph(work: Work) -> nx.DiGraph[str]:
    """The jobs as nodes (attribute ``job``), an edge wherever one waits for another."""
    graph: nx.DiGraph[str] = nx.DiGraph()
    for job in work.jobs:
        graph.add_node(job.id, job=job)
    for link in work.links:
        if link.low is not None:
            graph.add_edge(link.before, link.after, link=link)
    return graph


def check_graph(graph: nx.DiGraph[str], where: str) -> None:
    """Every job can be done, and leads to something that is eaten or cleaned.

    Raises:
        InputFault: Jobs wait for each other in a circle; a job waits for one that is not there;
            or a job's outcome goes nowhere.
    """
    complaints = [
        Complaint(where, f"{node!r} is waited for, but nothing does it")
        for node, data in graph.nodes(data=True)
        if "job" not in data
    ]
    for circle in _circles(graph):
        names = " -> ".join([*circle, circle[0]])
        complaints.append(
            Complaint(where, f"these wait for each other in a circle: {names}", "an order")
        )
    ends = {"portion", "wash", "cleanup"}
    for node, data in graph.nodes(data=True):
        if not graph.out_degree(node) and "job" in data and data["job"].technique not in ends:
            complaints.append(
                Complaint(where, f"nothing takes what {node!r} makes", "a later step")
            )
    if complaints:
        raise InputFault(complaints)


def _circles(graph: nx.DiGraph[str]) -> list[list[str]]:
    """One circle of each knot of jobs that wait for each other, in the order of waiting."""
    knots = [graph.subgraph(nodes) for nodes in nx.strongly_connected_components(graph)]
    return [
        [edge[0] for edge in nx.find_cycle(knot)] for knot in knots if knot.number_of_edges() > 0
    ]
