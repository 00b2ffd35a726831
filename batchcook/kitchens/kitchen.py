"""The kitchen file: who cooks, with what, in which room."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import time
from importlib import resources
from pathlib import Path
from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field, ValidationError

from batchcook.complaints import Complaint, InputFault, nearest
from batchcook.kitchens.pans import Pans, read_size
from batchcook.quantities import Quantity, ureg
from batchcook.tomlfiles import parse_toml, read_text
from batchcook.tomlplaces import Places, shape_complaints

__all__ = [
    "SKILLS",
    "Away",
    "Burners",
    "ColdStore",
    "Kitchen",
    "KitchenCook",
    "Oven",
    "Vessels",
    "default_kitchen",
    "load_kitchen",
    "parse_clock",
]

SKILLS = ("knife", "raw meat", "hot pans", "oven")
"""What a cook may be able to do. Rinsing, labelling and clearing up ask for none of them."""


_SMALLEST_SIDE, _LARGEST_SIDE = ureg.Quantity(4, "inch"), ureg.Quantity(22, "inch")
"""Of a pan; a larger one goes into no household oven."""


@dataclass(frozen=True)
class Away:
    """Somebody or something is not to be had from one time of day to another."""

    start: time
    end: time
    why: str


@dataclass(frozen=True)
class KitchenCook:
    """A person who cooks; ``id`` is the name as a key."""

    id: str
    name: str
    skills: frozenset[str]
    away: tuple[Away, ...] = ()


@dataclass(frozen=True)
class Burners:
    """The hob: how many burners, and the power of a large one."""

    count: int
    power: Quantity
    kind: str


@dataclass(frozen=True)
class Oven:
    """An oven; each shelf holds one half sheet or two 9x13 inch pans."""

    id: str
    shelves: int
    warm_up: int


@dataclass(frozen=True)
class Vessels:
    """``count`` vessels of one size: quarts for pots and slow cookers, inches for skillets."""

    size: Quantity
    count: int


@dataclass(frozen=True)
class ColdStore:
    """A refrigerator or freezer: its whole and its free volume, and how cold it is."""

    capacity: Quantity
    free: Quantity
    temperature: Quantity


@dataclass(frozen=True)
class Kitchen:
    """A kitchen; vessels of each kind are listed from the largest to the smallest.

    Attributes:
        ice_baths: Tubs, coolers or second sink bowls in which a pot can stand in ice water.
        ice: Ice that it makes by the prep day; more is bought.
        sheet_pans: What is baked, cooled and frozen apart on; those of the default kitchen where a
            kitchen says nothing of them.
        baking_dishes: Likewise; foil pans that go to the freezer are containers and not among them.
    """

    title: str
    room: Quantity
    cooks: tuple[KitchenCook, ...]
    burners: Burners
    ovens: tuple[Oven, ...]
    slow_cookers: tuple[Vessels, ...]
    skillets: tuple[Vessels, ...]
    pots: tuple[Vessels, ...]
    boards: Mapping[str, int]
    refrigerator: ColdStore
    freezer: ColdStore
    ice_baths: int = 2
    ice: Quantity = field(default_factory=lambda: ureg.Quantity(6, "pound"))
    sheet_pans: tuple[Pans, ...] = field(default_factory=lambda: default_kitchen().sheet_pans)
    baking_dishes: tuple[Pans, ...] = field(default_factory=lambda: default_kitchen().baking_dishes)


class _Table(BaseModel):
    model_config = ConfigDict(extra="forbid")


class _AwayTable(_Table):
    from_: str = Field(alias="from")
    to: str
    why: str = ""


class _CookTable(_Table):
    name: Annotated[str, Field(min_length=1)]
    skills: list[str] = list(SKILLS)
    away: list[_AwayTable] = []


class _BurnersTable(_Table):
    count: Annotated[int, Field(ge=0, le=12)]
    power: str = "9000 BTU/hour"
    kind: Literal["gas", "electric", "induction"] = "gas"


class _OvenTable(_Table):
    shelves: Annotated[int, Field(ge=1, le=8)]
    warm_up: str = "12 minute"


class _VesselTable(_Table):
    size: str
    count: Annotated[int, Field(ge=1, le=20)] = 1


class _PanTable(_Table):
    size: str = Field(description='width and length such as "9x13 inch", in quotes')
    count: Annotated[int, Field(ge=1, le=20)] = 1


class _BoardsTable(_Table):
    produce: Annotated[int, Field(ge=0, le=12)] = 2
    raw: Annotated[int, Field(ge=0, le=12)] = 1


class _ColdTable(_Table):
    capacity: str | None = None
    free: str
    temperature: str


class _CoolingTable(_Table):
    ice_baths: Annotated[int, Field(ge=0, le=8)] = 2
    ice: str = "6 lb"


class _KitchenTable(_Table):
    title: str = "Our kitchen"
    room: str = "72 degF"
    cooks: Annotated[list[_CookTable], Field(min_length=1)]
    burners: _BurnersTable
    ovens: list[_OvenTable] = []
    slow_cookers: list[_VesselTable] = []
    skillets: list[_VesselTable] = []
    pots: list[_VesselTable] = []
    sheet_pans: list[_PanTable] | None = None
    baking_dishes: list[_PanTable] | None = None
    boards: _BoardsTable = _BoardsTable()
    cooling: _CoolingTable = _CoolingTable()
    refrigerator: _ColdTable
    freezer: _ColdTable


def load_kitchen(path: Path) -> Kitchen:
    """The kitchen in a file.

    Raises:
        InputFault: With every fault found in it.
    """
    return _kitchen(read_text(path, "a kitchen file"), str(path))


def default_kitchen() -> Kitchen:
    """The ordinary kitchen that ships with the program."""
    text = resources.files("batchcook.data").joinpath("kitchen.toml").read_text("utf-8")
    return _kitchen(text, "the default kitchen")


def parse_clock(text: str, where: str) -> time:
    """A time of day written as 08:00.

    Raises:
        InputFault: It is written otherwise.
    """
    try:
        hour, minute = text.split(":")
        return time(int(hour), int(minute))
    except ValueError:
        raise InputFault(
            Complaint(where, f"{text!r} is no time of day", "one like 08:30")
        ) from None


def _kitchen(text: str, where: str) -> Kitchen:
    found = parse_toml(text, where)
    try:
        table = _KitchenTable.model_validate(found)
    except ValidationError as fault:
        raise InputFault(shape_complaints(fault, Places.of(where, text), _KitchenTable)) from None
    reader = _Reader(where)
    kitchen = Kitchen(
        title=table.title,
        room=reader.measure("room", table.room, "degF", 30, 130),
        cooks=_cooks(reader, table.cooks),
        burners=Burners(
            table.burners.count,
            reader.measure("burners.power", table.burners.power, "watt", 300, 15000),
            table.burners.kind,
        ),
        ovens=tuple(
            Oven(
                "oven" if len(table.ovens) == 1 else f"oven:{number}",
                each.shelves,
                round(
                    float(
                        reader.measure(
                            f"ovens[{number}].warm_up", each.warm_up, "minute", 1, 60
                        ).magnitude
                    )
                ),
            )
            for number, each in enumerate(table.ovens, 1)
        ),
        slow_cookers=_vessels(reader, "slow_cookers", table.slow_cookers, "quart"),
        skillets=_vessels(reader, "skillets", table.skillets, "inch"),
        pots=_vessels(reader, "pots", table.pots, "quart"),
        boards={"produce": table.boards.produce, "raw": table.boards.raw},
        refrigerator=_cold(reader, "refrigerator", table.refrigerator),
        freezer=_cold(reader, "freezer", table.freezer),
        ice_baths=table.cooling.ice_baths,
        ice=reader.measure("cooling.ice", table.cooling.ice, "pound", 0, 100),
        **_told_of(
            sheet_pans=_pans(reader, "sheet_pans", table.sheet_pans),
            baking_dishes=_pans(reader, "baking_dishes", table.baking_dishes),
        ),
    )
    if reader.complaints:
        raise InputFault(reader.complaints)
    return kitchen


class _Reader:
    """Reads measures and collects what is wrong with them."""

    def __init__(self, where: str) -> None:
        self.where = where
        self.complaints: list[Complaint] = []

    def clock(self, key: str, text: str) -> time:
        """A time of day; midnight in place of one that cannot be read."""
        try:
            return parse_clock(text, key)
        except InputFault as fault:
            self.complaints += fault.complaints
            return time(0)

    def measure(self, key: str, text: str, unit: str, low: float, high: float) -> Quantity:
        """A measure in ``unit``, between ``low`` and ``high`` of it."""
        place = f"{self.where}, {key}"
        between = f"between {low:g} and {high:g} {unit}"
        try:
            number, _, name = text.strip().partition(" ")
            found = ureg.Quantity(float(number), name.strip() or "dimensionless").to(unit)
        except Exception:  # noqa: BLE001 - pint raises many kinds of error for one wrong word
            self.complaints.append(
                Complaint(place, f"{text!r} is no measure", f"something like '{low:g} {unit}'")
            )
            return ureg.Quantity(low, unit)
        if not low <= float(found.magnitude) <= high:
            self.complaints.append(Complaint(place, f"{text!r} is out of reason", between))
        return found


def _cooks(reader: _Reader, tables: Sequence[_CookTable]) -> tuple[KitchenCook, ...]:
    """The cooks, each with known skills and a name of its own."""
    cooks = []
    for number, table in enumerate(tables, 1):
        key = f"{reader.where}, cooks[{number}]"
        for skill in table.skills:
            if skill not in SKILLS:
                reader.complaints.append(
                    Complaint(
                        f"{key}.skills",
                        f"unknown skill {skill!r}",
                        "one of " + ", ".join(SKILLS),
                        nearest(skill, SKILLS),
                    )
                )
        told = len(reader.complaints)
        away = tuple(
            Away(
                reader.clock(f"{key}.away", each.from_),
                reader.clock(f"{key}.away", each.to),
                each.why,
            )
            for each in table.away
        )
        for each in away:
            if each.start >= each.end and len(reader.complaints) == told:
                reader.complaints.append(
                    Complaint(f"{key}.away", f"ends at {each.end:%H:%M}, before it begins")
                )
        name = table.name.lower().replace(" ", "-")
        cooks.append(KitchenCook(name, table.name, frozenset(table.skills), away))
    for name, count in Counter(cook.id for cook in cooks).items():
        if count > 1:
            reader.complaints.append(
                Complaint(f"{reader.where}, cooks", f"{count} cooks are called {name!r}")
            )
    return tuple(cooks)


def _vessels(
    reader: _Reader, key: str, tables: Sequence[_VesselTable], unit: str
) -> tuple[Vessels, ...]:
    """Vessels of one kind, equal sizes together, the largest first."""
    counts: Counter[float] = Counter()
    for number, table in enumerate(tables, 1):
        size = reader.measure(f"{key}[{number}].size", table.size, unit, 1, 40)
        counts[round(float(size.magnitude), 2)] += table.count
    return tuple(
        Vessels(ureg.Quantity(size, unit), counts[size]) for size in sorted(counts, reverse=True)
    )


def _told_of(**pans: tuple[Pans, ...] | None) -> dict[str, Any]:
    """Those that the file has a word on; of the others there are as many as usual."""
    return {key: each for key, each in pans.items() if each is not None}


def _pans(reader: _Reader, key: str, tables: Sequence[_PanTable] | None) -> tuple[Pans, ...] | None:
    """Pans of one kind, equal sizes together, the largest first; None where nothing is said."""
    if tables is None:
        return None
    counts: Counter[tuple[Quantity, Quantity]] = Counter()
    for number, table in enumerate(tables, 1):
        place = f"{reader.where}, {key}[{number}].size"
        size = read_size(table.size)
        if size is None:
            reader.complaints.append(
                Complaint(place, f"{table.size!r} is no size", "one like '9x13 inch'")
            )
        elif not all(_SMALLEST_SIDE <= side <= _LARGEST_SIDE for side in size):
            reader.complaints.append(
                Complaint(
                    place,
                    f"{table.size!r} is out of reason",
                    f"sides between {_SMALLEST_SIDE:g} and {_LARGEST_SIDE:g}",
                )
            )
        else:
            counts[size] += table.count
    found = [Pans(width, length, count) for (width, length), count in counts.items()]
    return tuple(sorted(found, key=lambda each: -each.area))


def _cold(reader: _Reader, key: str, table: _ColdTable) -> ColdStore:
    """A refrigerator or freezer; one with no capacity given is as large as its free space."""
    free = reader.measure(f"{key}.free", table.free, "cubic_foot", 0, 60)
    capacity = (
        free
        if table.capacity is None
        else reader.measure(f"{key}.capacity", table.capacity, "cubic_foot", 0.5, 60)
    )
    low, high = (28.0, 45.0) if key == "refrigerator" else (-40.0, 32.0)
    return ColdStore(
        capacity, free, reader.measure(f"{key}.temperature", table.temperature, "degF", low, high)
    )
