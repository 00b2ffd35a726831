"""A step in the oven: as many loads as shelves and pans ask for, each put in, baked, taken out."""

from __future__ import annotations

from batchcook.cookbooks.recipe import Step
from batchcook.dishwork.draft import Draft
from batchcook.dishwork.lots import oven_capacity, oven_lots
from batchcook.dishwork.pans import pans_words
from batchcook.dishwork.rawhands import washed_after
from batchcook.dishwork.streams import StepHeat
from batchcook.dishwork.work import Bake, Link
from batchcook.kitchens.techniques import Technique

__all__ = ["draw_bake"]

_OVEN_TOLERANCE = 25
"""Degrees Fahrenheit that a bake may be moved to share the oven: common practice, no source."""

_FULL_OVEN_SLOWER = 1.1
"""A load of more than half an oven takes a tenth longer: common practice, no source."""

_OUT_OF_OVEN = 2
"""Hands-on minutes to take a load out and check its center."""


def draw_bake(draft: Draft, step: Step, technique: Technique) -> None:
    """As many loads as the oven's shelves, and fillings of the pans, ask for; in, bake, out."""
    if not draft.kitchen.ovens:
        draft.lacks(step, "no oven", "one under [[ovens]]")
        return
    capacity = oven_capacity(draft.kitchen)
    loads = oven_lots(draft, str(step.vessel))
    temperature = _degrees(step)
    slack = 0 if step.strict else _OVEN_TOLERANCE
    # What is shaped or layered before lies in its pans; what this step takes is laid on them now.
    raw = draft.raw_itself(step)
    into_hands = technique.skills | ({"raw meat"} if raw else frozenset())
    family = washed_after(draft) if raw else None
    rest = "What is left of it." if step.takes else ""
    entries, branches = [], []
    for number, lot in enumerate(loads, 1):
        first = number == 1
        part = f" {number}" if len(loads) > 1 else ""
        full = lot.half_shelves > capacity / 2
        minutes = round(int(step.minutes or 0) * (_FULL_OVEN_SLOWER if full else 1.0))
        into = draft.job(
            step,
            f"in{part}",
            f"{step.name.capitalize()}{part}: into the oven",
            technique.minutes(),
            into_hands,
            "oven",
            words=f"{pans_words(draft, step) if first else rest} {step.words}".strip(),
            amounts=draft.goes_in(step) if first else (),
            family=family,
        )
        bake = draft.job(
            step,
            f"oven{part}",
            f"{step.name.capitalize()}{part} at {temperature} degF",
            minutes + _OUT_OF_OVEN + 1,
            None,
            "oven",
            words=f"{minutes} min",
            oven=Bake(lot.half_shelves, temperature - slack, temperature + slack),
        )
        out = draft.job(
            step,
            f"out{part}",
            f"{step.name.capitalize()}{part}: out of the oven, check the center",
            _OUT_OF_OVEN,
            technique.skills,
            "oven",
        )
        draft.links.append(Link(into.id, bake.id, high=1))
        draft.links.append(
            Link(
                bake.id,
                out.id,
                low=minutes,
                high=minutes + 1,
                origin="start",
                reason=f"{step.name}: it is done, and dries out in the oven",
            )
        )
        # Implied while it bakes as long as planned; what needs longer is taken out later.
        draft.links.append(Link(bake.id, out.id, low=-1, origin="end", to="end"))
        entries.append(into.id)
        branches.append(((bake.id, "start"), (out.id, "end")))
    draft.entry[step.name] = tuple(entries)
    draft.ready[step.name] = tuple(out for _, (out, _) in branches)
    draft.lots[step.name] = loads
    draft.in_turn(entries)
    draft.link_inputs(step, entries)
    draft.heat[step.name] = StepHeat(tuple(branches))  # type: ignore[arg-type] # anchors


def _degrees(step: Step) -> int:
    """The oven temperature of a step in whole degF; a recipe without one does not load."""
    if step.oven is None:
        raise ValueError(f"step {step.name!r} names no oven temperature")
    return round(float(step.oven.to("degF").magnitude))
