"""Which household measure of a food answers for an amount, by its unit and its cut."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from batchcook.quantities import Quantity, ureg

__all__ = ["FORMS", "Measure", "best_measure"]

FORMS: Final[Mapping[str, tuple[str, ...]]] = {
    "": ("", "chopped", "diced", "cubed", "sliced"),
    "diced": ("diced", "chopped", "cubed", "", "sliced"),
    "minced": ("minced", "chopped", "diced", "", "grated"),
    "chopped": ("chopped", "diced", "cubed", "", "sliced"),
    "cubed": ("cubed", "diced", "chopped", "", "sliced"),
    "1-inch cubes": ("cubed", "diced", "chopped", "", "sliced"),
    "2-inch chunks": ("cubed", "diced", "chopped", "", "sliced"),
    "sliced": ("sliced", "", "chopped", "diced"),
    "thin strips": ("sliced", "shredded", "", "chopped"),
    "halved": ("whole", "", "sliced", "chopped"),
    "grated": ("grated", "shredded", "", "chopped"),
    "shredded": ("shredded", "grated", "", "sliced", "chopped"),
    **dict.fromkeys(
        ("squeezed", "squeezed dry", "casings off", "drained and picked over"),
        ("", "chopped", "diced", "cubed", "sliced"),
    ),
    "torn": ("", "chopped", "shredded", "sliced"),
}
"""For each cut, the cuts whose figure answers for it, nearest first; ``""`` is as it comes.

Our choice: pieces of like size lie alike in a cup.
"""

_MILLILITRES: Final[Mapping[str, float]] = {
    "teaspoon": 5,
    "tablespoon": 15,
    "cup": 237,
    "quart": 946,
}
_STANDS_FOR: Final[Mapping[str, tuple[str, ...]]] = {"each": ("each", "medium", "large")}


@dataclass(frozen=True)
class Measure:
    """What a household measure of a food weighs.

    Attributes:
        unit: The measure, a volume or a household count, by its unit's name.
        cut: How the food in it is cut, or an empty string.
        grams: Weight of ``amount`` of it, of the part that is eaten.
        amount: How many of the unit weigh that.
        sr26: Its name in USDA SR26, or an empty string.
        ours: Whether the figure is our own.
    """

    unit: str
    cut: str
    grams: float
    amount: float
    sr26: str
    ours: bool

    @property
    def weight(self) -> Quantity:
        """Weight of one."""
        return ureg.Quantity(self.grams / self.amount, "gram")

    @property
    def is_volume(self) -> bool:
        """Whether it is a volume, not a count."""
        return self.unit in _MILLILITRES


def best_measure(measures: Sequence[Measure], unit: str, cut: str | None) -> Measure | None:
    """The measure that answers for a unit of a cut, or None when the table has none.

    A count needs its own; a volume takes the nearest cut, and then the measure nearest in size.

    Args:
        measures: The food's measures.
        unit: A unit's name; any volume but the spoons goes by the cup.
        cut: How the food is cut, or None.
    """
    if unit not in _MILLILITRES:
        wanted = _STANDS_FOR.get(unit, (unit,))
        found = [each for name in wanted for each in measures if each.unit == name]
        return found[0] if found else None
    volumes = [each for each in measures if each.is_volume]
    forms = FORMS.get(cut or "", FORMS[""])
    return min(volumes, key=lambda each: _distance(each, unit, forms), default=None)


def _distance(measure: Measure, unit: str, forms: Sequence[str]) -> tuple[int, float]:
    rank = forms.index(measure.cut) if measure.cut in forms else len(forms)
    asked, found = _MILLILITRES[unit], _MILLILITRES[measure.unit]
    return rank, max(asked / found, found / asked)
