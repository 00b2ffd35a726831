"""A short invented prep day: two cooks, a pot, an oven, a shared run, chicken to keep safe."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from typing import Literal

from batchcook.plan import (
    Bowl,
    Container,
    Cook,
    Deadline,
    Dish,
    Event,
    Lag,
    Occupancy,
    Plan,
    Resource,
    Setting,
    SharedRun,
    Summary,
    Task,
)

START = datetime(2027, 1, 16, 8, 0)  # noqa: DTZ001 - plans hold local wall-clock times

_SOUP, _PIE = "chicken-soup", "onion-pie"
_ANN, _BEN = "ann", "ben"


def at(minute: int) -> datetime:
    """An instant of the day."""
    return START + timedelta(minutes=minute)


def counter_day() -> Plan:
    """Ninety minutes: the chicken is out at 10 and on the heat at 30; the soup is packed at 90."""
    return Plan(
        date=date(2027, 1, 16),
        start=START,
        finish=at(90),
        summary=Summary(
            makespan_minutes=90,
            best_bound_minutes=90,
            proved_shortest=True,
            one_after_another_minutes=140,
            hands_on_minutes=125,
        ),
        cooks=(Cook(id=_ANN, name="Ann"), Cook(id=_BEN, name="Ben")),
        dishes=(_dish(_SOUP, "Chicken soup"), _dish(_PIE, "Onion pie")),
        resources=tuple(
            Resource(id=name, capacity=amount)
            for name, amount in (("cook:ann", 1), ("cook:ben", 1), ("burner", 2), ("oven", 1))
        ),
        tasks=_tasks(),
        lags=_lags(),
        occupancies=(
            Occupancy(resource="burner", amount=1, from_task="soup/fill", to_task="soup/season"),
        ),
        settings=(Setting(resource="oven", task="pie/bake", degF=375),),
        events=_events(),
        shared=(_run(),),
        deadlines=(
            _deadline(115, "soup/fill", "Chicken thigh: on the heat by 09:55, or throw it out"),
            _deadline(175, "soup/portion", "Chicken soup: cold by 10:55, or throw it out"),
        ),
        containers=tuple(_container(number) for number in range(1, 7)),
        cautions=("Check with a thermometer.",),
    )


def _dish(name: str, title: str) -> Dish:
    return Dish(id=name, title=title, batches=2, servings=12, state="cooked", makes="6 quarts")


def _tasks() -> tuple[Task, ...]:
    onions = "Dice onions"
    return (
        _task("day/clear", "Clear the counters", 0, 10, _ANN),
        _task("soup/onion", onions, 0, 15, _BEN, _SOUP, "2 cups", bowl="soup bowl", run="onions"),
        _task("pie/onion", onions, 15, 25, _BEN, _PIE, "3 cups", bowl="pie bowl", run="onions"),
        _wash("pie/onion", 25, 27, _BEN, "Wash board and knife"),
        _task("soup/chicken", "Cube the chicken", 10, 25, _ANN, _SOUP, "2 lb", bowl="raw bowl"),
        _wash("soup/chicken", 25, 30, _ANN, "Wash and sanitize board and knife"),
        _task("pie/fill", "Fill the pie", 27, 42, _BEN, _PIE),
        _task("oven/to-375", "Turn the oven to 375 degF", 30, 42, uses={"oven": 1}),
        _task("soup/fill", "Fill the soup pot", 30, 40, _ANN, _SOUP),
        _task("soup/simmer", "Simmer the soup", 40, 70, None, _SOUP),
        _task("pie/bake", "Bake the pie", 42, 72, None, _PIE, uses={"oven": 1}),
        _task("soup/season", "Season the soup", 70, 75, _ANN, _SOUP),
        _task("pie/out", "Take the pie out", 72, 75, _BEN, _PIE),
        _task("soup/portion", "Portion the soup into 6 tubs", 75, 90, _ANN, _SOUP),
        _task("day/close", "Close down", 75, 85, _BEN),
    )


def _task(
    name: str,
    title: str,
    start: int,
    end: int,
    cook: str | None = None,
    dish: str = "",
    amount: str = "2 batches",
    *,
    bowl: str = "",
    run: str | None = None,
    uses: dict[str, int] | None = None,
) -> Task:
    return Task(
        id=name,
        title=title,
        technique="preheat" if name.startswith("oven") else name.partition("/")[2],
        dishes={dish: amount} if dish else {},
        run=run,
        start=at(start),
        end=at(end),
        cook=cook,
        uses={**({f"cook:{cook}": 1} if cook else {}), **(uses or {})},
        bowl=bowl,
    )


def _wash(after: str, start: int, end: int, cook: str, title: str) -> Task:
    task = _task(f"{after}/clean-down", title, start, end, cook)
    return task.model_copy(update={"technique": "clean-down"})


def _lags() -> tuple[Lag, ...]:
    straight = (("soup/fill", "soup/simmer"), ("pie/fill", "pie/bake"))
    soon = (("soup/simmer", "soup/season"), ("pie/bake", "pie/out"))
    plain = (
        ("soup/onion", "soup/fill"),
        ("soup/chicken", "soup/fill"),
        ("pie/onion", "pie/fill"),
        ("oven/to-375", "pie/bake"),
        ("soup/season", "soup/portion"),
        ("soup/onion", "pie/onion"),
    )
    return (
        *(_lag(before, after, 0) for before, after in straight),
        *(_lag(before, after, 15, "ready, it keeps so long") for before, after in soon),
        *(_lag(before, after, None) for before, after in plain),
    )


def _lag(before: str, after: str, most: int | None, reason: str = "") -> Lag:
    return Lag(
        before=before,
        from_="end",
        after=after,
        to="start",
        min_minutes=0,
        max_minutes=most,
        reason=reason,
    )


def _events() -> tuple[Event, ...]:
    return (
        _event("raw-poultry", "out", 10, "soup/chicken"),
        _event("raw-poultry", "on-heat", 30, "soup/fill"),
        _event("cooked", "off-heat", 75, "soup/season"),
        _event("cooked", "refrigerated", 90, "soup/portion"),
    )


def _event(
    kind: str,
    event: Literal["out", "on-heat", "off-heat", "refrigerated"],
    minute: int,
    task: str,
) -> Event:
    return Event(dish=_SOUP, food="chicken thigh", kind=kind, event=event, at=at(minute), task=task)


def _run() -> SharedRun:
    return SharedRun(
        id="onions",
        title="Dice 5 cups onions",
        technique="dice",
        food="onion",
        cook=_BEN,
        start=at(0),
        end=at(27),
        bowls=(
            Bowl(name="soup bowl", dish=_SOUP, amount="2 cups", task="soup/onion", ready=at(15)),
            Bowl(name="pie bowl", dish=_PIE, amount="3 cups", task="pie/onion", ready=at(25)),
        ),
        minutes_saved=4,
    )


def _deadline(minute: int, task: str, words: str) -> Deadline:
    return Deadline(at=at(minute), dish=_SOUP, task=task, words=words)


def _container(number: int) -> Container:
    return Container(
        code=f"A{number}",
        dish=_SOUP,
        title="Chicken soup",
        portions=2,
        number=number,
        of=6,
        holds="quart tub",
        grams=900,
        state="cooked",
        packed_on=START.date(),
        best_by=date(2027, 3, 16),
        use_by=date(2027, 4, 16),
        storage_rows=("soup-or-stew",),
        thaw="either",
        thaw_days=1,
        keeps_thawed_days=3,
        finish="Reheat.",
        reheat_to_degF=165,
        add=(),
        allergens=(),
        from_frozen=True,
        refreeze="It may be frozen again.",
        cook_to_degF=None,
    )
