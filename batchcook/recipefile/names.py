"""Every name in a recipe file must be known: in our tables, or elsewhere in the file."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from batchcook.complaints import Complaint, nearest
from batchcook.containers import load_containers
from batchcook.foods import load_foods
from batchcook.foodsafety.storage import storage_rows
from batchcook.recipefile.sheet import Draft
from batchcook.techniques import CUTS, load_techniques
from batchcook.tomlplaces import Location

__all__ = ["ingredient_names", "unknown_names"]


def unknown_names(draft: Draft) -> Iterator[Complaint]:
    """A complaint for each name that is nowhere to be found."""
    foods, cuts, techniques = load_foods(), CUTS, load_techniques()
    inside = [name for _, name in ingredient_names(draft)]
    vessels = draft.vessels
    steps = [entry.get("name") for _, entry in draft.steps]
    step_names = [name for name in steps if isinstance(name, str)]

    yield from _unknown(draft, ("container",), "container", load_containers())
    yield from _unknown(draft, ("stored_as",), "cold-storage row", storage_rows())
    for at, _ in draft.ingredients:
        yield from _unknown(draft, ("ingredients", at, "food"), "food", foods)
        yield from _unknown(draft, ("ingredients", at, "cut"), "cut", cuts)
    for at, _ in draft.additions:
        yield from _unknown(draft, ("night", "add", at, "food"), "food", foods)
    for at, _ in draft.steps:
        yield from _unknown(draft, ("steps", at, "technique"), "technique", techniques)
        yield from _unknown(draft, ("steps", at, "in"), "vessel", vessels, "of [vessels]")
        yield from _unknown(draft, ("steps", at, "takes"), "ingredient", inside, "of this recipe")
        yield from _unknown(draft, ("steps", at, "after"), "step", step_names, "of this recipe")


def ingredient_names(draft: Draft) -> list[tuple[int, str]]:
    """What steps may call each ingredient: its own name, or its food; with its position."""
    named = [(at, entry.get("name") or entry.get("food")) for at, entry in draft.ingredients]
    return [(at, name) for at, name in named if isinstance(name, str)]


def _unknown(
    draft: Draft, location: Location, kind: str, valid: Iterable[str], of: str = ""
) -> Iterator[Complaint]:
    """Complaints about a name, or about each of a list of names."""
    found: object = draft.tables
    for key in location:
        found = found[key] if isinstance(found, list) and isinstance(key, int) else (
            found.get(key) if isinstance(found, dict) else None
        )
    names = list(valid)
    given: list[tuple[Location, object]] = [(location, found)]
    if isinstance(found, list):
        given = [((*location, at), each) for at, each in enumerate(found)]
    for place, name in given:
        if isinstance(name, str) and name not in names:
            yield Complaint(
                draft.places.at(*place),
                f"unknown {kind} {name!r}",
                _expected(kind, names, of),
                nearest(name, names),
            )


_FEW = 24


def _expected(kind: str, names: list[str], of: str) -> str:
    """The valid names where they are few, else what kind of name it should be."""
    if not names:
        return f"a {kind} {of}, which has none".replace(" ,", ",")
    if len(names) <= _FEW:
        return "one of " + ", ".join(names)
    return f"a {kind} of our table"
