"""The shopping list, as a page and as values."""

from __future__ import annotations

import csv
import io

from pdf_reading import words
from sample_plan import sample_plan

from batchcook.buying.pantry import parse_have
from batchcook.buying.purchases import shopping_list
from batchcook.documents.shoppinglist import shopping_csv, shopping_html, shopping_pdf
from batchcook.plan import Plan


def _rows(plan: Plan) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(shopping_csv(plan))))


def test_the_values_hold_one_line_a_food_with_dishes_by_name() -> None:
    plan = sample_plan()
    rows = [each for each in _rows(plan) if each["for"] != "packing"]
    assert [row["food"] for row in rows] == [line.food for line in plan.shopping]
    assert rows[0]["dishes"].split("; ") == [dish.title for dish in plan.dishes]
    assert [row["for"] for row in rows] == ["prep day", "prep day", "on the night"]


def test_what_is_bought_on_the_night_stands_on_a_list_of_its_own() -> None:
    before, _, after = shopping_html(sample_plan()).partition("Buy fresh for the night")
    assert "parsley" not in before
    assert "parsley" in after


def test_what_keeps_is_not_told_to_be_bought_fresh_on_the_night() -> None:
    plan = sample_plan()
    parsley = next(line for line in plan.shopping if line.later)
    nights = [
        parsley.model_copy(update={"food": food, "section": section})
        for food, section in (
            ("rice, white", "dry goods"),
            ("spaghetti", "dry goods"),
            ("parmesan", "dairy and eggs"),
            ("green peas, frozen", "frozen"),
        )
    ]
    many = plan.model_copy(update={"shopping": (*plan.shopping, *nights)})
    _, _, after = shopping_html(many).partition("Buy fresh for the night")
    fresh, _, kept = after.partition("Have in the house by then")
    for word in ("rice", "spaghetti", "Parmesan", "peas"):
        assert word.lower() not in fresh.lower()
        assert word.lower() in kept.lower()
    assert "parsley" in fresh


def test_the_list_of_the_night_says_what_one_container_wants() -> None:
    said = words(shopping_pdf(sample_plan()))
    assert "Bean and barley soup, each quart tub (serves 2): 1 tbsp parsley (chopped)" in said


def test_a_day_that_adds_nothing_on_the_night_has_no_such_list() -> None:
    plan = sample_plan()
    plain = plan.model_copy(
        update={
            "shopping": tuple(line for line in plan.shopping if not line.later),
            "containers": tuple(each.model_copy(update={"add": ()}) for each in plan.containers),
        }
    )
    assert "For the nights" not in shopping_html(plain)


def test_foods_stand_under_their_section_of_the_store() -> None:
    html = shopping_html(sample_plan())
    assert html.index("<h2>Produce") < html.index("onion") < html.index("<h2>Not before Mon 11 Jan")


def test_the_list_says_packs_and_what_they_are_for() -> None:
    said = words(shopping_pdf(sample_plan()))
    assert "2 bags of 3 lb onion" in said
    assert "for 5 3/4 lb" in said


def test_fresh_meat_stands_under_the_first_day_on_which_it_is_bought() -> None:
    html = shopping_html(sample_plan())
    assert html.index("<h2>Not before Mon 11 Jan 2027") < html.index("beef chuck")


def test_what_is_at_home_is_taken_off_and_told() -> None:
    plan = sample_plan()
    said = words(
        shopping_pdf(plan, bought=shopping_list(plan, parse_have(["onion 6 lb", "quart tub 8"])))
    )
    assert "At home already: onions (5 3/4 lb (about 22 medium))" in said
    assert "32 quart tubs with lids for 40; at home: 8" in said


def test_the_values_count_the_containers() -> None:
    packing = [each for each in _rows(sample_plan()) if each["for"] == "packing"]
    assert [(each["food"], each["buy"]) for each in packing] == [("quart tubs with lids", "40")]
