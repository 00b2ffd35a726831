"""The shopping list: what to buy for the prep day, and what to buy on the night."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from dataclasses import dataclass

from batchcook.buying.purchases import ShoppingList, keeps_at_home, shopping_list
from batchcook.documents.dishkeys import DishKey, dish_keys
from batchcook.documents.environment import render
from batchcook.documents.pdf import check_paper, to_pdf
from batchcook.foods import load_foods
from batchcook.foodsafety.limits import limit
from batchcook.plan import Container, NightAddition, Plan, ShoppingLine
from batchcook.quantities import say
from batchcook.wording import day

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


def shopping_html(plan: Plan, bought: ShoppingList | None = None) -> str:
    """The shopping list as one page of HTML that needs nothing else.

    Args:
        plan: The day.
        bought: Its packs, less what is at home; as if nothing were, where that is left out.
    """
    packs = bought or shopping_list(plan)
    keys = dish_keys(plan.dishes)
    now = [line for line in packs.lines if not line.later]
    later = [line for line in packs.lines if line.later]
    days = sorted({line.buy_from for line in now if line.buy_from})
    return render(
        "shopping-list.html",
        plan=plan,
        keys=keys,
        packs=packs,
        sections=_sections([line for line in now if line.buy_from is None]),
        dated=[
            Section(f"not before {day(on)}", tuple(line for line in now if line.buy_from == on))
            for on in days
        ],
        fresh=[line for line in later if not keeps_at_home(line.food)],
        kept=[line for line in later if keeps_at_home(line.food)],
        nights=_nights(plan),
        thaw_pack=say(limit("thaw-refrigerator").lower, plan.system, weigh=True),
    )


def shopping_pdf(
    plan: Plan,
    paper: str = "letter",
    *,
    html: str | None = None,
    bought: ShoppingList | None = None,
) -> bytes:
    """The shopping list as PDF.

    Raises:
        InputFault: There is no such paper.
        PdfUnavailable: Pango is missing.
    """
    size = check_paper(paper)
    return to_pdf(html or shopping_html(plan, bought), size, created=plan.date)


def shopping_csv(plan: Plan, bought: ShoppingList | None = None) -> str:
    """The shopping list as comma-separated values: one food a line, then one kind of container.

    ``buy`` is empty for what is at home in full; ``amount`` and ``grams`` are what is needed.
    """
    packs = bought or shopping_list(plan)
    written = io.StringIO()
    writer = csv.DictWriter(written, _COLUMNS, restval="", lineterminator="\n")
    writer.writeheader()
    titles = {dish.id: dish.title for dish in plan.dishes}
    for each in packs.purchases:
        line = each.line
        writer.writerow(
            {
                "for": "on the night" if line.later else "prep day",
                "section": line.section,
                "food": line.food,
                "buy": _asked_for(line) if each.missing > 0 else "",
                "amount": line.amount,
                "grams": line.grams,
                "left over": line.leftover,
                "at home": line.on_hand,
                "not before": line.buy_from.isoformat() if line.buy_from else "",
                "when": line.when,
                "cost": "" if line.cost is None else f"{line.cost:.2f}",
                "dishes": "; ".join(titles.get(dish, dish) for dish in line.dishes),
            }
        )
    for kind in packs.containers:
        writer.writerow(
            {
                "for": "packing",
                "section": "containers",
                "food": kind.words,
                "buy": kind.buy or "",
                "amount": kind.count,
                "at home": kind.at_hand or "",
            }
        )
    return written.getvalue()


def _asked_for(line: ShoppingLine) -> str:
    """What to take, with the form to ask for: ``"5 lb, boneless"``."""
    food = load_foods().get(line.food)
    return ", ".join(
        each for each in (line.purchase or line.amount, food.ask_for if food else "") if each
    )


_COLUMNS = (
    "for",
    "section",
    "food",
    "buy",
    "amount",
    "grams",
    "left over",
    "at home",
    "not before",
    "when",
    "cost",
    "dishes",
)


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
