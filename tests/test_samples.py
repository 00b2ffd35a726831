"""The samples and the README say what is true now; ``python tests/samples.py`` renews them."""

import re
import sys
from functools import cache
from importlib import resources
from pathlib import Path

import pytest

from batchcook.cookbook import load_cookbook
from batchcook.day.prepday import load_prep_day
from batchcook.day.solving import Effort
from batchcook.day.workday import day_work, ordered_dishes
from batchcook.documents.runsheet import run_sheet_html
from batchcook.documents.shoppinglist import shopping_csv
from batchcook.plan import Plan, read_plan
from batchcook.planning import plan_day

sys.path.insert(0, str(Path(__file__).parent))

from samples import README, ROOT, SAMPLES, TERMINAL, printed, with_reference

PREP_DAY = SAMPLES / "prep-day"


@cache
def _kept() -> Plan:
    return read_plan(PREP_DAY)


@cache
def _anew() -> Plan:
    day = load_prep_day(ROOT / "recipes" / "sample-prep-day.toml")
    return plan_day(day, load_cookbook(), Effort(seconds=60))


def test_the_readme_lists_the_commands_as_they_are() -> None:
    readme = README.read_text("utf-8")
    assert with_reference(readme) == readme


def test_the_prep_day_in_the_readme_can_be_read_and_says_all_there_is_to_say(
    tmp_path: Path,
) -> None:
    (block,) = re.findall(r"```toml\n(.*?)```", README.read_text("utf-8"), re.DOTALL)
    (tmp_path / "our-day.toml").write_text(block, "utf-8")
    kitchen = resources.files("batchcook.data").joinpath("kitchen.toml").read_text("utf-8")
    (tmp_path / "our-kitchen.toml").write_text(kitchen, "utf-8")
    day = load_prep_day(tmp_path / "our-day.toml")
    assert day.tonight is not None
    assert [busy.why for busy in day.busy] == ["lunch"]
    assert day_work(ordered_dishes(day, load_cookbook()), day).jobs


@pytest.mark.parametrize("name", sorted(TERMINAL))
def test_what_commands_print_is_kept_as_they_print_it(name: str) -> None:
    assert printed(TERMINAL[name]) == (SAMPLES / name).read_text("utf-8")


def test_the_sample_day_is_still_as_long_and_proved() -> None:
    assert _anew().summary.proved_shortest
    assert _anew().summary.makespan_minutes == _kept().summary.makespan_minutes
    assert _anew().summary.one_after_another_minutes == _kept().summary.one_after_another_minutes


@pytest.mark.parametrize(
    "part", ["dishes", "resources", "containers", "shopping", "day_before", "cautions", "cooks"]
)
def test_what_the_solver_does_not_decide_is_the_same(part: str) -> None:
    assert getattr(_anew(), part) == getattr(_kept(), part)


def test_the_kept_paper_is_what_the_kept_plan_becomes() -> None:
    assert run_sheet_html(_kept()) == (PREP_DAY / "run-sheet.html").read_text("utf-8")
    assert shopping_csv(_kept()).encode() == (PREP_DAY / "shopping-list.csv").read_bytes()


def test_every_file_of_a_plan_folder_is_there() -> None:
    assert {each.name for each in PREP_DAY.iterdir()} >= {
        "plan.json",
        "run-sheet.html",
        "run-sheet.pdf",
        "labels.pdf",
        "shopping-list.pdf",
        "shopping-list.csv",
    }
