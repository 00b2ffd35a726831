"""A recipe file must cook through what it takes raw, hot enough."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import networkx as nx

from batchcook.complaints import Complaint
from batchcook.foods import load_foods
from batchcook.foodsafety.dishrows import check_claim, derive_rows, dish_forms
from batchcook.foodsafety.kinds import RAW_MEAT
from batchcook.foodsafety.storage import storage_rows
from batchcook.foodsafety.temperatures import cook_to
from batchcook.foodsafety.thawing import cook_from_frozen, in_slow_cooker
from batchcook.kitchens.techniques import load_techniques
from batchcook.recipefile.amounts import Amounts
from batchcook.recipefile.names import ingredient_names
from batchcook.recipefile.sheet import Draft

__all__ = ["unsafe"]

_COOKED_ENOUGH = frozenset({"cook-through"})
_RAW = RAW_MEAT | {"egg"}


def unsafe(draft: Draft, amounts: Amounts) -> Iterator[Complaint]:
    """Every way in which the dish would not be cooked, or not be fit to freeze."""
    yield from _never_frozen(draft)
    ways = _Ways(draft)
    yield from _claimed_too_long(draft, ways)
    yield from _left_raw(draft, ways)
    yield from _too_cool(draft, amounts, ways)
    yield from _frozen_into_slow_cooker(draft)


def _never_frozen(draft: Draft) -> Iterator[Complaint]:
    """A dish is stored as something that freezes."""
    for at, name in enumerate(draft.texts("stored_as")):
        row = storage_rows().get(name)
        if row is not None and row.freezer_months is None:
            yield Complaint(
                draft.places.at("stored_as", at),
                f"{name!r} is not frozen: {row.not_frozen}",
                "a row with freezer months, or the food added on the night",
            )


def _claimed_too_long(draft: Draft, ways: _Ways) -> Iterator[Complaint]:
    """The rows it is stored as allow no longer than what the dish is and holds."""
    state, form = draft.tables.get("state"), draft.tables.get("form")
    rows = draft.texts("stored_as")
    if not isinstance(state, str) or not isinstance(form, str) or form not in dish_forms():
        return
    known = [storage_rows()[name] for name in rows if name in storage_rows()]
    if len(known) == len(rows) and all(row.freezer_months for row in known):
        where = draft.places.at("stored_as")
        yield from check_claim(rows, derive_rows(state, ways.all_kinds(), form, where), where)


def _left_raw(draft: Draft, ways: _Ways) -> Iterator[Complaint]:
    """Unless it is a raw kit, everything raw meets heat for long enough to be cooked through."""
    if draft.tables.get("state") not in ("cooked", "part-baked"):
        return
    for at, _ in draft.steps:
        raw = sorted(name for name, kind in ways.taken(at).items() if kind in _RAW)
        if raw and not ways.cooks_from(at):
            yield Complaint(
                draft.places.at("steps", at),
                f"{', '.join(raw)} goes in raw and is never cooked through",
                "a later step that cooks it: simmer, bake, roast, boil, slow-cook or cook-through",
            )


def _too_cool(draft: Draft, amounts: Amounts, ways: _Ways) -> Iterator[Complaint]:
    """A recipe's own cook-to temperature is no lower than the published one."""
    for at, entry in draft.steps:
        asked = amounts.get("steps", at, "cook_to")
        least = cook_to(ways.kinds_in(at))
        if asked is None or least is None:
            continue
        if float(asked.to("degF").magnitude) < least.fahrenheit:
            yield Complaint(
                draft.places.at("steps", at, "cook_to"),
                f"{entry['cook_to']!r} is too low",
                f"{least.fahrenheit} degF or more for {least.scope} ({least.source.title})",
            )


def _frozen_into_slow_cooker(draft: Draft) -> Iterator[Complaint]:
    """What is finished in a slow cooker is thawed first."""
    night = draft.tables.get("night")
    if not isinstance(night, dict) or night.get("thaw") not in ("from-frozen", "either"):
        return
    if in_slow_cooker(str(night.get("finish", ""))):
        never = cook_from_frozen("slow-cooker")
        yield Complaint(
            draft.places.at("night", "thaw"),
            f"{never.words} ({never.limit.source})",
            'thaw = "refrigerator"',
        )


class _Ways:
    """Which foods reach which step, and where they go from there."""

    def __init__(self, draft: Draft) -> None:
        foods = load_foods()
        named = dict(ingredient_names(draft))
        kinds = {
            named[at]: foods[entry["food"]].kind
            for at, entry in draft.ingredients
            if at in named and entry.get("food") in foods
        }
        self._flow: nx.DiGraph[int] = nx.DiGraph()
        self._taken: dict[int, dict[str, str]] = {}
        self._cooks: set[int] = set()
        steps = {entry["name"]: at for at, entry in draft.steps if "name" in entry}
        for at, entry in draft.steps:
            taken = draft.texts("steps", at, "takes")
            self._taken[at] = {name: kinds[name] for name in taken if name in kinds}
            self._flow.add_node(at)
            before = (steps.get(name) for name in draft.texts("steps", at, "after"))
            self._flow.add_edges_from((each, at) for each in before if each is not None)
            technique = load_techniques().get(str(entry.get("technique")))
            if technique is None or technique.timed or technique.name in _COOKED_ENOUGH:
                self._cooks.add(at)

    def taken(self, at: int) -> Mapping[str, str]:
        """The known ingredients that go in at a step, each with its kind."""
        return self._taken[at]

    def all_kinds(self) -> set[str]:
        """The kinds of everything in the dish."""
        return {kind for taken in self._taken.values() for kind in taken.values()}

    def kinds_in(self, at: int) -> set[str]:
        """The kinds of all food that has gone in by the end of a step."""
        return {
            kind
            for each in (at, *nx.ancestors(self._flow, at))
            for kind in self._taken[each].values()
        }

    def cooks_from(self, at: int) -> bool:
        """Whether this step or one that its outcome goes on to cooks food through."""
        return not self._cooks.isdisjoint((at, *nx.descendants(self._flow, at)))
