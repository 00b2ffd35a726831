"""Every name in a recipe file must be known: in our tables, or elsewhere in the file."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from batchcook.complaints import Complaint, InputFault, nearest
from batchcook.foods import food, load_foods
from batchcook.foodsafety.storage import storage_rows
from batchcook.kitchens.containers import load_containers
from batchcook.kitchens.techniques import CUTS, load_techniques
from batchcook.recipefile.sheet import Draft
from batchcook.tomlplaces import Location

__all__ = ["ingredient_names", "meant", "unknown_names"]


def unknown_names(draft: Draft) -> Iterator[Complaint]:
    """A complaint for each name that is nowhere to be found."""
    techniques = load_techniques()
    inside = [name for _, name in ingredient_names(draft)]
    written = [entry.get("food") for _, entry in draft.ingredients]
    inside += [name for name in written if isinstance(name, str) and name not in load_foods()]
    vessels = draft.vessels
    steps = [entry.get("name") for _, entry in draft.steps]
    step_names = [name for name in steps if isinstance(name, str)]

    yield from _unknown(draft, ("container",), "container", load_containers())
    yield from _unknown(draft, ("stored_as",), "cold-storage row", storage_rows())
    for at, _ in draft.ingredients:
        yield from _unknown_food(draft, ("ingredients", at, "food"))
        yield from _unknown(draft, ("ingredients", at, "cut"), "cut", CUTS)
    for at, _ in draft.additions:
        yield from _unknown_food(draft, ("night", "add", at, "food"))
        yield from _unknown(draft, ("night", "add", at, "cut"), "cut", CUTS)
    for at, _ in draft.steps:
        yield from _unknown(draft, ("steps", at, "technique"), "technique", techniques)
        yield from _unknown(draft, ("steps", at, "in"), "vessel", vessels, "of [vessels]")
        yield from _unknown(draft, ("steps", at, "takes"), "ingredient", inside, "of this recipe")
        yield from _unknown(draft, ("steps", at, "after"), "step", step_names, "of this recipe")


def ingredient_names(draft: Draft) -> list[tuple[int, str]]:
    """What steps call each ingredient, its own name or its food, with its position.

    A misspelt food goes by what was meant, so that steps that spell it right are not blamed.
    """
    foods = load_foods()
    named = []
    for at, entry in draft.ingredients:
        own, key = entry.get("name"), entry.get("food")
        if isinstance(own, str):
            named.append((at, own))
        elif isinstance(key, str):
            named.append((at, meant(key, foods)))
    return named


def meant(name: str, valid: Iterable[str]) -> str:
    """A valid name as it is, else the nearest: one slip of the pen is then told only once."""
    names = list(valid)
    return name if name in names else nearest(name, names) or name


def _unknown_food(draft: Draft, location: Location) -> tuple[Complaint, ...]:
    """A complaint about a food that the table does not have; other names for it count as near."""
    name = draft.value(location)
    if isinstance(name, str):
        try:
            food(name, draft.places.at(*location))
        except InputFault as fault:
            return fault.complaints
    return ()


def _unknown(
    draft: Draft, location: Location, kind: str, valid: Iterable[str], of: str = ""
) -> Iterator[Complaint]:
    """Complaints about a name, or about each of a list of names."""
    found = draft.value(location)
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
                nearest(name, names) or _holding(name, names),
            )


def _holding(name: str, names: list[str]) -> str:
    """The first valid name that has this one in it."""
    return next((each for each in names if name.lower() in each.lower()), "")


_FEW = 24


def _expected(kind: str, names: list[str], of: str) -> str:
    """The valid names where they are few, else what kind of name it should be."""
    if not names:
        return f"a {kind} {of}, which has none".replace(" ,", ",")
    if len(names) <= _FEW:
        return "one of " + ", ".join(names)
    return f"a {kind} of our table"
