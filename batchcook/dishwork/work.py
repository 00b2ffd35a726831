"""The work of a prep day before anything is scheduled: jobs, their order, what they keep.

Kitchen words on one side, scheduling data on the other: ``dishes.py`` and ``sharing.py`` write
these, ``formulation.py`` turns them into a scheduling problem.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final, Literal

from batchcook.quantities import Quantity
from batchcook.scheduling.problem import Anchor, Choice, Condition, Family

__all__ = [
    "CLOSING",
    "STRAIGHT_ON",
    "Bake",
    "Baths",
    "Job",
    "Keep",
    "Link",
    "Lot",
    "Moment",
    "Potful",
    "Spell",
    "Stream",
    "Sweat",
    "Work",
]

CLOSING = "day/cleanup"
"""The last job of every day."""

EventName = Literal["out", "on-heat", "off-heat", "held-hot", "refrigerated", "frozen"]


@dataclass(frozen=True)
class Bake:
    """What a job asks of an oven: half shelves, and temperatures in degF that suit it."""

    half_shelves: int
    lowest: int
    highest: int

    @property
    def own(self) -> int:
        """The recipe's own temperature."""
        return (self.lowest + self.highest) // 2


@dataclass(frozen=True)
class Job:
    """One piece of work.

    Attributes:
        minutes: How long it takes, set-up and clean-down of its family apart.
        hands: Skills its cook needs (possibly none); None where it goes by itself.
        uses: Resource id to amount, held from start to end; cooks and ovens are not among them.
        dishes: Dish id to the amount that this job handles for it, as text.
        amounts: What goes in, line by line, ready to print.
        family: The family of shared work it is a part of, or None.
        food: The one food it works on, where there is one.
        grams: Weight of that food.
        when: Choices under which it is done at all.
        ends_at: A time of day at which it has to end, neither before nor after.
        saves: Hands-on minutes by which it is shorter than what it stands for, done apart.
        bowls: Dish id to where its share goes, for work that is divided; ``bowl`` elsewhere.
    """

    id: str
    title: str
    technique: str
    minutes: int
    hands: frozenset[str] | None
    station: str
    label: str
    dishes: Mapping[str, str] = field(default_factory=dict)
    uses: Mapping[str, int] = field(default_factory=dict)
    words: str = ""
    amounts: tuple[str, ...] = ()
    bowl: str = ""
    family: str | None = None
    food: str = ""
    grams: float = 0.0
    oven: Bake | None = None
    when: tuple[Condition, ...] = ()
    ends_at: dt.time | None = None
    saves: int = 0
    bowls: Mapping[str, str] = field(default_factory=dict)


STRAIGHT_ON: Final = "browned but not cooked through"
"""How the reason begins of the one maximal lag that keeps food safe; the clocks are budgets."""


@dataclass(frozen=True)
class Link:
    """``low`` <= ``to`` of ``after`` less ``origin`` of ``before`` <= ``high``, in minutes."""

    before: str
    after: str
    low: int | None = 0
    high: int | None = None
    origin: Anchor = "end"
    to: Anchor = "start"
    weight: int = 0
    reason: str = ""
    when: tuple[Condition, ...] = ()


@dataclass(frozen=True)
class Lot:
    """What of a dish is in its pans at one time, or goes through hands or the oven together.

    Attributes:
        go: Which filling of the pans it is of.
        share: Its share of the dish.
        load: Which load of the oven it goes in with, or None where it goes into none.
        half_shelves: The half oven shelves that it takes.
    """

    go: int
    share: float
    load: int | None = None
    half_shelves: int = 0

    def joins(self, other: Lot) -> bool:
        """Whether it and a lot of a further step in the same pans are of the same food."""
        loads = {self.load, other.load} - {None}
        return self.go == other.go and len(loads) <= 1


@dataclass(frozen=True)
class Keep:
    """Vessels, burners or the like kept from the first start of ``fillers`` to ``until``'s end.

    ``options`` are the ways to meet it, each a mapping of resource id to amount; one is chosen
    for the whole time. Nothing is kept unless ``when`` holds.
    """

    id: str
    options: tuple[Mapping[str, int], ...]
    fillers: tuple[str, ...]
    until: str
    why: str
    when: tuple[Condition, ...] = ()


@dataclass(frozen=True)
class Moment:
    """A food changes between cold, out, and hot when a job starts or ends.

    ``straight`` marks heat that takes over from heat at once: the vessel is hot from this moment
    on, so where that was before the food came, the food is on heat without a break.
    """

    event: EventName
    job: str
    anchor: Anchor
    straight: bool = False


@dataclass(frozen=True)
class Stream:
    """The way of one food through the day, from the refrigerator and back to it."""

    dish: str
    food: str
    kind: str
    moments: tuple[Moment, ...]


@dataclass(frozen=True)
class Spell:
    """A time that food spends between 40 and 140 degF."""

    before: str
    origin: Anchor
    after: str
    to: Anchor


@dataclass(frozen=True)
class Potful:
    """What a dish boils in plain water, in a pot of its own, and drains.

    Attributes:
        food: Key of the one food that is boiled.
        cut: How it is cut, or None.
        seasoning: Keys of what goes into the water besides.
        minutes: How long it boils.
        grams: Its weight before it is boiled.
        volume: What the pot holds, water and all; ``vessel`` is what the recipe calls it.
        fill: The job that fills the pot, as are ``cook``, ``drain`` and ``wash`` those that follow.
        pot: Id of what keeps the pot; ``burner`` of what keeps the burner.
        bowl: Where the dish's share goes if it is divided.
        goes_on: The dish is made further in the same pot.
        dry: It goes into water that boils; everything else starts in cold water.
        leaves: The allergens it leaves in the water.
        holds: All allergens of the dish.
    """

    dish: str
    food: str
    cut: str | None
    seasoning: frozenset[str]
    minutes: int
    grams: float
    volume: Quantity
    vessel: str
    fill: str
    cook: str
    drain: str
    wash: str
    pot: str
    burner: str
    bowl: str
    goes_on: bool
    dry: bool
    leaves: frozenset[str]
    holds: frozenset[str]


@dataclass(frozen=True)
class Sweat:
    """Vegetables that a dish softens in fat, first of all in their pot.

    Attributes:
        base: What is softened from the start: food key and cut to grams.
        fats: The fats that they are softened in: food key to grams.
        last: What goes in for the last minute, line by line; ``last_grams`` is its weight.
        job: The softening; ``wash`` is the washing of its pot.
        cutting: The jobs that prepare the base.
        pot: Id of what keeps the pot; ``burner`` of what keeps the burner.
        volume: What the pot holds at its fullest; ``vessel`` is what the recipe calls it.
        bowl: Where the dish's share goes if it is divided.
        onward: The job that goes on with it on the heat in the same pot; None in another vessel.
        keeps_hot: Half-raw food goes straight into this pot, so it has to be hot by then.
    """

    dish: str
    base: Mapping[tuple[str, str | None], float]
    fats: Mapping[str, float]
    last: tuple[str, ...]
    last_grams: float
    job: str
    wash: str
    cutting: frozenset[str]
    pot: str
    burner: str
    volume: Quantity
    vessel: str
    bowl: str
    onward: str | None
    keeps_hot: bool


@dataclass(frozen=True)
class Baths:
    """How one dish loses its heat before it stands in the refrigerator.

    Attributes:
        tubs: How many baths stand side by side.
        spread: It is spread in shallow pans instead of standing in ice; a tub is of cold water.
    """

    tubs: int
    spread: bool = False


@dataclass(frozen=True)
class Work:
    """All the work of a day, or of one dish; ``baths`` is of each dish by its id."""

    jobs: tuple[Job, ...] = ()
    links: tuple[Link, ...] = ()
    keeps: tuple[Keep, ...] = ()
    streams: tuple[Stream, ...] = ()
    families: Mapping[str, Family] = field(default_factory=dict)
    choices: Mapping[str, Choice] = field(default_factory=dict)
    potfuls: tuple[Potful, ...] = ()
    sweats: tuple[Sweat, ...] = ()
    baths: Mapping[str, Baths] = field(default_factory=dict)

    def __add__(self, other: Work) -> Work:
        """Both together; families and choices of equal names are the same."""
        return Work(
            self.jobs + other.jobs,
            self.links + other.links,
            self.keeps + other.keeps,
            self.streams + other.streams,
            {**self.families, **other.families},
            {**self.choices, **other.choices},
            self.potfuls + other.potfuls,
            self.sweats + other.sweats,
            {**self.baths, **other.baths},
        )
