"""Tonight's dinner out of what is cooked: plated at a set time, hot."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, replace

from batchcook.complaints import Complaint, InputFault
from batchcook.dishwork.work import Job, Link, Moment, Work
from batchcook.scheduling.problem import Choice, Condition

__all__ = ["WARMING_AND_PLATING", "Tonight", "set_aside_words", "warmed_from", "with_dinner"]

_PLATING = 5
"""Minutes to plate a household's dinner: common practice, no source."""

_WARMING = 15
"""Minutes to bring a few portions from warm to 165 degF on a burner: common practice."""

WARMING_AND_PLATING = _WARMING + _PLATING
"""Minutes before dinner at which work for it begins at the latest."""

_FRESH = 30
"""Minutes that food waits covered, still hot from its pot or oven: common practice, no source."""

_FROM_THE_POT = "straight from the pot"
_WARMED = "warmed again"


@dataclass(frozen=True)
class Tonight:
    """So many portions of a dish are eaten at a time of the prep day itself."""

    dish: str
    portions: int
    at: dt.time


def with_dinner(work: Work, tonight: Tonight) -> Work:
    """The day with its dinner: from the pot if that is ready then, else warmed to 165 degF.

    What is eaten from the pot is plated before the rest of it is cooled or packed.

    Raises:
        InputFault: Nothing of the dish leaves heat that day, so it cannot be eaten from the pot.
    """
    dish = tonight.dish
    hot = _leaves_heat(work, dish)
    if not hot:
        what = f"nothing of {dish!r} comes off heat that day"
        raise InputFault(Complaint("tonight", what, "a dish that is cooked through"))
    choice = Choice(f"dinner of {dish}", (_FROM_THE_POT, _WARMED))
    fresh = (Condition(choice.id, frozenset({_FROM_THE_POT})),)
    warmed = (Condition(choice.id, frozenset({_WARMED})),)
    portions = f"{tonight.portions} portion{'s' if tonight.portions > 1 else ''}"
    plate = Job(
        id=f"{dish}/plate",
        title=f"Plate {portions} for dinner at {tonight.at:%H:%M}",
        technique="plate",
        minutes=_PLATING,
        hands=frozenset(),
        station="counter",
        label="Dinner",
        dishes={dish: portions},
        ends_at=tonight.at,
    )
    fill = replace(
        plate,
        id=f"{dish}/plate/warm/add",
        title=f"Put {portions} back on a burner",
        technique="warm",
        minutes=2,
        hands=frozenset({"hot pans"}),
        station="pot",
        label="Warm",
        uses={"burner": 1},
        when=warmed,
        ends_at=None,
    )
    warm = replace(
        fill,
        id=f"{dish}/plate/warm",
        title=f"Warm {portions} to 165 degF in the middle",
        minutes=_WARMING,
        hands=None,
    )
    portion = next(job for job in work.jobs if job.technique == "portion" and dish in job.dishes)
    links = [
        *(Link(each, plate.id, when=fresh) for each in _done_with(work, portion)),
        *(
            Link(
                each.job,
                plate.id,
                origin=each.anchor,
                high=_FRESH,
                when=fresh,
                reason="dinner is served hot",
            )
            for each in hot
        ),
        *(Link(plate.id, each, when=fresh) for each in (portion.id, *_cooling(work, portion))),
        Link(portion.id, fill.id),
        Link(fill.id, warm.id, high=0),
        Link(warm.id, plate.id, high=_PLATING, reason="dinner is served hot"),
    ]
    return replace(
        work,
        jobs=(*work.jobs, plate, fill, warm),
        links=(*work.links, *links),
        choices={**work.choices, choice.id: choice},
    )


def _done_with(work: Work, portion: Job) -> list[str]:
    """The jobs after which a dish is ready to be portioned, cooling it apart."""
    before = {link.before for link in work.links if link.after == portion.id}
    return sorted(before - set(_cooling(work, portion)))


def _cooling(work: Work, portion: Job) -> list[str]:
    """The jobs in which a dish is cooled before it is portioned."""
    before = {link.before for link in work.links if link.after == portion.id}
    return [job.id for job in work.jobs if job.technique == "cool" and job.id in before]


def _leaves_heat(work: Work, dish: str) -> list[Moment]:
    """When the finished dish comes off the heat, load by load."""
    last = {
        [moment for moment in stream.moments if moment.event == "off-heat"][-1]
        for stream in work.streams
        if stream.dish == dish and any(each.event == "off-heat" for each in stream.moments)
    }
    return sorted(last, key=lambda moment: moment.job)


def warmed_from(tonight: Tonight, date: dt.date) -> dt.datetime:
    """When what was kept for dinner goes on the heat, at the latest."""
    return dt.datetime.combine(date, tonight.at) - dt.timedelta(minutes=WARMING_AND_PLATING)


def set_aside_words(tonight: Tonight, title: str, warm: dt.datetime) -> str:
    """What to do where the day is over before dinner."""
    portions, them = ("portion", "it") if tonight.portions == 1 else ("portions", "them")
    return (
        f"Tonight: keep {tonight.portions} {portions} of {title} in the refrigerator; at "
        f"{warm:%H:%M} warm {them} to 165 degF in the middle, on the table at {tonight.at:%H:%M}."
    )
