"""Bad input to the program itself: one clear message, the right exit code, nothing left behind."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from batchcook.cookbook import starter_folder

AT_FAULT, NO_ANSWER = 1, 3
ROOT = Path(__file__).parent.parent.parent

KITCHEN = """
[[cooks]]
name = "Mara"
{skills}
[burners]
count = 4
{oven}
[[skillets]]
size = "12 inch"
[[pots]]
size = "8 quart"
count = {pots}
[refrigerator]
free = "3 cubic_foot"
temperature = "37 degF"
[freezer]
free = "4 cubic_foot"
temperature = "0 degF"
"""
OVEN = "[[ovens]]\nshelves = 2\n"


class Told:
    """What the program said, and what it left."""

    def __init__(self, words: tuple[str, ...], folder: Path) -> None:
        done = subprocess.run(
            [sys.executable, "-m", "batchcook", *words],
            cwd=folder,
            env={**os.environ, "PYTHONPATH": str(ROOT), "COLUMNS": "120", "NO_COLOR": "1"},
            stdin=subprocess.DEVNULL,
            capture_output=True,
            text=True,
            check=False,
        )
        self.code = done.returncode
        self.error = done.stderr
        self.shown = done.stdout
        self.lines = done.stderr.strip().splitlines()
        self.out = folder / "out"

    def refuses(self, *parts: str, code: int = AT_FAULT, lines: int = 1) -> None:
        """It said these things in so many lines, without a traceback, and wrote nothing."""
        assert self.code == code, self.error
        assert "Traceback" not in self.error
        for part in parts:
            assert part in self.error
        assert len(self.lines) == lines, self.error
        assert not self.out.exists()
        assert not list(self.out.parent.glob(".out*"))


def _plan(folder: Path, *words: str) -> Told:
    return Told(("plan", *words, "--out", "out"), folder)


def _kitchen(folder: Path, *, skills: str = "", oven: str = OVEN, pots: int = 3) -> str:
    text = KITCHEN.format(skills=skills, oven=oven, pots=pots)
    (folder / "kitchen.toml").write_text(text, "utf-8")
    return "kitchen.toml"


def _own_recipe(folder: Path, old: str, new: str) -> str:
    text = (starter_folder() / "squash-red-lentil-soup.toml").read_text("utf-8")
    assert old in text
    (folder / "recipes").mkdir()
    (folder / "recipes" / "our-soup.toml").write_text(text.replace(old, new), "utf-8")
    return "recipes"


# ---- the order ----------------------------------------------------------------------------------


def test_an_unknown_recipe_is_answered_with_the_nearest(tmp_path: Path) -> None:
    _plan(tmp_path, "cotage-pie=2").refuses("'cotage-pie'", "Did you mean 'cottage-pie'?")


def test_all_unknown_recipes_are_told_at_once(tmp_path: Path) -> None:
    _plan(tmp_path, "cotage-pie", "beef-barley-stow").refuses("cottage-pie", "beef-barley", lines=2)


@pytest.mark.parametrize("count", ["0", "-3", "500", "two"])
def test_batches_out_of_reason_are_refused(tmp_path: Path, count: str) -> None:
    _plan(tmp_path, f"cottage-pie={count}").refuses("cottage-pie", "whole number")


def test_a_dish_named_twice_is_refused(tmp_path: Path) -> None:
    _plan(tmp_path, "cottage-pie", "cottage-pie=2").refuses("'cottage-pie' stands there twice")


def test_a_date_in_a_wrong_form_is_answered_with_the_right_one(tmp_path: Path) -> None:
    _plan(tmp_path, "cottage-pie", "--date", "16.01.2027").refuses("--date", "one like 2027-01-16")


def test_a_time_in_a_wrong_form_is_answered_with_the_right_one(tmp_path: Path) -> None:
    _plan(tmp_path, "cottage-pie", "--start", "8 o'clock").refuses("--start", "one like 08:30")


def test_a_finish_before_the_start_is_refused(tmp_path: Path) -> None:
    told = _plan(tmp_path, "cottage-pie", "--start", "10:00", "--finish-by", "09:00")
    told.refuses("09:00 is not after the start at 10:00")


def test_no_dishes_without_a_terminal_are_asked_for(tmp_path: Path) -> None:
    _plan(tmp_path).refuses("Name the dishes")


def test_a_prep_day_file_that_is_not_there_is_named(tmp_path: Path) -> None:
    _plan(tmp_path, "nowhere.toml").refuses("nowhere.toml", "cannot be read")


def test_every_fault_of_a_prep_day_file_is_told(tmp_path: Path) -> None:
    text = '[day]\ndate = "soon"\nbegin = "08:00"\n[dishes]\ncottage-pie = 2\n'
    (tmp_path / "day.toml").write_text(text, "utf-8")
    _plan(tmp_path, "day.toml").refuses("day.date", "begin", lines=2)


def test_an_unknown_paper_is_refused(tmp_path: Path) -> None:
    _plan(tmp_path, "lemon-herb-chicken-kit", "--paper", "a5").refuses("a5", "letter")


# ---- recipes ------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("old", "new", "parts"),
    [
        ('food = "onion"', 'food = "onoin"', ("'onoin'", "Did you mean 'onion'")),
        ('technique = "simmer"', 'technique = "simer"', ("'simer'", "Did you mean 'simmer'")),
        ('cut = "diced"', 'cut = "dicd"', ("'dicd'", "Did you mean 'diced'")),
        ("servings = ", "serves = 4\nservings = ", ("serves",)),
    ],
)
def test_a_fault_in_a_recipe_names_file_and_nearest_name(
    tmp_path: Path, old: str, new: str, parts: tuple[str, ...]
) -> None:
    folder = _own_recipe(tmp_path, old, new)
    told = _plan(tmp_path, "our-soup", "--recipes", folder)
    told.refuses("our-soup.toml", *parts, lines=len(told.lines))


def test_a_unit_that_is_none_is_refused(tmp_path: Path) -> None:
    folder = _own_recipe(tmp_path, ' cup"', ' cupful"')
    told = _plan(tmp_path, "our-soup", "--recipes", folder)
    told.refuses("our-soup.toml", "cupful", lines=len(told.lines))


def test_steps_that_wait_for_each_other_are_refused(tmp_path: Path) -> None:
    folder = _own_recipe(tmp_path, 'after = ["', 'after = ["season", "')
    told = _plan(tmp_path, "our-soup", "--recipes", folder)
    told.refuses("our-soup.toml", lines=len(told.lines))
    assert any(word in told.error for word in ("circle", "itself", "each other"))


# ---- kitchens -----------------------------------------------------------------------------------


def test_a_dish_that_bakes_is_refused_without_an_oven(tmp_path: Path) -> None:
    kitchen = _kitchen(tmp_path, oven="")
    _plan(tmp_path, "cottage-pie", "--kitchen", kitchen).refuses("no oven", "cottage-pie")


def test_raw_meat_is_refused_where_no_cook_may_touch_it(tmp_path: Path) -> None:
    kitchen = _kitchen(tmp_path, skills='skills = ["knife", "hot pans", "oven"]')
    told = _plan(tmp_path, "beef-barley-stew", "--kitchen", kitchen)
    told.refuses("no cook", "'raw meat'", lines=len(told.lines))


def test_more_than_the_slow_cookers_take_is_refused_with_how_much_they_do(tmp_path: Path) -> None:
    _plan(tmp_path, "cider-pulled-pork=2").refuses(
        "no slow cookers", "4 quarts", "1 batch, or 1 more slow cooker of 6 quarts"
    )


def test_a_file_of_times_that_is_not_there_is_not_taken_for_an_empty_one(tmp_path: Path) -> None:
    _plan(tmp_path, "cottage-pie", "--pace", "my-pace.toml").refuses("my-pace.toml", "no such file")


def test_more_than_the_pots_hold_is_refused(tmp_path: Path) -> None:
    kitchen = _kitchen(tmp_path, pots=1)
    told = _plan(tmp_path, "sausage-lentil-soup=4", "--kitchen", kitchen)
    told.refuses("no pots", "a batch less", lines=len(told.lines))


def test_a_kitchen_file_that_is_not_there_is_named(tmp_path: Path) -> None:
    _plan(tmp_path, "cottage-pie", "--kitchen", "none.toml").refuses("none.toml")


# ---- where it is written ------------------------------------------------------------------------


def test_a_file_in_place_of_the_folder_is_refused_and_left_alone(tmp_path: Path) -> None:
    (tmp_path / "out").write_text("mine", "utf-8")
    told = _plan(tmp_path, "cottage-pie")
    assert told.code == AT_FAULT
    assert "is a file" in told.error
    assert len(told.lines) == 1
    assert (tmp_path / "out").read_text("utf-8") == "mine"


def test_a_folder_that_cannot_be_made_is_refused_before_the_search(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", "utf-8")
    told = Told(("plan", "cottage-pie", "--out", "file/out"), tmp_path)
    told.refuses("cannot be written")


@pytest.mark.skipif(os.geteuid() == 0, reason="root may write anywhere")
def test_a_folder_without_leave_to_write_is_refused(tmp_path: Path) -> None:
    shut = tmp_path / "shut"
    shut.mkdir(mode=0o500)
    told = Told(("plan", "cottage-pie", "--out", "shut/out"), tmp_path)
    told.refuses("cannot be written")


# ---- no answer ----------------------------------------------------------------------------------


def test_a_search_that_runs_out_of_time_has_its_own_message_and_code(tmp_path: Path) -> None:
    dishes = [f"{path.stem}=1" for path in sorted(starter_folder().glob("*.toml"))]
    many = [each for each in dishes if "prep-day" not in each and "ragu" not in each]
    told = _plan(tmp_path, *many, "--seconds", "0.1")
    told.refuses("No plan was found in 0.1 seconds", "--seconds", code=NO_ANSWER)


def test_a_day_that_is_too_short_is_refused_as_impossible(tmp_path: Path) -> None:
    told = _plan(tmp_path, "cider-pulled-pork", "--start", "08:00", "--finish-by", "10:00")
    told.refuses("cannot be done", lines=len(told.lines))


def test_wrong_options_are_one_message(tmp_path: Path) -> None:
    told = _plan(tmp_path, "cottage-pie", "--burners", "3")
    told.refuses("batchcook plan: No such option: --burners", "see batchcook plan --help")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("recipes show soup --batches 13", "'13' does not fit here; expected a number, 1 to 12"),
        ("labels day --copies x", "--copies: 'x' does not fit here; expected a whole number"),
        ("freezer thaw A1 --by microwav", "Did you mean 'microwave'?; see batchcook freezer thaw"),
        ("plan cottage-pie=", "'cottage-pie=' has '' batches; expected a whole number"),
    ],
)
def test_a_value_that_does_not_fit_is_told_in_our_own_words(
    tmp_path: Path, words: str, said: str
) -> None:
    Told(tuple(words.split()), tmp_path).refuses(said)


def test_an_option_that_is_missing_is_one_message(tmp_path: Path) -> None:
    told = Told(("suggest", "--until", "2027-02-28"), tmp_path)
    told.refuses("batchcook suggest: Missing option '--nights'")


def test_help_is_still_help(tmp_path: Path) -> None:
    told = Told(("suggest", "--help"), tmp_path)
    assert (told.code, told.error) == (0, "")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (f"servings = {'9' * 5000}\n", "more figures than can be read"),
        (f"servings = {'[' * 3000}{']' * 3000}\n", "deeper than can be read"),
    ],
)
def test_a_file_that_cannot_be_read_at_all_is_told(tmp_path: Path, text: str, said: str) -> None:
    (tmp_path / "soup.toml").write_text(text, "utf-8")
    Told(("recipes", "check", "soup.toml"), tmp_path).refuses("soup.toml", said)


def test_a_path_that_is_too_long_is_told(tmp_path: Path) -> None:
    Told(("recipes", "check", "x" * 5000), tmp_path).refuses("name too long")


def test_titles_with_brackets_are_shown_as_they_are(tmp_path: Path) -> None:
    text = (starter_folder() / "squash-red-lentil-soup.toml").read_text("utf-8")
    titled = text.replace('title = "', 'title = "[/x] :egg: ', 1)
    (tmp_path / "soup.toml").write_text(titled, "utf-8")
    for words in (("list",), ("show", "soup")):
        done = Told(("recipes", *words, "--recipes", "."), tmp_path)
        assert done.code == 0, done.error
        assert "[/x] :egg:" in done.shown
