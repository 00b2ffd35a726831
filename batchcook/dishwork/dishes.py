"""A recipe times its batches becomes jobs, their order, and the way of each food."""

from __future__ import annotations

import networkx as nx

from batchcook.complaints import InputFault
from batchcook.cookbooks.recipe import Recipe, Step
from batchcook.dishwork.coldwaits import cold_waits
from batchcook.dishwork.cooking import draw_step
from batchcook.dishwork.draft import Dish, Draft
from batchcook.dishwork.finishing import draw_keeps, draw_packing
from batchcook.dishwork.pans import check_cold_pans, draw_reuse
from batchcook.dishwork.potfuls import potfuls_of
from batchcook.dishwork.preparing import draw_cuts, draw_measuring
from batchcook.dishwork.streams import StepJobs, streams_of
from batchcook.dishwork.sweats import sweats_of
from batchcook.dishwork.work import Work
from batchcook.kitchens.kitchen import Kitchen

__all__ = ["dish_work"]


def dish_work(dish: Dish, kitchen: Kitchen) -> Work:
    """All the work of one dish in a kitchen, nothing shared yet.

    Raises:
        InputFault: The kitchen lacks something that the dish needs.
    """
    draft = Draft(dish, kitchen, _step_order(dish.recipe))
    draw_cuts(draft)
    draw_measuring(draft)
    for step in draft.order:
        draw_step(draft, step)
    check_cold_pans(draft)
    if draft.complaints:
        raise InputFault(draft.complaints)
    draw_reuse(draft)
    chilling = draw_packing(draft)
    draw_keeps(draft)
    return Work(
        tuple(draft.jobs),
        tuple(draft.links),
        tuple(draft.keeps),
        streams_of(
            dish.recipe,
            draft.order,
            draft.heat,
            {name: job.id for name, job in draft.prepared.items()},
            StepJobs(draft.entry, draft.ready, draft.lots, cold_waits(draft.recipe)),
            _packed(draft),
        ),
        draft.families,
        potfuls=potfuls_of(draft),
        sweats=sweats_of(draft),
        baths={dish.id: chilling.baths} if chilling is not None else {},
    )


def _step_order(recipe: Recipe) -> list[Step]:
    """The steps, each after those it takes from, otherwise as written."""
    graph: nx.DiGraph[str] = nx.DiGraph()
    graph.add_nodes_from(step.name for step in recipe.steps)
    graph.add_edges_from((before, step.name) for step in recipe.steps for before in step.after)
    written = {step.name: number for number, step in enumerate(recipe.steps)}
    ordered = nx.lexicographical_topological_sort(graph, key=written.__getitem__)
    return [recipe.step(name) for name in ordered]


def _packed(draft: Draft) -> tuple[str, str]:
    """The job at whose end the dish is away in the cold, and where."""
    raw = draft.recipe.state == "raw-kit"
    return draft.id("portion"), "frozen" if raw else "refrigerated"
