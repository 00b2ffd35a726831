"""Hands that touch raw food: who may, and that they are washed after."""

from __future__ import annotations

from batchcook.cookbooks.recipe import Step
from batchcook.dishwork.draft import Draft
from batchcook.kitchens.techniques import Technique
from batchcook.scheduling.problem import Family

__all__ = ["is_raw_work", "raw_family", "skills_for", "washed_after"]

_RAW = "/raw"
"""How the name of that family ends."""

_AFTER_RAW = 4
"""Minutes to wash hands and sanitize what raw meat touched: common practice, no source."""

_BY_HAND = frozenset({"boil", "fill", "marinate", "mix", "shape", "simmer", "slow-cook"})
"""Techniques in which hands touch what is raw, or the bowl it was in. (A skillet's loads have a
clean-down of their own.)"""


def skills_for(draft: Draft, step: Step, technique: Technique) -> frozenset[str]:
    """What a step asks of its cook: what its technique does, and raw meat where there is any."""
    return technique.skills | ({"raw meat"} if draft.raw(step) else frozenset())


def raw_family(draft: Draft, step: Step) -> str | None:
    """Raw work of one dish, after whose last part hands and tools are washed."""
    if not draft.raw(step) or step.technique not in _BY_HAND:
        return None
    return washed_after(draft)


def is_raw_work(family: str) -> bool:
    """Whether a family is a dish's raw work, step after step under the same hands."""
    return family.endswith(_RAW)


def washed_after(draft: Draft) -> str:
    """The family of a dish's raw work, whose last part is followed by washing."""
    family = f"{draft.dish.id}{_RAW}"
    draft.families[family] = Family(family, 0, _AFTER_RAW)
    return family
