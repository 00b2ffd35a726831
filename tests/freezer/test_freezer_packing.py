from __future__ import annotations

import datetime as dt

import pytest

from batchcook.cli.freezer_asking import counts_of
from batchcook.complaints import InputFault
from batchcook.freezer.packing import details_of, dishes_made, main_ingredient, really_packed
from batchcook.plan import Container, Event, Plan, ShoppingLine, Summary

DAY = dt.date(2026, 1, 10)
AT = dt.datetime(2026, 1, 10, 8)  # noqa: DTZ001 - plans hold local wall-clock times


def container(code: str, dish: str, number: int, of: int) -> Container:
    return Container(
        code=code,
        dish=dish,
        title=dish.replace("-", " ").capitalize(),
        portions=4,
        number=number,
        of=of,
        holds="quart tub",
        grams=900,
        state="cooked",
        packed_on=DAY,
        best_by=dt.date(2026, 3, 10),
        use_by=dt.date(2026, 4, 10),
        storage_rows=("soup-or-stew",),
        thaw="refrigerator",
        thaw_days=1,
        keeps_thawed_days=3,
        finish="Warm it.",
        reheat_to_degF=165,
    )


def line(
    food: str, grams: int, *dishes: str, section: str = "meat", later: bool = False
) -> ShoppingLine:
    return ShoppingLine(
        food=food, section=section, amount="some", grams=grams, dishes=dishes, later=later
    )


def out(dish: str, food: str, kind: str) -> Event:
    return Event(dish=dish, food=food, kind=kind, event="out", at=AT, task="t")


PLAN = Plan(
    date=DAY,
    start=AT,
    finish=AT,
    summary=Summary(
        makespan_minutes=1,
        best_bound_minutes=1,
        proved_shortest=True,
        one_after_another_minutes=1,
        hands_on_minutes=1,
    ),
    cooks=(),
    dishes=(),
    resources=(),
    tasks=(),
    containers=(
        *(container(f"A{number}", "beef-stew", number, 3) for number in (1, 2, 3)),
        *(container(f"B{number}", "lentil-soup", number, 2) for number in (1, 2)),
    ),
    shopping=(
        line("beef chuck", 2000, "beef-stew"),
        line("bacon", 200, "beef-stew"),
        line("ground turkey", 500, "meatballs"),
        line("salmon fillet", 300, "chowder"),
        line("shrimp", 100, "chowder"),
        line("lentils, red", 600, "lentil-soup", section="dry goods"),
        line("onion", 500, "lentil-soup", section="produce"),
        line("vegetable broth", 3000, "lentil-soup", section="canned"),
        line("yogurt, plain", 900, "lentil-soup", section="dairy", later=True),
        line("spinach", 900, "egg-bake", section="produce"),
        line("egg", 600, "egg-bake", section="dairy"),
    ),
    events=(
        out("beef-stew", "beef chuck, load 1", "raw-beef"),
        out("meatballs", "ground turkey", "raw-ground-poultry"),
        out("chowder", "salmon fillet", "raw-fish-fatty"),
        out("egg-bake", "egg", "egg"),
    ),
)


def packed(made: dict[str, int], *without: str) -> list[str]:
    return [each.code for each in really_packed(PLAN, made, without)]


def test_all_of_them_unless_something_is_said() -> None:
    assert packed({}) == ["A1", "A2", "A3", "B1", "B2"]
    assert [(each.dish, each.planned) for each in dishes_made(PLAN)] == [
        ("beef-stew", 3),
        ("lentil-soup", 2),
    ]


def test_fewer_leave_the_last_labels_over() -> None:
    assert packed({"beef-stew": 2}) == ["A1", "A2", "B1", "B2"]
    assert packed({"beef-stew": 0}) == ["B1", "B2"]


def test_more_carry_on_the_numbers() -> None:
    assert packed({"lentil-soup": 4}) == ["A1", "A2", "A3", "B1", "B2", "B3", "B4"]


def test_another_label_left_over_is_named() -> None:
    assert packed({}, "a1") == ["A2", "A3", "B1", "B2"]
    assert packed({"beef-stew": 2}, "A1") == ["A2", "A3", "B1", "B2"]


def test_everything_wrong_is_told_at_once() -> None:
    with pytest.raises(InputFault) as raised:
        packed({"beef-stewe": 2, "curry": 1}, "C9")
    assert [each.where for each in raised.value.complaints] == ["beef-stewe", "curry", "C9"]
    assert raised.value.complaints[0].suggestion == "beef-stew"


def test_a_number_that_contradicts_the_labels_left_over_is_refused() -> None:
    with pytest.raises(InputFault, match="3 made, but 1 of 3 labels left over"):
        packed({"beef-stew": 3}, "A1")


@pytest.mark.parametrize(
    ("dish", "main"),
    [
        ("beef-stew", "beef"),
        ("meatballs", "turkey"),
        ("chowder", "fish"),
        ("egg-bake", "egg"),
        ("lentil-soup", "lentils"),
        ("nowhere", ""),
    ],
)
def test_the_main_ingredient_is_the_heaviest_meat_or_else_the_heaviest_food(
    dish: str, main: str
) -> None:
    assert main_ingredient(PLAN, dish) == main


def test_more_than_anybody_makes_is_refused() -> None:
    assert len(packed({"lentil-soup": 99, "beef-stew": 0})) == 99
    with pytest.raises(InputFault, match="beef-stew: 100000 containers, 3 planned; expected 0 to"):
        packed({"beef-stew": 100_000})
    with pytest.raises(InputFault, match="0 to 99"):
        packed({"beef-stew": 100})
    with pytest.raises(InputFault, match="cannot be read"):
        counts_of([f"beef-stew={'9' * 5000}"])


def test_the_journal_keeps_what_the_label_says() -> None:
    kept = details_of(PLAN.containers[0], PLAN)
    assert (kept["code"], kept["best_by"], kept["use_by"]) == ("A1", "2026-03-10", "2026-04-10")
    assert (kept["main"], kept["keeps_thawed_days"]) == ("beef", 3)


def test_of_a_raw_kit_it_keeps_the_temperature_to_reach() -> None:
    kit = PLAN.containers[0].model_copy(update={"state": "raw-kit", "cook_to_degF": 165})
    assert details_of(kit, PLAN)["cook_to_fahrenheit"] == 165
    assert details_of(PLAN.containers[0], PLAN)["cook_to_fahrenheit"] is None


def bought(food: str, section: str, grams: int, *dishes: str) -> ShoppingLine:
    return ShoppingLine(food=food, section=section, amount="", grams=grams, dishes=dishes)


def test_onions_of_a_whole_day_are_nobodys_main_ingredient() -> None:
    lines = (
        bought("onion", "produce", 1870, "chili", "dal", "bake"),
        bought("diced tomatoes, canned", "canned and jarred", 1600, "chili"),
        bought("black beans, canned", "canned and jarred", 1500, "chili"),
        bought("coconut milk", "canned and jarred", 900, "dal"),
        bought("cauliflower", "produce", 1200, "bake", "dal"),
        bought("elbow macaroni", "dry goods", 800, "bake"),
        bought("butternut squash", "produce", 1350, "soup"),
        bought("lentils, red", "dry goods", 800, "dal", "soup"),
    )
    day = PLAN.model_copy(update={"shopping": lines, "events": ()})
    assert main_ingredient(day, "chili") == "beans"
    assert main_ingredient(day, "dal") == "lentils"
    assert main_ingredient(day, "soup") == "butternut squash"
    # Of the cauliflower, shared by two dishes, it has half.
    assert main_ingredient(day, "bake") == "elbow macaroni"


def test_ice_to_cool_a_dish_in_is_no_main_ingredient() -> None:
    ice = ShoppingLine(
        food="ice", section="frozen", amount="9 kg", grams=9000, dishes=("lentil-soup",)
    )
    iced = PLAN.model_copy(update={"shopping": (*PLAN.shopping, ice)})
    assert main_ingredient(iced, "lentil-soup") == "lentils"


def test_the_long_end_of_its_chart_is_kept_less_the_days_that_it_waited() -> None:
    # Soups and stews, 3 to 4 days: FoodSafety.gov, Cold Food Storage Chart.
    stew = container("A1", "beef-stew", 1, 1)
    assert details_of(stew, PLAN)["keeps_thawed_at_most"] == 4
    waited = {"frozen_on": DAY + dt.timedelta(days=2), "keeps_thawed_days": 1}
    assert details_of(stew.model_copy(update=waited), PLAN)["keeps_thawed_at_most"] == 2
    unsaid = stew.model_copy(update={"keeps_thawed_days": 2})
    assert details_of(unsaid, PLAN)["keeps_thawed_at_most"] == 3
    unknown = stew.model_copy(update={"storage_rows": ()})
    assert details_of(unknown, PLAN)["keeps_thawed_at_most"] == 3
