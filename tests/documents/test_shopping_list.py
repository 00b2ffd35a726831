"""The shopping list, as a page and as values."""

from __future__ import annotations

import csv
import io

from pdf_reading import words
from sample_plan import sample_plan

from batchcook.documents.shoppinglist import shopping_csv, shopping_html, shopping_pdf


def test_the_values_hold_one_line_a_food_with_dishes_by_name() -> None:
    plan = sample_plan()
    rows = list(csv.DictReader(io.StringIO(shopping_csv(plan))))
    assert [row["food"] for row in rows] == [line.food for line in plan.shopping]
    assert rows[0]["dishes"].split("; ") == [dish.title for dish in plan.dishes]
    assert [row["for"] for row in rows] == ["prep day", "prep day", "on the night"]


def test_what_is_bought_on_the_night_stands_on_a_list_of_its_own() -> None:
    before, _, after = shopping_html(sample_plan()).partition("Buy on the night")
    assert "parsley" not in before
    assert "parsley" in after


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
    assert "Buy on the night" not in shopping_html(plain)


def test_foods_stand_under_their_section_of_the_store() -> None:
    html = shopping_html(sample_plan())
    assert html.index("<h2>Produce") < html.index("onion") < html.index("<h2>Meat and fish")
