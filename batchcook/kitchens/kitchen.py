"""The kitchen file: who cooks, with what, in which room."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import time
from importlib import resources
from pathlib import Path
from typing import Annotated, Any, Literal, Self

from pydantic import AfterValidator, BaseModel, ConfigDict, Field, model_validator

from batchcook.complaints import Complaint, nearest
from batchcook.foodsafety.limits import FREEZER, REFRIGERATOR
from batchcook.kitchens.pans import Pans, read_size
from batchcook.kitchens.written import (
    END_OF_SPAN,
    TIME_OF_DAY,
    clock,
    ends_after,
    measure,
    no_warmer_than,
    within,
)
from batchcook.quantities import Quantity, ureg
from batchcook.shapewords import ONE_LINE, own_fault
from batchcook.tomlfiles import parse_toml, read_text
from batchcook.tomlplaces import Places, read_table

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
        ice_pans: Roasting pans or large foil ones in which a baking dish stands on ice; more are
            bought.
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
    ice_pans: int = 0
    sheet_pans: tuple[Pans, ...] = field(default_factory=lambda: default_kitchen().sheet_pans)
    baking_dishes: tuple[Pans, ...] = field(default_factory=lambda: default_kitchen().baking_dishes)


class _Table(BaseModel):
    model_config = ConfigDict(extra="forbid")


class _AwayTable(_Table):
    from_: Annotated[str, TIME_OF_DAY] = Field(alias="from")
    to: Annotated[str, TIME_OF_DAY, END_OF_SPAN]
    why: str = ""

    @model_validator(mode="after")
    def _in_order(self) -> _AwayTable:
        ends_after(self.from_, self.to)
        return self


def _known_skill(skill: str) -> str:
    if skill not in SKILLS:
        expected = "one of " + ", ".join(SKILLS)
        raise own_fault(f"unknown skill {skill!r}", expected, nearest(skill, SKILLS))
    return skill


class _CookTable(_Table):
    name: Annotated[str, ONE_LINE]
    skills: list[Annotated[str, AfterValidator(_known_skill)]] = list(SKILLS)
    away: list[_AwayTable] = []


class _BurnersTable(_Table):
    count: Annotated[int, Field(ge=0, le=12)]
    power: Annotated[str, within("watt", 300, 15000)] = "9000 BTU/hour"
    kind: Literal["gas", "electric", "induction"] = "gas"


class _OvenTable(_Table):
    shelves: Annotated[int, Field(ge=1, le=8)]
    warm_up: Annotated[str, within("minute", 1, 60)] = "12 minute"


class _QuartsTable(_Table):
    size: Annotated[str, within("quart", 1, 40)]
    count: Annotated[int, Field(ge=1, le=20)] = 1


class _InchesTable(_Table):
    size: Annotated[str, within("inch", 1, 40)]
    count: Annotated[int, Field(ge=1, le=20)] = 1


def _pan_size(text: str) -> str:
    size = read_size(text)
    if size is None:
        raise own_fault(f"{text!r} is no size", "one like '9x13 inch'")
    if not all(_SMALLEST_SIDE <= side <= _LARGEST_SIDE for side in size):
        sides = f"sides between {_SMALLEST_SIDE:g} and {_LARGEST_SIDE:g}"
        raise own_fault(f"{text!r} is out of reason", sides)
    return text


class _PanTable(_Table):
    size: Annotated[str, AfterValidator(_pan_size)] = Field(
        description='width and length such as "9x13 inch", in quotes'
    )
    count: Annotated[int, Field(ge=1, le=20)] = 1


class _BoardsTable(_Table):
    produce: Annotated[int, Field(ge=0, le=12)] = 2
    raw: Annotated[int, Field(ge=0, le=12)] = 1


class _ColdTable(_Table):
    @model_validator(mode="after")
    def _no_more_free_than_there_is(self) -> Self:
        if self.capacity is None:
            return self
        there, free = (measure(each, "cubic_foot") for each in (self.capacity, self.free))
        if free > there:
            raise own_fault(
                f"{self.free!r} is free of {self.capacity!r}", "no more free than its capacity"
            )
        return self

    capacity: Annotated[str, within("cubic_foot", 0.5, 60)] | None = None
    free: Annotated[str, within("cubic_foot", 0, 60)] = Field(
        description='its free room such as "4 cubic_foot", in quotes'
    )


class _RefrigeratorTable(_ColdTable):
    temperature: Annotated[
        str, within("degF", 28, 45), no_warmer_than(REFRIGERATOR, "to keep food")
    ] = Field(description='its temperature such as "37 degF", in quotes')


class _FreezerTable(_ColdTable):
    temperature: Annotated[
        str, within("degF", -40, 32), no_warmer_than(FREEZER, "to freeze food and keep it")
    ] = Field(description='its temperature such as "0 degF", in quotes')


class _CoolingTable(_Table):
    ice_baths: Annotated[int, Field(ge=0, le=8)] = 2
    ice: Annotated[str, within("pound", 0, 100)] = "6 lb"
    ice_pans: Annotated[int, Field(ge=0, le=24)] = 0


class _KitchenTable(_Table):
    title: Annotated[str, ONE_LINE] = "Our kitchen"
    room: Annotated[str, within("degF", 30, 130)] = "72 degF"
    cooks: Annotated[list[_CookTable], Field(min_length=1)] = Field(
        description='[[cooks]], each with a name such as name = "First cook"'
    )
    burners: _BurnersTable = Field(description="[burners], with how many there are: count = 4")
    ovens: list[_OvenTable] = []
    slow_cookers: list[_QuartsTable] = []
    skillets: list[_InchesTable] = []
    pots: list[_QuartsTable] = []
    sheet_pans: list[_PanTable] | None = None
    baking_dishes: list[_PanTable] | None = None
    boards: _BoardsTable = _BoardsTable()
    cooling: _CoolingTable = _CoolingTable()
    refrigerator: _RefrigeratorTable = Field(
        description='[refrigerator], with free = "3 cubic_foot" and temperature = "37 degF"'
    )
    freezer: _FreezerTable = Field(
        description='[freezer], with free = "4 cubic_foot" and temperature = "0 degF"'
    )


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


def _kitchen(text: str, where: str) -> Kitchen:
    found = parse_toml(text, where)
    places = Places.of(where, text)
    table = read_table(_KitchenTable, found, places, *_double_names(found, places))
    return Kitchen(
        title=table.title,
        room=measure(table.room, "degF"),
        cooks=tuple(_cook(each) for each in table.cooks),
        burners=Burners(
            table.burners.count, measure(table.burners.power, "watt"), table.burners.kind
        ),
        ovens=tuple(
            Oven(
                "oven" if len(table.ovens) == 1 else f"oven:{number}",
                each.shelves,
                round(float(measure(each.warm_up, "minute").magnitude)),
            )
            for number, each in enumerate(table.ovens, 1)
        ),
        slow_cookers=_vessels(table.slow_cookers, "quart"),
        skillets=_vessels(table.skillets, "inch"),
        pots=_vessels(table.pots, "quart"),
        boards={"produce": table.boards.produce, "raw": table.boards.raw},
        refrigerator=_cold(table.refrigerator),
        freezer=_cold(table.freezer),
        ice_baths=table.cooling.ice_baths,
        ice=measure(table.cooling.ice, "pound"),
        ice_pans=table.cooling.ice_pans,
        **_told_of(
            sheet_pans=_pans(table.sheet_pans),
            baking_dishes=_pans(table.baking_dishes),
        ),
    )


def _double_names(found: Mapping[str, Any], places: Places) -> list[Complaint]:
    """Cooks of one name, whatever else is wrong with the file."""
    cooks = found.get("cooks")
    entries = cooks if isinstance(cooks, list) else []
    called: dict[str, tuple[list[str], list[str]]] = {}
    for number, each in enumerate(entries):
        name = each.get("name") if isinstance(each, Mapping) else None
        if isinstance(name, str):
            where, names = called.setdefault(_id(name), ([], []))
            where.append(places.at("cooks", number, "name"))
            names.append(name)
    return [
        Complaint(
            where[-1],
            f"{len(where)} cooks are called {names[-1]!r}",
            "a name of its own for each; small and capital letters count alike",
        )
        for where, names in called.values()
        if len(where) > 1
    ]


def _cook(table: _CookTable) -> KitchenCook:
    away = tuple(Away(clock(each.from_), clock(each.to), each.why) for each in table.away)
    return KitchenCook(_id(table.name), table.name, frozenset(table.skills), away)


def _id(name: str) -> str:
    return name.lower().replace(" ", "-")


def _vessels(tables: Sequence[_QuartsTable | _InchesTable], unit: str) -> tuple[Vessels, ...]:
    """Vessels of one kind, equal sizes together, the largest first."""
    counts: Counter[float] = Counter()
    for table in tables:
        counts[round(float(measure(table.size, unit).magnitude), 2)] += table.count
    return tuple(
        Vessels(ureg.Quantity(size, unit), counts[size]) for size in sorted(counts, reverse=True)
    )


def _told_of(**pans: tuple[Pans, ...] | None) -> dict[str, Any]:
    """Those that the file has a word on; of the others there are as many as usual."""
    return {key: each for key, each in pans.items() if each is not None}


def _pans(tables: Sequence[_PanTable] | None) -> tuple[Pans, ...] | None:
    """Pans of one kind, equal sizes together, the largest first; None where nothing is said."""
    if tables is None:
        return None
    counts: Counter[tuple[Quantity, Quantity]] = Counter()
    for table in tables:
        size = read_size(table.size)
        if size is not None:  # as the table has checked
            counts[size] += table.count
    found = [Pans(width, length, count) for (width, length), count in counts.items()]
    return tuple(sorted(found, key=lambda each: -each.area))


def _cold(table: _RefrigeratorTable | _FreezerTable) -> ColdStore:
    """A refrigerator or freezer; one with no capacity given is as large as its free space."""
    free = measure(table.free, "cubic_foot")
    capacity = free if table.capacity is None else measure(table.capacity, "cubic_foot")
    return ColdStore(capacity, free, measure(table.temperature, "degF"))
