"""A believable prep day for the tests of what is printed; invented throughout."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from batchcook.plan import (
    Absence,
    Bowl,
    Container,
    Cook,
    Deadline,
    Dish,
    Lag,
    NightAddition,
    Occupancy,
    Plan,
    Resource,
    SharedRun,
    ShoppingLine,
    Summary,
    Task,
)

DAY = date(2027, 1, 16)
START = datetime(2027, 1, 16, 8, 0)  # noqa: DTZ001 - plans hold local wall-clock times

TITLES = (
    "Bean and barley soup",
    "Chicken and rice stew",
    "Tomato beef sauce",
    "Lentil and spinach bake",
    "Lemon chicken kit",
    "Pork and apple pot",
    "Mushroom pie filling",
    "Fish cakes with dill",
    "Squash curry",
    "Turkey chili",
)


@dataclass
class _Clock:
    """The next free minute of each cook."""

    minute: list[int]

    def take(self, cook: int, minutes: int) -> tuple[datetime, datetime]:
        start = self.minute[cook]
        self.minute[cook] += minutes
        return START + timedelta(minutes=start), START + timedelta(minutes=start + minutes)


def sample_plan(dishes: int = 5, cooks: int = 2, words: str = "") -> Plan:
    """A day with that many dishes and cooks.

    Args:
        dishes: From 1 to 10; five make some eighty tasks.
        cooks: From 1.
        words: What is said of every pot besides, to try long texts.
    """
    kinds = [
        Dish(
            id=title.lower().replace(" ", "-"),
            title=title,
            batches=2,
            servings=16,
            state="raw-kit" if "kit" in title else "cooked",
            makes="6 quarts",
        )
        for title in TITLES[:dishes]
    ]
    names = [f"cook-{number + 1}" for number in range(cooks)]
    clock = _Clock([0] * cooks)
    tasks = [_task("set-up", "Clear the counters, fill the sink", clock.take(0, 10), names[0])]
    run, parts = _shared(kinds, clock, names[0])
    tasks += parts
    lags: list[Lag] = []
    for number, dish in enumerate(kinds):
        cook = number % cooks
        made = list(_dish(dish, clock, cook, names[cook], words))
        tasks += made
        lags += [_lag(before, after) for before, after in itertools.pairwise(made)]
    tasks.sort(key=lambda task: (task.start, task.end, task.id))
    finish = max(task.end for task in tasks)
    length = int((finish - START).total_seconds() // 60)
    return Plan(
        date=DAY,
        start=START,
        finish=finish,
        summary=Summary(
            makespan_minutes=length,
            best_bound_minutes=length - 12,
            proved_shortest=False,
            one_after_another_minutes=length + 185,
            hands_on_minutes=sum(clock.minute),
            hands_on_by_cook=dict(zip(names, clock.minute, strict=True)),
            sharing_saved_minutes=24,
        ),
        cooks=tuple(Cook(id=name, name=f"Cook {number + 1}") for number, name in enumerate(names)),
        dishes=tuple(kinds),
        resources=(
            Resource(
                id="burner",
                capacity=max(4, dishes),
                away=(
                    Absence(
                        from_=START + timedelta(minutes=60),
                        to=START + timedelta(minutes=90),
                        amount=1,
                    ),
                ),
            ),
            Resource(id="oven", capacity=4),
            *(Resource(id=f"cook:{name}", capacity=1) for name in names),
        ),
        tasks=tuple(tasks),
        lags=tuple(lags),
        occupancies=tuple(
            Occupancy(
                resource="burner",
                amount=1,
                from_task=f"{dish.id}/soften",
                to_task=f"{dish.id}/season",
            )
            for dish in kinds
        ),
        shared=(run,),
        deadlines=tuple(
            Deadline(
                at=task.end + timedelta(minutes=40),
                dish=next(iter(task.dishes)),
                task=task.id,
                words=f"Cold by {task.end + timedelta(minutes=40):%H:%M}, or throw it out",
            )
            for task in tasks
            if task.technique == "portion"
        ),
        containers=tuple(
            container(dish=dish.id, title=dish.title, code=f"{letter}{number}", number=number)
            for letter, dish in zip("ABCDEFGHIJ", kinds, strict=False)
            for number in range(1, 9)
        ),
        shopping=(
            *(_bought("onion", "produce", "5 3/4 lb (about 22 medium)", kinds, grams=2608),),
            *(_bought("beef chuck", "meat and fish", "4 lb", kinds[:1]),),
            _bought("parsley", "produce", "1 bunch", kinds[:1], later=True),
        ),
        day_before=("Turn the freezer down to -10 degF.", "Clear room for the containers."),
        morning_after=("Stack what froze flat.",),
        cautions=("Check with a food thermometer.", "Follow current USDA FSIS guidance."),
    )


def container(
    dish: str = "bean-and-barley-soup",
    title: str = "Bean and barley soup",
    code: str = "A1",
    number: int = 1,
    **changes: object,
) -> Container:
    """A labelled container; ``changes`` are fields of :class:`batchcook.plan.Container`."""
    fields: dict[str, object] = {
        "code": code,
        "dish": dish,
        "title": title,
        "portions": 2,
        "number": number,
        "of": 8,
        "holds": "quart tub",
        "grams": 731,
        "state": "cooked",
        "packed_on": DAY,
        "best_by": date(2027, 3, 16),
        "use_by": date(2027, 4, 16),
        "storage_rows": ("soup-or-stew",),
        "thaw": "either",
        "thaw_days": 1,
        "keeps_thawed_days": 3,
        "finish": "15 min thawed, 35 min from frozen. Warm over medium-low heat with a splash of "
        "water, stirring, until 165 degF in the middle.",
        "reheat_to_degF": 165,
        "add": (NightAddition(food="parsley", amount="1 tbsp parsley", note="chopped"),),
        "allergens": ("milk", "wheat"),
    }
    return Container.model_validate(fields | changes)


def _task(
    id_: str,
    title: str,
    span: tuple[datetime, datetime],
    cook: str | None,
    **more: object,
) -> Task:
    fields: dict[str, object] = {
        "id": id_,
        "title": title,
        "technique": "clear",
        "start": span[0],
        "end": span[1],
        "cook": cook,
        "uses": {f"cook:{cook}": 1} if cook else {},
        "label": title,
    }
    return Task.model_validate(fields | more)


def _lag(before: Task, after: Task) -> Lag:
    return Lag(
        before=before.id, from_="end", after=after.id, to="start", min_minutes=0, max_minutes=None
    )


def _shared(dishes: list[Dish], clock: _Clock, cook: str) -> tuple[SharedRun, list[Task]]:
    """Onions for every dish, diced in one go."""
    parts = [
        _task(
            f"{dish.id}/cut/onion",
            "Dice onions",
            clock.take(0, 4),
            cook,
            technique="diced",
            run="onions-1",
            dishes={dish.id: "3 cups (480 g) onions"},
            bowl=f"bowl {number}",
        )
        for number, dish in enumerate(dishes, 1)
    ]
    wash = _task(
        "onions-1/clean-down",
        "Wash board and knife",
        clock.take(0, 2),
        cook,
        technique="clean-down",
        run="onions-1",
    )
    bowls = tuple(
        Bowl(
            name=part.bowl,
            dish=next(iter(part.dishes)),
            amount="3 cups (480 g) onions",
            task=part.id,
            ready=part.end,
        )
        for part in parts
    )
    run = SharedRun(
        id="onions-1",
        title="Dice 5 lb 4 oz onions",
        technique="diced",
        food="onion",
        cook=cook,
        start=parts[0].start,
        end=wash.end,
        bowls=bowls,
        minutes_saved=16,
    )
    return run, [*parts, wash]


def _dish(dish: Dish, clock: _Clock, cook: int, name: str, words: str) -> Iterator[Task]:
    """Cutting, browning, a pot that simmers by itself, portions, washing up."""

    def made(id_: str, title: str, minutes: int, **more: object) -> Task:
        given = {"dishes": {dish.id: "2 batches"}} | more
        return _task(f"{dish.id}/{id_}", title, clock.take(cook, minutes), name, **given)

    for food in ("carrots", "celery", "garlic", "leeks"):
        yield made(
            f"cut/{food}",
            f"Dice {food}",
            5,
            technique="diced",
            dishes={dish.id: f"2 cups {food}"},
            bowl="big bowl",
        )
    yield made("cut/meat", "Cube the meat", 8, technique="cubed", bowl="raw bowl")
    yield made(
        "cut/meat/clean-down",
        "Wash and sanitize board and knife, wash hands 20 seconds",
        4,
        technique="clean-down",
    )
    yield made("brown/1", "Brown the meat, load 1 of 2", 8, uses={"burner": 1}, station="skillet")
    yield made("brown/2", "Brown the meat, load 2 of 2", 8, uses={"burner": 1}, station="skillet")
    yield made(
        "soften",
        "Soften the onion",
        6,
        words="Glassy.",
        amounts=("2 tbsp oil", "3 cups (480 g) onions"),
    )
    fill = made("fill", "Fill the pot", 4, words=f"Lid ajar. {words}".strip())
    yield fill
    yield _task(
        f"{dish.id}/simmer",
        f"Simmer the {dish.title.lower()}",
        (fill.end, fill.end + timedelta(minutes=40)),
        None,
        dishes={dish.id: "2 batches"},
        words="10 min to come up to heat, then 30 min",
        station="pot",
    )
    late = fill.end + timedelta(minutes=45)
    clock.minute[cook] = int((late - START).total_seconds() // 60)
    yield made("season", "Season", 3, words="Lightly.", amounts=("1 tsp salt, to taste",))
    yield made("portion", "Portion into 8 quart tubs", 10, technique="portion")
    yield made("wash", "Wash the pot", 3, technique="wash")


def _bought(
    food: str,
    section: str,
    amount: str,
    dishes: list[Dish],
    *,
    grams: int = 1000,
    later: bool = False,
) -> ShoppingLine:
    return ShoppingLine(
        food=food,
        section=section,
        amount=amount,
        grams=grams,
        dishes=tuple(dish.id for dish in dishes),
        later=later,
    )
