"""The figures and choices of a recipe file must make sense together."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, Final

from batchcook.complaints import Complaint, InputFault
from batchcook.foods import load_foods
from batchcook.kitchens.containers import Container, load_containers
from batchcook.kitchens.pans import read_size
from batchcook.kitchens.techniques import Technique, load_techniques
from batchcook.quantities import Quantity, ureg
from batchcook.recipefile.amounts import Amounts
from batchcook.recipefile.sheet import Draft
from batchcook.tomlplaces import Location

__all__ = ["senseless"]

_SMALLEST_PORTION: Final = ureg.Quantity(100, "millilitre")
_LARGEST_PORTION: Final = ureg.Quantity(1, "litre")
_ABOUT_WATER: Final = ureg.Quantity(1, "kilogram / litre")
_OVERFULL: Final = 1.05
_NEARLY_EMPTY: Final = 0.25
_NEEDS_HOLDS: Final = frozenset({"pot", "slow-cooker"})


def senseless(draft: Draft, amounts: Amounts) -> Iterator[Complaint]:
    """Every choice in a recipe file that does not suit another."""
    techniques = load_techniques()
    for at, entry in draft.steps:
        technique = techniques.get(str(entry.get("technique")))
        if technique is not None:
            yield from _heat_and_time(draft, at, entry, technique)
            yield from _vessel_for(draft, at, entry, technique)
    yield from _unweighable(draft, amounts)
    yield from _vessels_measured(draft)
    yield from _portions(draft, amounts)
    yield from _state(draft)
    yield from _night(draft)


def _heat_and_time(
    draft: Draft, at: int, entry: dict[str, Any], technique: Technique
) -> Iterator[Complaint]:
    """A step says its time, oven and heat where its technique asks for them, and only there."""
    slow = technique.name == "slow-cook"
    asked = {
        "minutes": (technique.timed, "whole minutes at heat, such as minutes = 75"),
        "oven": (technique.oven, 'an oven temperature, such as oven = "375 degF"'),
        "heat": (slow, 'heat = "low" or heat = "high"'),
    }
    for key, (needed, example) in asked.items():
        if needed and key not in entry:
            yield Complaint(
                draft.places.at("steps", at),
                f"{entry.get('name')!r} has no {key}, and {technique.name} needs it",
                example,
            )
        if not needed and entry.get(key) is not None:
            yield Complaint(
                draft.places.at("steps", at, key),
                f"{technique.name} takes no {key}",
                _own_time(technique) if key == "minutes" else f"no {key} here",
            )
    if entry.get("strict") is True and not technique.oven:
        yield Complaint(
            draft.places.at("steps", at, "strict"),
            f"{technique.name} has no oven to be strict about",
            "strict only where there is an oven",
        )


def _own_time(technique: Technique) -> str:
    return f"no minutes: how long it takes to {technique.title.lower()} follows from the amount"


def _vessel_for(
    draft: Draft, at: int, entry: dict[str, Any], technique: Technique
) -> Iterator[Complaint]:
    """A step is done in a vessel that suits its technique, or at the counter."""
    name = entry.get("in")
    suiting = ", ".join(sorted(technique.vessels))
    if "in" not in entry and technique.vessels:
        yield Complaint(
            draft.places.at("steps", at),
            f"{entry.get('name')!r} names no vessel, and {technique.name} needs one",
            f"in = a vessel of kind {suiting}",
        )
    vessel = draft.vessels.get(name) if isinstance(name, str) else None
    if vessel is None:
        return
    kind = vessel.get("kind")
    if not technique.vessels:
        yield Complaint(
            draft.places.at("steps", at, "in"),
            f"{technique.name} is done at the counter, not in {name!r}",
            "no vessel here",
        )
    elif isinstance(kind, str) and kind not in technique.vessels:
        yield Complaint(
            draft.places.at("steps", at, "in"),
            f"{technique.name} is not done in {name!r}, a {kind}",
            f"a vessel of kind {suiting}",
        )


def _unweighable(draft: Draft, amounts: Amounts) -> Iterator[Complaint]:
    """The foods table can weigh every measure: a clove of garlic, but not a cup of chicken."""
    foods = load_foods()
    tables: list[tuple[Location, dict[str, Any]]] = [
        (("ingredients", at), entry) for at, entry in draft.ingredients
    ]
    tables += [(("night", "add", at), entry) for at, entry in draft.additions]
    for location, entry in tables:
        amount = amounts.get(*location, "amount")
        if amount is None or entry.get("food") not in foods:
            continue
        try:
            foods[entry["food"]].to_grams(
                amount, entry.get("cut"), where=draft.places.at(*location, "amount")
            )
        except InputFault as fault:
            yield from fault.complaints


def _vessels_measured(draft: Draft) -> Iterator[Complaint]:
    """A pot says how full it gets, a baking dish how large it is; others say neither."""
    for name, entry in draft.vessels.items():
        kind = entry.get("kind")
        if not isinstance(kind, str):
            continue
        if kind in _NEEDS_HOLDS and "holds" not in entry:
            yield Complaint(
                draft.places.at("vessels", name),
                f"the {kind} {name!r} does not say how full it gets",
                'the most that one batch fills it with, such as holds = "3 1/4 quart"',
            )
        if kind not in _NEEDS_HOLDS and entry.get("holds") is not None:
            yield Complaint(
                draft.places.at("vessels", name, "holds"),
                f"a {kind} takes no holds",
                "holds only for a pot or a slow-cooker",
            )
        if kind == "baking-dish":
            yield from _dish_size(draft, name, entry)
        elif entry.get("size") is not None:
            yield Complaint(
                draft.places.at("vessels", name, "size"),
                f"a {kind} takes no size: the kitchen says what it has",
                "size only for a baking-dish",
            )


def _dish_size(draft: Draft, name: str, entry: dict[str, Any]) -> Iterator[Complaint]:
    example = 'length and width, such as size = "9x13 inch"'
    if "size" not in entry:
        yield Complaint(
            draft.places.at("vessels", name), f"the baking-dish {name!r} has no size", example
        )
    elif isinstance(entry["size"], str) and read_size(entry["size"]) is None:
        yield Complaint(
            draft.places.at("vessels", name, "size"), f"{entry['size']!r} is no size", example
        )


def _portions(draft: Draft, amounts: Amounts) -> Iterator[Complaint]:
    """A portion is believable, and so many of them fit the container."""
    servings = draft.tables.get("servings")
    per_container = draft.tables.get("portions_per_container")
    makes = amounts.get("makes")
    if makes is None or not isinstance(servings, int):
        return
    portion = _as_volume(makes) / servings
    if not _SMALLEST_PORTION <= portion <= _LARGEST_PORTION:
        yield Complaint(
            draft.places.at("servings"),
            f"{draft.tables['makes']} for {servings} is {_cups(portion)} a portion",
            "a portion between 100 ml and 1 l (about 1/2 cup to 4 cup)",
        )
    container = load_containers().get(str(draft.tables.get("container")))
    if container is None or not isinstance(per_container, int):
        return
    if per_container > servings:
        yield Complaint(
            draft.places.at("portions_per_container"),
            f"{per_container} portions a container, and one batch is only {servings}",
            f"at most {servings}",
        )
    yield from _filling(draft, portion * per_container, portion, container)


def _filling(
    draft: Draft, filling: Quantity, portion: Quantity, container: Container
) -> Iterator[Complaint]:
    """So many portions fill the container to its headspace, or near enough."""
    share = float((filling / container.capacity).to("dimensionless").magnitude)
    if _NEARLY_EMPTY <= share <= _OVERFULL:
        return
    fitting = int(float((container.capacity / portion).to("dimensionless").magnitude) * _OVERFULL)
    portions = f"{fitting} portion{'' if fitting == 1 else 's'}"
    yield Complaint(
        draft.places.at("portions_per_container"),
        f"{_cups(filling)} in a {container.title} that takes {_cups(container.capacity)}",
        f"{portions} of {_cups(portion)}" if fitting else "a larger container",
    )


def _state(draft: Draft) -> Iterator[Complaint]:
    """A raw kit is a raw kit throughout: its form, how it cools, and its steps."""
    state, form, cool = (draft.tables.get(key) for key in ("state", "form", "cool"))
    if state is None or form is None or cool is None:
        return
    if (form == "raw-kit") != (state == "raw-kit"):
        yield Complaint(
            draft.places.at("form"),
            f"form {form!r} with state {state!r}",
            "raw-kit for both, or for neither",
        )
    if (cool == "none") != (state == "raw-kit"):
        yield Complaint(
            draft.places.at("cool"),
            f"cool {cool!r} with state {state!r}",
            '"none" for a raw kit and only for it',
        )
    techniques = load_techniques()
    for at, entry in draft.steps:
        technique = techniques.get(str(entry.get("technique")))
        if state == "raw-kit" and technique and (technique.timed or technique.shared):
            yield Complaint(
                draft.places.at("steps", at, "technique"),
                f"{technique.name} in a raw kit",
                "no heat at all: partly cooked meat may not wait in the freezer",
            )


def _night(draft: Draft) -> Iterator[Complaint]:
    """The night's times go with how the dish is thawed and how it was packed."""
    night = draft.night
    thaw = night.get("thaw")
    if thaw == "from-frozen" and "minutes_from_frozen" not in night:
        yield Complaint(
            draft.places.at("night"),
            "it is finished from frozen, but not how long that takes",
            "minutes_from_frozen = whole minutes",
        )
    if thaw == "refrigerator" and night.get("minutes_from_frozen") is not None:
        yield Complaint(
            draft.places.at("night", "minutes_from_frozen"),
            "a time from frozen for a dish that is thawed first",
            'thaw = "either", or no such time',
        )
    unfinished = draft.tables.get("state") in ("part-baked", "raw-kit")
    if unfinished and not {"minutes", "minutes_from_frozen"} & night.keys() and night:
        yield Complaint(
            draft.places.at("night"),
            f"the dish is {draft.tables['state']}, but not how long it still cooks",
            "minutes = whole minutes",
        )


def _as_volume(amount: Quantity) -> Quantity:
    """A weight of prepared food takes about the room of as much water."""
    return amount / _ABOUT_WATER if amount.check("[mass]") else amount


def _cups(volume: Quantity) -> str:
    return f"{float(volume.to('cup').magnitude):.2g} cup"
