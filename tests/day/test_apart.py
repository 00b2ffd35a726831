"""What could be shared and is not: said with its dishes, and why."""

from __future__ import annotations

from dataclasses import replace

import pytest
from planned_days import day_of, planned, starter

from batchcook.day.apart import kept_apart
from batchcook.day.workday import day_work, dishes_of
from batchcook.dishwork.work import Work
from batchcook.documents.runsheet import run_sheet_html


def _work(*dishes: str) -> Work:
    """The work of a day of some starters; ``again`` is a cottage pie of another name."""
    pie = replace(starter()["cottage-pie"], id="again", title="Another pie")
    recipes = [pie if name == "again" else starter()[name] for name in dishes]
    day = replace(day_of(), orders={each.id: 1 for each in recipes})
    return day_work(dishes_of(day, recipes), day)


def _taken(work: Work, kind: str, place: int) -> dict[str, str]:
    """Every choice at its first option, those of one kind at another."""
    return {
        name: choice.options[place if name.startswith(kind) else 0]
        for name, choice in work.choices.items()
    }


@pytest.mark.parametrize(
    ("kind", "dishes", "said"),
    [
        ("how to boil", ("cottage-pie", "salmon-potato-cakes"), "Boil potatoes: each in its own"),
        ("how to soften", ("spinach-ricotta-shells", "turkey-meatballs"), "Soften onions: each"),
        ("how to cook-through", ("cottage-pie", "again"), "Cook through ground beef: each in its"),
    ],
)
def test_what_is_not_shared_is_named_with_its_dishes(
    kind: str, dishes: tuple[str, ...], said: str
) -> None:
    work = _work(*dishes)
    apart = [
        each
        for each in kept_apart(work, _taken(work, kind, 0), proved=True)
        if each.words.startswith(said)
    ]
    (found,) = apart
    assert set(found.dishes) == set(dishes)
    assert "the day would be longer" in found.words
    together = kept_apart(work, _taken(work, kind, 1), proved=True)
    assert not any(each.words.startswith(said) for each in together)


def test_where_the_day_is_not_proved_no_reason_is_made_up() -> None:
    work = _work("cottage-pie", "salmon-potato-cakes")
    (found,) = kept_apart(work, _taken(work, "", 0), proved=False)
    assert found.words.endswith("because no better day was found with them together.")


def test_the_run_sheet_tells_it_and_says_nothing_where_all_is_shared() -> None:
    plan = planned(sausage_lentil_soup=1, salmon_potato_cakes=1)
    assert "Not done together" not in run_sheet_html(plan.model_copy(update={"apart": ()}))
    work = _work("cottage-pie", "salmon-potato-cakes")
    apart = kept_apart(work, _taken(work, "", 0), proved=True)
    assert "Not done together" in run_sheet_html(plan.model_copy(update={"apart": apart}))
