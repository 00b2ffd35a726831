"""What the household thinks of a dish."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Final, get_args

from batchcook.complaints import Complaint, InputFault, nearest
from batchcook.freezer.changes import Moment
from batchcook.freezer.entries import RATED, Draft
from batchcook.freezer.stock import Verdict, titles_of
from batchcook.freezer.store import Journal, write_entries

__all__ = ["VERDICTS", "rate"]

VERDICTS: Final[tuple[Verdict, ...]] = get_args(Verdict)


def rate(place: Path, dish: str, verdict: str, note: str, moment: Moment) -> str:
    """Enter a verdict on a dish that was in the freezer, or on a starter recipe.

    A household that eats no meat says so before it has made any: what is dropped is not suggested.

    Args:
        place: The file.
        dish: Its id, or its title.
        verdict: One of :data:`VERDICTS`.
        note: What should be different, or why.
        moment: When.

    Returns:
        The dish's title.

    Raises:
        InputFault: There never was such a dish, and it is no starter recipe; or no such verdict.
    """
    moment.check()

    def judge(journal: Journal) -> tuple[list[Draft], str]:
        packed = titles_of(journal)
        titles = packed if _dish(packed, dish) else {**_starters(), **packed}
        found = _dish(titles, dish)
        faults = []
        if found is None:
            names = [*titles, *(title.lower() for title in titles.values())]
            faults.append(
                Complaint(
                    dish,
                    "was never in the freezer, and is no starter recipe",
                    ", ".join(packed) or "a dish packed, or a starter recipe",
                    nearest(dish, names),
                )
            )
        if verdict not in VERDICTS:
            faults.append(
                Complaint(verdict, "is no verdict", ", ".join(VERDICTS), nearest(verdict, VERDICTS))
            )
        if found is None or faults:
            raise InputFault(faults)
        draft = Draft(RATED, found, moment.on, {"verdict": verdict, "note": note})
        return [draft], titles[found]

    return write_entries(place, judge, now=moment.now)


def _starters() -> dict[str, str]:
    """The starter recipes, id to title."""
    from batchcook.cookbook import load_cookbook  # noqa: PLC0415 - loads pint

    return {recipe.id: recipe.title for recipe in load_cookbook().values()}


def _dish(titles: Mapping[str, str], name: str) -> str | None:
    wanted = name.strip().lower()
    for dish, title in titles.items():
        if wanted in {dish.lower(), title.lower()}:
            return dish
    return None
