"""From a plan's containers to those that really went into the freezer."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

from batchcook.complaints import Complaint, InputFault, nearest
from batchcook.foodsafety.storage import refrigerator_life, rows_for
from batchcook.freezer.mains import main_word
from batchcook.plan import Container, Plan

__all__ = [
    "MOST_MADE",
    "DishMade",
    "details_of",
    "dishes_made",
    "main_ingredient",
    "really_packed",
]

MOST_MADE: Final = 99
"""Containers of one dish, unless more were planned: what is above is a slip of the finger."""


@dataclass(frozen=True)
class DishMade:
    """How many containers of a dish the plan has."""

    dish: str
    title: str
    holds: str
    planned: int


def dishes_made(plan: Plan) -> tuple[DishMade, ...]:
    """Each dish of the plan that was to be packed, in its order."""
    found: dict[str, list[Container]] = {}
    for each in plan.containers:
        found.setdefault(each.dish, []).append(each)
    return tuple(
        DishMade(dish, group[0].title, group[0].holds, len(group)) for dish, group in found.items()
    )


def really_packed(
    plan: Plan, made: Mapping[str, int], without: Collection[str] = ()
) -> tuple[Container, ...]:
    """The containers that were filled.

    Args:
        plan: The plan.
        made: Dish to how many of its containers were filled, where that is not all of them. Fewer
            leave the last labels over; more carry on the numbers.
        without: Codes of labels that were left over, where it was not the last ones.

    Raises:
        InputFault: With a complaint for each dish or code that the plan does not have.
    """
    dishes = [each.dish for each in dishes_made(plan)]
    codes = {each.code.upper(): each for each in plan.containers}
    faults = [
        Complaint(name, "is no dish of this plan", ", ".join(dishes), nearest(name, dishes))
        for name in made
        if name not in dishes
    ] + [
        Complaint(code, "is no container of this plan", ", ".join(codes), nearest(code, codes))
        for code in without
        if code.upper() not in codes
    ]
    if not faults:
        faults = _at_odds(plan, made, without)
    if faults:
        raise InputFault(faults)
    left_over = {code.upper() for code in without}
    return tuple(
        container
        for dish in dishes
        for container in _of_dish(
            [each for each in plan.containers if each.dish == dish], made.get(dish), left_over
        )
    )


def details_of(container: Container, plan: Plan) -> dict[str, Any]:
    """What the journal keeps of a container."""
    return {
        "code": container.code,
        "dish": container.dish,
        "title": container.title,
        "portions": container.portions,
        "packed_on": container.packed_on.isoformat(),
        "best_by": container.best_by.isoformat(),
        "use_by": container.use_by.isoformat(),
        "state": container.state,
        "thaw": container.thaw,
        "thaw_days": container.thaw_days,
        "keeps_thawed_days": container.keeps_thawed_days,
        "keeps_thawed_at_most": _at_most(container),
        "cook_to_fahrenheit": container.cook_to_degF,
        "rest_minutes": container.rest_minutes,
        "main": main_ingredient(plan, container.dish),
        "holds": container.holds,
        "system": container.system,
        "grams": container.grams,
        "finish": container.finish,
        "add": [
            f"{each.amount} ({each.note})" if each.note else each.amount for each in container.add
        ],
        "storage_rows": list(container.storage_rows),
    }


def _at_most(container: Container) -> int:
    """Days that it keeps once thawed, by the long end of its chart less those it waited before.

    Where its rows are not known, those that its label says.
    """
    try:
        short, long = refrigerator_life(rows_for(container.storage_rows, container.code))
    except InputFault:
        return container.keeps_thawed_days
    waited = (
        (container.frozen_on - container.packed_on).days
        if container.frozen_on
        else short - container.keeps_thawed_days
    )
    return max(container.keeps_thawed_days, long - waited)


def main_ingredient(plan: Plan, dish: str) -> str:
    """The word for a dish's main ingredient, empty where the plan does not say."""
    # A food's first event has it as it was bought; later it is part of a cooked dish.
    kinds: dict[str, str] = {}
    for event in plan.events:
        if event.dish == dish:
            kinds.setdefault(re.sub(r", load \d+$", "", event.food), event.kind)
    return main_word([line for line in plan.shopping if dish in line.dishes], kinds)


def _at_odds(plan: Plan, made: Mapping[str, int], without: Collection[str]) -> list[Complaint]:
    """Numbers that cannot be, or that contradict the labels left over."""
    faults = []
    for each in dishes_made(plan):
        count = made.get(each.dish, each.planned)
        left = sum(
            container.dish == each.dish
            and container.code.upper() in {code.upper() for code in without}
            for container in plan.containers
        )
        if count < 0:
            faults.append(Complaint(each.dish, f"{count} containers", "0 or more"))
        elif count > (most := max(MOST_MADE, each.planned)):
            faults.append(
                Complaint(each.dish, f"{count} containers, {each.planned} planned", f"0 to {most}")
            )
        elif left and each.dish in made and count != each.planned - left:
            what = f"{count} made, but {left} of {each.planned} labels left over"
            faults.append(Complaint(each.dish, what, f"{each.planned - left} made"))
    return faults


def _of_dish(
    planned: Sequence[Container], made: int | None, left_over: Collection[str]
) -> list[Container]:
    kept = [each for each in planned if each.code.upper() not in left_over]
    count = len(kept) if made is None else made
    letters = planned[-1].code.rstrip("0123456789")
    more = [
        planned[-1].model_copy(update={"code": f"{letters}{number}", "number": number})
        for number in range(len(planned) + 1, len(planned) + 1 + count - len(kept))
    ]
    return [*kept[:count], *more]
