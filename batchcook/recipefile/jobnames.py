"""Steps, cut ingredients and vessels must give jobs of different names."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator

from batchcook.complaints import Complaint
from batchcook.cookbooks.jobnames import OWN_JOBS, OWN_VESSELS, slug
from batchcook.recipefile.names import ingredient_names
from batchcook.recipefile.sheet import Draft
from batchcook.tomlplaces import Location

__all__ = ["clashing_names"]


def clashing_names(draft: Draft) -> Iterator[Complaint]:
    """A complaint for each name that means the same job as another, or one of the program's own."""
    steps: list[tuple[Location, str]] = [
        (("steps", at, "name"), entry["name"])
        for at, entry in draft.steps
        if isinstance(entry.get("name"), str)
    ]
    cut: list[tuple[Location, str]] = [
        (("ingredients", at), name)
        for at, name in ingredient_names(draft)
        if dict(draft.ingredients)[at].get("cut")
    ]
    vessels: list[tuple[Location, str]] = [(("vessels", name), name) for name in draft.vessels]
    yield from _clashes(draft, "step", steps, OWN_JOBS)
    yield from _parts_of_steps(draft, steps)
    yield from _clashes(draft, "cut ingredient", cut)
    yield from _clashes(draft, "vessel", vessels, OWN_VESSELS)


def _clashes(
    draft: Draft, kind: str, named: Iterable[tuple[Location, str]], own: Collection[str] = ()
) -> Iterator[Complaint]:
    """Names like one of our own, and names that differ from another in blanks and hyphens only."""
    seen: dict[str, str] = {}
    for place, name in named:
        first = slug(name).partition("/")[0]
        before = seen.setdefault(slug(name), name)
        if first in own:
            yield Complaint(
                draft.places.at(*place),
                f"no {kind} can be called {name!r}: every dish has one of that name by itself",
                "another name, or one more word in it",
            )
        elif before != name:
            yield Complaint(
                draft.places.at(*place),
                f"{name!r} and {before!r} are the same name but for blanks and hyphens",
                f"names of the {kind}s that differ in a word",
            )


def _parts_of_steps(draft: Draft, steps: Collection[tuple[Location, str]]) -> Iterator[Complaint]:
    """Names with a stroke whose first part is another step: that is how parts of it are called."""
    slugs = {slug(name): name for _, name in steps}
    for place, name in steps:
        first, stroke, _ = slug(name).partition("/")
        if stroke and first in slugs:
            yield Complaint(
                draft.places.at(*place),
                f"{name!r} reads as a part of the step {slugs[first]!r}",
                "a name without the stroke",
            )
