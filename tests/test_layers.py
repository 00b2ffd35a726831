"""Imports run one way between the packages and modules at the top, as DEVELOPERS.md says."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import networkx as nx
import pytest

import batchcook

ROOT = Path(batchcook.__file__).parent


def _units() -> Iterator[tuple[str, Path]]:
    """Each file, with the package or module right below the top that it belongs to."""
    for file in ROOT.rglob("*.py"):
        first = file.relative_to(ROOT).parts[0]
        yield first.removesuffix(".py"), file


def _imported(file: Path) -> Iterator[str]:
    """The packages and modules right below the top that a file imports from."""
    for node in ast.walk(ast.parse(file.read_text("utf-8"))):
        if not isinstance(node, ast.ImportFrom) or node.module is None:
            continue
        top, _, below = node.module.partition(".")
        if top == "batchcook" and below:
            yield below.partition(".")[0]
        elif top == "batchcook":
            yield from (name.name for name in node.names)


@pytest.fixture(scope="module")
def imports() -> nx.DiGraph[str]:
    """Who imports from whom."""
    graph: nx.DiGraph[str] = nx.DiGraph()
    for unit, file in _units():
        graph.add_edges_from((unit, other) for other in _imported(file) if other != unit)
    return graph


def test_no_two_packages_import_from_each_other(imports: nx.DiGraph[str]) -> None:
    rings = [ring for ring in nx.strongly_connected_components(imports) if len(ring) > 1]
    assert rings == []


def test_scheduling_knows_nothing_of_food(imports: nx.DiGraph[str]) -> None:
    assert set(imports.successors("scheduling")) == {"withheld"}


def test_only_the_commands_know_the_command_line(imports: nx.DiGraph[str]) -> None:
    assert set(imports.predecessors("cli")) <= {"__main__"}


def test_what_is_published_about_safety_rests_on_no_recipe_kitchen_or_plan(
    imports: nx.DiGraph[str],
) -> None:
    below = nx.descendants(imports, "foodsafety")
    assert not below & {"cookbooks", "day", "dishwork", "kitchens", "plan", "plans", "recipefile"}
