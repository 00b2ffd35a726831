"""The shopping list: what to buy for the prep day, and what to buy on the night."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from dataclasses import dataclass

from batchcook.documents.dishkeys import DishKey, dish_keys
from batchcook.documents.environment import render
from batchcook.documents.pdf import check_paper, to_pdf
from batchcook.plan import Container, NightAddition, Plan, ShoppingLine

__all__ = ["Night", "Section", "shopping_csv", "shopping_html", "shopping_pdf"]


@dataclass(frozen=True)
class Section:
    """A part of the store with what to take from it."""

    name: str
    lines: tuple[ShoppingLine, ...]


@dataclass(frozen=True)
class Night:
    """What one container of a dish wants on the evening it is eaten."""

    key: DishKey
    containers: int
    holds: str
    portions: int
    add: tuple[NightAddition, ...]


def shopping_html(plan: Plan) -> str:
    """The shopping list as one page of HTML that needs nothing else."""
    keys = dish_keys(plan.dishes)
    return render(
        "shopping-list.html",
        plan=plan,
        keys=keys,
        sections=_sections([line for line in plan.shopping if not line.later]),
        later=[line for line in plan.shopping if line.later],
        nights=_nights(plan),
    )


def shopping_pdf(plan: Plan, paper: str = "letter", *, html: str | None = None) -> bytes:
    """The shopping list as PDF.

    Raises:
        InputFault: There is no such paper.
        PdfUnavailable: Pango is missing.
    """
    size = check_paper(paper)
    return to_pdf(html or shopping_html(plan), size, created=plan.date)


def shopping_csv(plan: Plan) -> str:
    """The shopping list as comma-separated values, one food a line."""
    written = io.StringIO()
    writer = csv.writer(written, lineterminator="\n")
    writer.writerow(("for", "section", "food", "amount", "grams", "dishes", "when"))
    titles = {dish.id: dish.title for dish in plan.dishes}
    for line in plan.shopping:
        writer.writerow(
            (
                "on the night" if line.later else "prep day",
                line.section,
                line.food,
                line.amount,
                line.grams,
                "; ".join(titles.get(dish, dish) for dish in line.dishes),
                line.when,
            )
        )
    return written.getvalue()


def _sections(lines: Sequence[ShoppingLine]) -> tuple[Section, ...]:
    """The lines by section, in the order in which the plan has them."""
    names = dict.fromkeys(line.section for line in lines)
    return tuple(
        Section(name, tuple(line for line in lines if line.section == name)) for name in names
    )


def _nights(plan: Plan) -> tuple[Night, ...]:
    """Each dish that wants something added, for containers of each size."""
    found: dict[tuple[str, int], list[Container]] = {}
    for container in plan.containers:
        if container.add:
            found.setdefault((container.dish, container.portions), []).append(container)
    keys = dish_keys(plan.dishes)
    return tuple(
        Night(keys[dish], len(alike), alike[0].holds, portions, alike[0].add)
        for (dish, portions), alike in found.items()
        if dish in keys
    )
