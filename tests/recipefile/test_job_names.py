"""Names in a recipe that would make two jobs one."""

from __future__ import annotations

import datetime as dt
import tomllib
from pathlib import Path

import pytest
from planned_days import day_of, starter
from test_recipe_reading import as_file, complaints_about

from batchcook.cookbook import starter_folder
from batchcook.cookbooks.jobnames import OWN_JOBS, slug
from batchcook.day.tonight import Tonight, with_dinner
from batchcook.day.workday import dishes_of
from batchcook.dishwork.dishes import dish_work
from batchcook.replan.dropping import clearing_job

SOUP = starter_folder() / "squash-red-lentil-soup.toml"


def _renamed(step: int, name: str) -> str:
    """The soup with one step called otherwise."""
    tables = tomllib.loads(SOUP.read_text("utf-8"))
    old = tables["steps"][step]["name"]
    tables["steps"][step]["name"] = name
    for each in tables["steps"]:
        each["after"] = [name if before == old else before for before in each.get("after", [])]
    return as_file(tables)


@pytest.mark.parametrize("name", sorted(OWN_JOBS | {"cut/onion", "put away"}))
def test_a_step_is_not_called_like_a_job_of_every_dish(name: str) -> None:
    (found,) = complaints_about(_renamed(0, name), Path("soup.toml"))
    assert f"no step can be called {name!r}" in str(found)
    assert "steps" in found.where


def test_two_steps_differ_in_more_than_blanks() -> None:
    steps = tomllib.loads(SOUP.read_text("utf-8"))["steps"]
    at, name = next((at, each["name"]) for at, each in enumerate(steps) if " " in each["name"])
    other = 0 if at else 1
    (found,) = complaints_about(_renamed(other, name.replace(" ", "-")), Path("soup.toml"))
    assert "the same name but for blanks and hyphens" in found.what


def test_a_step_is_not_called_like_a_part_of_another() -> None:
    tables = tomllib.loads(SOUP.read_text("utf-8"))
    (found,) = complaints_about(
        _renamed(0, f"{tables['steps'][1]['name']}/load"), Path("soup.toml")
    )
    assert "reads as a part of the step" in found.what


def test_a_name_with_a_stroke_is_otherwise_fine() -> None:
    assert complaints_about(_renamed(0, "fry w/ butter"), Path("soup.toml")) == ()


def test_two_cut_ingredients_and_two_vessels_differ_in_more_than_blanks() -> None:
    tables = tomllib.loads(SOUP.read_text("utf-8"))
    cut = next(each for each in tables["ingredients"] if each.get("cut"))
    for name in ("one bowl", "one-bowl"):
        tables["ingredients"].append({**cut, "name": name})
        tables["steps"][0]["takes"].append(name)
    tables["vessels"]["tools"] = next(iter(tables["vessels"].values()))
    told = "\n".join(map(str, complaints_about(as_file(tables), Path("soup.toml"))))
    assert "'one-bowl' and 'one bowl' are the same name" in told
    assert "no vessel can be called 'tools'" in told


@pytest.mark.parametrize("name", sorted(starter()))
def test_every_job_that_is_no_step_has_a_reserved_name(name: str) -> None:
    recipe = starter()[name]
    day = day_of(**{name.replace("-", "_"): 1})
    (dish,) = dishes_of(day, [recipe])
    work = dish_work(dish, day.kitchen)
    if recipe.state == "cooked":
        work = with_dinner(work, Tonight(name, 1, dt.time(18)))
    steps = {slug(step.name) for step in recipe.steps}
    ids = [*(job.id for job in work.jobs), clearing_job(name)]
    heads = {each.split("/")[1] for each in ids}
    assert heads - steps <= OWN_JOBS
    assert len(ids) == len(set(ids))
