"""The limits of time, temperature and handling, each a named figure with its source."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from batchcook.complaints import Complaint, InputFault, nearest
from batchcook.foodsafety.tables import Source, source, table
from batchcook.quantities import Quantity, ureg

__all__ = [
    "COOLING_DEPTH",
    "FREEZER",
    "FREEZER_BEFORE_LOAD",
    "HOT_HOLDING",
    "HOT_ROOM",
    "KEPT_HOT",
    "KIDNEY_BEAN_BOIL_MINUTES",
    "KIDNEY_BEAN_SOAK_MINUTES",
    "REFRIGERATOR",
    "SLOW_COOKER_FILL",
    "STRAIGHT_ON_MINUTES",
    "TIME_OUT_HOT_ROOM_MINUTES",
    "TIME_OUT_MINUTES",
    "Limit",
    "limit",
    "limits",
    "time_out_limit",
]


@dataclass(frozen=True)
class Limit:
    """One limit.

    Attributes:
        name: Its name in the table.
        topic: The heading under which it is shown.
        figure: The limit in words.
        scope: What it covers, in our words.
        low: The lower figure of a range; None for a single figure.
        high: The figure, or the upper one of a range; None for a rule without a number.
        unit: The unit of both, as pint reads it; empty for a rule without a number.
        source: Where it was published.
    """

    name: str
    topic: str
    figure: str
    scope: str
    low: float | None
    high: float | None
    unit: str
    source: Source

    @property
    def quantity(self) -> Quantity:
        """The figure, or the upper one of a range.

        Raises:
            ValueError: The rule has no number.
        """
        return self._of(self.high)

    @property
    def lower(self) -> Quantity:
        """The lower figure of a range, or the only one.

        Raises:
            ValueError: The rule has no number.
        """
        return self._of(self.high if self.low is None else self.low)

    @property
    def minutes(self) -> int:
        """The figure in whole minutes.

        Raises:
            ValueError: The rule has no number.
        """
        return round(float(self.quantity.to("minute").magnitude))

    def _of(self, figure: float | None) -> Quantity:
        if figure is None:
            raise ValueError(f"the rule {self.name!r} has no number")
        return ureg.Quantity(figure, self.unit)


@cache
def limits() -> Mapping[str, Limit]:
    """Every limit, by name."""
    return {
        name: Limit(
            name=name,
            topic=entry["topic"],
            figure=entry["figure"],
            scope=entry["scope"],
            low=entry.get("low"),
            high=entry.get("high"),
            unit=entry.get("unit", ""),
            source=source(entry["source"], from_memory=entry.get("from_memory", False)),
        )
        for name, entry in table("handling").items()
    }


def limit(name: str) -> Limit:
    """The limit with this name.

    Raises:
        InputFault: There is none; suggests the nearest.
    """
    found = limits().get(name)
    if found is None:
        raise InputFault(Complaint("limit", f"unknown limit {name!r}", "", nearest(name, limits())))
    return found


TIME_OUT_MINUTES = limit("time-out").minutes
"""Perishable food out of the refrigerator, all spells of a day together."""
TIME_OUT_HOT_ROOM_MINUTES = limit("time-out-hot-room").minutes
"""The same in a room above :data:`HOT_ROOM`."""
HOT_ROOM = limit("hot-room").quantity
"""Room temperature above which the shorter time holds."""
HOT_HOLDING = limit("hot-holding").quantity
"""Least temperature at which food may wait hot."""
KEPT_HOT = f"at {float(HOT_HOLDING.to('degF').magnitude):g} degF or above"
"""The same, as a cook reads it."""
STRAIGHT_ON_MINUTES = limit("straight-on").minutes
"""Longest wait from browning, not cooked through, to the final cooking."""
REFRIGERATOR = limit("refrigerator").quantity
"""Highest temperature of a refrigerator."""
FREEZER = limit("freezer").quantity
"""Highest temperature of a freezer."""
FREEZER_BEFORE_LOAD = limit("freezer-before-load").quantity
"""Freezer setting on the day before a big load."""
COOLING_DEPTH = limit("cooling-depth").quantity
"""Greatest depth of thick food put to cool, by home guidance."""
SLOW_COOKER_FILL = (limit("slow-cooker-fill").low or 0.0, limit("slow-cooker-fill").high or 1.0)
"""Least and greatest fill of a slow cooker, as a share of its capacity."""
KIDNEY_BEAN_SOAK_MINUTES = limit("kidney-beans-soak").minutes
"""Soaking of dry red kidney beans, at least."""
KIDNEY_BEAN_BOIL_MINUTES = limit("kidney-beans-boil").minutes
"""Boiling of dry red kidney beans before slow cooking."""


def time_out_limit(room_temperature: Quantity) -> int:
    """Minutes that perishable food may spend out of the refrigerator, all spells together.

    Args:
        room_temperature: The kitchen's temperature.

    Returns:
        120 up to and including 90 degF, 60 above (USDA FSIS).
    """
    hot = room_temperature.to("degF").magnitude > HOT_ROOM.magnitude
    return TIME_OUT_HOT_ROOM_MINUTES if hot else TIME_OUT_MINUTES
