"""Which sheet pans and baking dishes a dish takes, and how often they are filled."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from batchcook.cookbooks.recipe import Recipe, Step, Vessel
from batchcook.dishwork.chilling import chilling_of, consistency_of
from batchcook.dishwork.draft import Draft
from batchcook.dishwork.work import Link, Lot
from batchcook.kitchens.containers import load_containers
from batchcook.kitchens.kitchen import Kitchen
from batchcook.kitchens.pans import (
    HALF_SHEET,
    Pans,
    area_of,
    half_shelves,
    most_units,
    pan_id,
    pan_options,
    read_size,
    units_of,
)

__all__ = [
    "PanUse",
    "check_cold_pans",
    "draw_reuse",
    "freezes_apart",
    "frozen_on",
    "is_kitchen_pan",
    "lacks_pans",
    "pan_use",
    "pans_in_the_cold",
    "pans_words",
    "several_words",
]

_HALVES = 2
"""A recipe's pan is counted as two units, so that a smaller one can take half of what is in it."""

_OFF_THE_PANS = 2
"""Hands-on minutes to clear pans and line them anew: an assumption of ours."""

_NAMES = {"sheet-pan": ("sheet pan", "sheet_pans"), "baking-dish": ("baking dish", "baking_dishes")}


@dataclass(frozen=True)
class PanUse:
    """The pans of one vessel of a recipe, over all batches.

    Attributes:
        options: The ways to meet it, each a mapping of resource id to how many are kept; none where
            the kitchen has too few.
        goes: For each filling of them, which share of the dish is in it.
        half_shelves: For each filling, the half oven shelves that its pans take.
    """

    options: tuple[Mapping[str, int], ...]
    goes: tuple[float, ...]
    half_shelves: tuple[int, ...]

    @property
    def number(self) -> int:
        """How many pans that is, where it can be met."""
        return sum(self.options[0].values()) if self.options else 0


def is_kitchen_pan(recipe: Recipe, vessel: Vessel) -> bool:
    """Whether a vessel is a pan of the kitchen's; foil pans that are packed are containers."""
    if vessel.kind == "sheet-pan":
        return True
    if vessel.kind != "baking-dish":
        return False
    container = load_containers()[recipe.container]
    sides = sorted((container.length, container.width))
    size = read_size(str(vessel.size))
    packed = size is not None and all(
        abs(float((one - other).to("inch").magnitude)) < 1
        for one, other in zip(size, sides, strict=True)
    )
    return not (container.shape == "pan" and packed)


def freezes_apart(recipe: Recipe) -> bool:
    """Whether the dish cools or freezes as pieces on sheet pans."""
    tray = load_containers()[recipe.container].shape == "tray"
    return tray or consistency_of(recipe) == "pieces"


def frozen_on(recipe: Recipe) -> str | None:
    """The recipe's own sheet pan on which its pieces go into the cold, if it names one."""
    if not freezes_apart(recipe):
        return None
    followed = {before for step in recipe.steps for before in step.after}
    for step in recipe.steps:
        last = step.name not in followed and step.vessel is not None
        if last and recipe.vessels[str(step.vessel)].kind == "sheet-pan":
            return step.vessel
    return None


def pans_in_the_cold(draft: Draft) -> PanUse:
    """The sheet pans on which a dish's pieces go into the cold, all at once."""
    pans, unit = draft.kitchen.sheet_pans, area_of(*HALF_SHEET) / _HALVES
    wanted = _cold_units(draft)
    options = tuple(pan_options("sheet-pan", pans, wanted, unit))
    return PanUse(options, (1.0,), (_shelves("sheet-pan", options, pans, wanted, unit),))


def pan_use(draft: Draft, name: str) -> PanUse:
    """The pans of one vessel: all at once where there are enough, else filled several times.

    Args:
        draft: The dish's work.
        name: A sheet pan or baking dish of the recipe's.
    """
    vessel = draft.recipe.vessels[name]
    if not is_kitchen_pan(draft.recipe, vessel):
        count = vessel.per_batch * draft.dish.batches
        return PanUse(({},), (1.0,), (half_shelves([_area(vessel)] * count),))
    if name == frozen_on(draft.recipe):
        return pans_in_the_cold(draft)
    pans, unit = _pans(draft.kitchen, vessel.kind), _area(vessel) / _HALVES
    wanted = _HALVES * vessel.per_batch * draft.dish.batches
    most = most_units(vessel.kind, pans, wanted, unit)
    if not most:
        return PanUse((), (1.0,), (0,))
    options = tuple(pan_options(vessel.kind, pans, most, unit))
    goes = [min(most, wanted - done) for done in range(0, wanted, most)]
    return PanUse(
        options,
        tuple(units / wanted for units in goes),
        tuple(_shelves(vessel.kind, options, pans, units, unit) for units in goes),
    )


def pans_words(draft: Draft, step: Step, lots: Sequence[Lot] = ()) -> str:
    """How many pans to take, told where a vessel of the recipe's is first filled; else empty.

    Args:
        draft: The dish's work.
        step: The step.
        lots: In which lots it is done by hand.
    """
    name = str(step.vessel)
    vessel = draft.recipe.vessels[name]
    first = next(each for each in draft.order if each.vessel == name)
    if step is not first or not is_kitchen_pan(draft.recipe, vessel):
        return ""
    use = pan_use(draft, name)
    numbers = sorted({sum(option.values()) for option in use.options})
    called, _ = _NAMES[vessel.kind]
    noun = called if numbers == [1] else _plural(called)
    where = "On" if vessel.kind == "sheet-pan" else "In"
    at_once = " at a time" if len(use.goes) > 1 else " in all" if len(lots) > 1 else ""
    return f"{where} {' or '.join(map(str, numbers))} {noun}{at_once}."


def several_words(name: str, number: int) -> str:
    """A vessel by its name in the recipe, or so many: ``the stew pot``, ``2 stew pots``."""
    return f"the {name}" if number == 1 else f"{number} {_plural(name)}"


def _plural(name: str) -> str:
    return f"{name}{'es' if name.endswith(('sh', 'ch', 'x')) else '' if name[-1] == 's' else 's'}"


def lacks_pans(draft: Draft, step: Step) -> bool:
    """Whether nothing in the kitchen stands in for a step's pan; complained of once a vessel."""
    name = str(step.vessel)
    vessel = draft.recipe.vessels[name]
    if pan_use(draft, name).options:
        return False
    if name == frozen_on(draft.recipe):
        return True
    if step.name == next(each.name for each in draft.order if each.vessel == name):
        called, key = _NAMES[vessel.kind]
        size = vessel.size or Pans(*HALF_SHEET, 1).size
        pans = _pans(draft.kitchen, vessel.kind)
        only = f" that takes what one of {size} does, only {_listed(pans)}" if pans else ""
        draft.lacks(
            step,
            f"no {called}{only}",
            f"one of {size} under [[{key}]]",
        )
    return True


def check_cold_pans(draft: Draft) -> None:
    """Complain where pieces need more sheet pans than there are: the day does not free them."""
    if not freezes_apart(draft.recipe) or pans_in_the_cold(draft).options:
        return
    pans, unit = draft.kitchen.sheet_pans, area_of(*HALF_SHEET) / _HALVES
    wanted = _cold_units(draft)
    possible = draft.dish.batches * most_units("sheet-pan", pans, wanted, unit) // wanted
    fewer = f"{possible} of its batches instead of {draft.dish.batches}, or " if possible else ""
    number, half = -(-wanted // _HALVES), Pans(*HALF_SHEET, 1).size
    draft.lacks(
        draft.order[-1],
        f"too few sheet pans ({_listed(pans) or 'none'}): it cools and freezes "
        f"on {number} of {half} at once",
        f"{fewer}{number} of them under [[sheet_pans]]",
    )


def draw_reuse(draft: Draft) -> None:
    """Where pans are filled several times, each time waits until they have been cleared."""
    for name, vessel in draft.recipe.vessels.items():
        if vessel.kind not in _NAMES:
            continue
        goes = len(pan_use(draft, name).goes)
        for first, last in _stretches(draft, name):
            for go in range(1, goes):
                _clear(draft, name, (first, last), go, goes)


def _stretches(draft: Draft, name: str) -> list[tuple[Step, Step]]:
    """First and last of the steps that follow each other directly in a vessel."""
    found: list[tuple[Step, Step]] = []
    for step in draft.order:
        if step.vessel != name:
            continue
        place = next((n for n, (_, last) in enumerate(found) if last.name in step.after), None)
        if place is None:
            found.append((step, step))
        else:
            found[place] = (found[place][0], step)
    return found


def _clear(draft: Draft, name: str, stretch: tuple[Step, Step], go: int, goes: int) -> None:
    """Pans emptied and lined anew between one filling and the next."""
    first, last = stretch
    job = draft.job(
        last,
        f"clear {go}",
        f"Clear the {name} for load {go + 1} of {goes}",
        _OFF_THE_PANS,
        frozenset({"hot pans"}),
        "counter",
        label="Clear pans",
        words="What was on it into a clean bowl or straight to where it goes; line it anew.",
    )
    ready = zip(draft.lots[last.name], draft.ready[last.name], strict=True)
    entry = zip(draft.lots[first.name], draft.entry[first.name], strict=True)
    draft.links += [Link(each, job.id) for lot, each in ready if lot.go == go - 1]
    draft.links += [Link(job.id, each) for lot, each in entry if lot.go == go]


# ---- sizes -------------------------------------------------------------------------------------


def _pans(kitchen: Kitchen, kind: str) -> Sequence[Pans]:
    return kitchen.sheet_pans if kind == "sheet-pan" else kitchen.baking_dishes


def _area(vessel: Vessel) -> float:
    """Square inches of one of the recipe's pans."""
    return area_of(*(read_size(str(vessel.size)) or HALF_SHEET))


def _cold_units(draft: Draft) -> int:
    """Half pans of the recipe's on which its pieces lie, or which cooling them in time takes."""
    name = frozen_on(draft.recipe)
    own = 0 if name is None else draft.recipe.vessels[name].per_batch * draft.dish.batches
    chilling = None
    if consistency_of(draft.recipe) == "pieces":
        chilling = chilling_of(draft.dish, draft.kitchen)
    return _HALVES * max(own, chilling.method.containers if chilling else 0)


def _listed(pans: Sequence[Pans]) -> str:
    """What there is, in words."""
    return " and ".join(f"{each.count} of {each.size}" for each in pans)


def _shelves(
    kind: str,
    options: Iterable[Mapping[str, int]],
    pans: Sequence[Pans],
    units: int,
    unit: float,
) -> int:
    """Half oven shelves for so many units, in whichever option takes most."""
    return max(
        (half_shelves(_filled(kind, each, pans, units, unit)) for each in options), default=0
    )


def _filled(
    kind: str, option: Mapping[str, int], pans: Sequence[Pans], units: int, unit: float
) -> list[float]:
    """Areas of those pans of an option, the largest first, that so many units fill."""
    areas: list[float] = []
    for each in pans:
        for _ in range(option.get(pan_id(kind, each), 0)):
            if units > 0:
                areas.append(each.area)
                units -= units_of(each, unit)
    return areas
