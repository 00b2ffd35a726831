from __future__ import annotations

import re
from pathlib import Path

import pytest

from batchcook.complaints import Complaint, InputFault
from batchcook.cookbook import (
    check_recipes,
    find_recipe,
    load_cookbook,
    load_recipe,
    recipe_files,
    starter_folder,
    summaries,
)
from batchcook.quantities import ureg

SOUP = """\
title = "Plain soup"
summary = "Enough to test with."
servings = 4
makes = "6 cup"
state = "cooked"
form = "soup-or-stew"
container = "quart tub"
portions_per_container = 2
stored_as = ["soup-or-stew"]
cool = "liquid"

[vessels]
"soup pot" = { kind = "pot", holds = "2 quart" }

[[ingredients]]
food = "onion"
amount = "2 cup"
cut = "diced"

[[ingredients]]
food = "chicken broth"
amount = "5 cup"

[[steps]]
name = "soften"
technique = "sweat"
takes = ["onion"]
in = "soup pot"
words = "Soften it."

[[steps]]
name = "simmer"
technique = "simmer"
takes = [
  "chicken broth",
]
after = ["soften"]
in = "soup pot"
minutes = 20
words = "Simmer it."

[night]
thaw = "either"
finish = "Warm it through."
"""


def faults(text: str, tmp_path: Path) -> list[Complaint]:
    path = tmp_path / "plain-soup.toml"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(InputFault) as caught:
        load_recipe(path)
    return list(caught.value.complaints)


def only_fault(text: str, tmp_path: Path) -> Complaint:
    found = faults(text, tmp_path)
    assert len(found) == 1, [str(each) for each in found]
    return found[0]


def line_of(part: str) -> int:
    return next(at for at, line in enumerate(SOUP.splitlines(), 1) if part in line)


def test_a_sound_file_becomes_a_recipe_with_quantities(tmp_path: Path) -> None:
    path = tmp_path / "plain-soup.toml"
    path.write_text(SOUP, encoding="utf-8")
    recipe = load_recipe(path)
    assert recipe.id == "plain-soup"
    assert recipe.makes.to("quart") == ureg.Quantity(1.5, "quart")
    assert recipe.ingredient("onion").cut == "diced"
    assert recipe.step("simmer").after == ("soften",)
    assert recipe.step("simmer").vessel == "soup pot"
    assert recipe.vessels["soup pot"].holds == ureg.Quantity(2, "quart")


def test_asking_a_recipe_for_a_step_or_ingredient_it_lacks_is_a_key_error(tmp_path: Path) -> None:
    path = tmp_path / "plain-soup.toml"
    path.write_text(SOUP, encoding="utf-8")
    recipe = load_recipe(path)
    with pytest.raises(KeyError):
        recipe.step("bake")
    with pytest.raises(KeyError):
        recipe.ingredient("leek")


def test_faults_of_every_stage_are_shown_at_once(tmp_path: Path) -> None:
    text = (
        SOUP.replace('makes = "6 cup"', 'makes = "6 cupp"')
        .replace('food = "onion"', 'food = "onoin"')
        .replace('technique = "sweat"', 'technique = "sweet"')
        .replace('in = "soup pot"\nminutes = 20', 'in = "soup pit"\nminutes = "20"')
        .replace('thaw = "either"', 'thaw = "ether"')
        .replace('cool = "liquid"', 'cool = "liquid"\nsevings = 4')
    )
    found = faults(text, tmp_path)
    told = "\n".join(map(str, found))
    for part in ("makes", "onoin", "sweet", "soup pit", "minutes", "ether", "sevings"):
        assert part in told
    assert {each.suggestion for each in found} >= {
        "onion",
        "sweat",
        "soup pot",
        "either",
        "servings",
    }


def test_faults_come_in_the_order_of_the_file(tmp_path: Path) -> None:
    text = (
        SOUP.replace('thaw = "either"', 'thaw = "ether"')
        .replace("minutes = 20\n", "")
        .replace('container = "quart tub"', 'container = "tub"')
    )
    places = [each.where.split(", ")[1].split(" ")[0] for each in faults(text, tmp_path)]
    assert places == ["container", "steps[2]", "night.thaw"]


def test_a_misspelt_key_is_not_also_said_to_be_missing(tmp_path: Path) -> None:
    fault = only_fault(SOUP.replace("summary =", "sumary ="), tmp_path)
    assert fault.suggestion == "summary"


def test_a_food_misspelt_alike_in_its_step_is_told_once(tmp_path: Path) -> None:
    fault = only_fault(SOUP.replace('"onion"', '"onoin"'), tmp_path)
    assert fault.suggestion == "onion"


def test_part_of_a_name_suggests_the_first_that_holds_it(tmp_path: Path) -> None:
    fault = only_fault(SOUP.replace('container = "quart tub"', 'container = "tub"'), tmp_path)
    assert fault.suggestion == "pint tub"


def test_broken_toml_names_the_line(tmp_path: Path) -> None:
    fault = only_fault(SOUP.replace("servings = 4", "servings 4"), tmp_path)
    assert "line 3" in fault.what


def test_a_name_in_a_list_over_several_lines_has_the_line_on_which_the_list_begins(
    tmp_path: Path,
) -> None:
    fault = only_fault(SOUP.replace('"chicken broth",\n]', '"chicken brot",\n]'), tmp_path)
    line = SOUP.splitlines().index("takes = [") + 1
    assert fault.where == f"{tmp_path / 'plain-soup.toml'}, steps[2].takes[1] (line {line})"
    assert fault.suggestion == "chicken broth"


@pytest.mark.parametrize(
    ("right", "wrong", "key_path", "suggestion"),
    [
        ('food = "chicken broth"', 'food = "chiken broth"', "ingredients[2].food", "chicken broth"),
        ('cut = "diced"', 'cut = "dice"', "ingredients[1].cut", "diced"),
        ('technique = "simmer"', 'technique = "simer"', "steps[2].technique", "simmer"),
        ('container = "quart tub"', 'container = "quart tube"', "container", "quart tub"),
        ('["soup-or-stew"]', '["soup-or-stu"]', "stored_as[1]", "soup-or-stew"),
        ('after = ["soften"]', 'after = ["soften", "softn"]', "steps[2].after[2]", "soften"),
        ('state = "cooked"', 'state = "coked"', "state", "cooked"),
    ],
)
def test_an_unknown_name_is_told_with_the_nearest_valid_one(
    tmp_path: Path, right: str, wrong: str, key_path: str, suggestion: str
) -> None:
    fault = only_fault(SOUP.replace(right, wrong), tmp_path)
    assert f", {key_path} (line {line_of(right)})" in fault.where
    assert fault.suggestion == suggestion


def test_a_name_like_no_other_is_told_without_a_suggestion(tmp_path: Path) -> None:
    told = faults(SOUP.replace('food = "onion"', 'food = "qqqqqq"'), tmp_path)
    unknown = next(each for each in told if each.what == "unknown food 'qqqqqq'")
    assert unknown.suggestion == ""


@pytest.mark.parametrize("amount", ["0 cup", "-1 cup", "0 lb"])
def test_an_amount_of_nothing_or_less_is_a_fault(tmp_path: Path, amount: str) -> None:
    fault = only_fault(SOUP.replace('amount = "2 cup"', f'amount = "{amount}"'), tmp_path)
    assert "ingredients[1].amount" in fault.where


def test_an_amount_without_quotes_says_how_to_write_one(tmp_path: Path) -> None:
    fault = only_fault(SOUP.replace('amount = "2 cup"', "amount = 2"), tmp_path)
    assert "in quotes" in fault.expected


def test_an_amount_of_absurd_size_is_a_fault(tmp_path: Path) -> None:
    fault = only_fault(SOUP.replace('amount = "2 cup"', 'amount = "200 lb"'), tmp_path)
    assert "30 lb" in fault.expected


def test_a_measure_that_the_foods_table_cannot_weigh_is_a_fault(tmp_path: Path) -> None:
    fault = only_fault(SOUP.replace('amount = "5 cup"', 'amount = "5 bunch"'), tmp_path)
    assert "bunch of chicken broth" in fault.what
    assert "ingredients[2].amount" in fault.where


def test_an_amount_in_inches_is_a_fault(tmp_path: Path) -> None:
    assert faults(SOUP.replace('amount = "5 cup"', 'amount = "5 inch"'), tmp_path)


def test_another_name_for_a_food_suggests_the_one_in_the_table(tmp_path: Path) -> None:
    told = faults(SOUP.replace('food = "onion"', 'food = "onions"'), tmp_path)
    assert told[0].suggestion == "onion"


def test_an_ingredient_that_no_step_takes_is_a_fault(tmp_path: Path) -> None:
    text = SOUP.replace(
        "[[steps]]", '[[ingredients]]\nfood = "salt"\namount = "1 tsp"\n[[steps]]', 1
    )
    fault = only_fault(text, tmp_path)
    assert "'salt' is not used by any step" in fault.what


def test_an_ingredient_taken_twice_is_a_fault(tmp_path: Path) -> None:
    fault = only_fault(SOUP.replace('"chicken broth",\n', '"chicken broth", "onion",\n'), tmp_path)
    assert "'onion' is taken 2 times" in fault.what


def test_two_ingredients_of_one_name_ask_for_names_of_their_own(tmp_path: Path) -> None:
    text = SOUP.replace(
        "[[steps]]", '[[ingredients]]\nfood = "onion"\namount = "1 cup"\n[[steps]]', 1
    )
    fault = only_fault(text, tmp_path)
    assert "a second ingredient is called 'onion'" in fault.what
    assert "ingredients[3]" in fault.where


def test_two_steps_of_one_name_are_a_fault(tmp_path: Path) -> None:
    told = faults(SOUP.replace('name = "simmer"', 'name = "soften"'), tmp_path)
    assert any("a second step is called 'soften'" in each.what for each in told)


def test_steps_in_a_circle_are_told_as_who_waits_for_whom(tmp_path: Path) -> None:
    text = SOUP.replace('takes = ["onion"]', 'takes = ["onion"]\nafter = ["simmer"]')
    fault = only_fault(text, tmp_path)
    assert "circle" in fault.what
    assert "'soften' waits for 'simmer', 'simmer' waits for 'soften'" in fault.what


def test_a_step_that_waits_for_itself_is_a_fault(tmp_path: Path) -> None:
    fault = only_fault(SOUP.replace('after = ["soften"]', 'after = ["soften", "simmer"]'), tmp_path)
    assert fault.what == "'simmer' waits for itself"


def test_a_step_whose_outcome_nothing_takes_is_a_fault(tmp_path: Path) -> None:
    fault = only_fault(SOUP.replace('after = ["soften"]\n', ""), tmp_path)
    assert "what 'soften' makes is never used" in fault.what


def test_a_step_that_takes_nothing_is_a_fault(tmp_path: Path) -> None:
    idle = '[[steps]]\nname = "stir"\ntechnique = "season"\nin = "soup pot"\nwords = "Stir."\n'
    told = faults(SOUP.replace("[night]", f"{idle}\n[night]"), tmp_path)
    assert any("step 'stir' takes nothing" in each.what for each in told)


def test_a_technique_without_the_time_it_needs_is_a_fault(tmp_path: Path) -> None:
    fault = only_fault(SOUP.replace("minutes = 20\n", ""), tmp_path)
    assert "has no minutes" in fault.what


def test_a_time_for_a_technique_that_has_its_own_is_a_fault(tmp_path: Path) -> None:
    text = SOUP.replace('words = "Soften it."', 'minutes = 8\nwords = "Soften it."')
    fault = only_fault(text, tmp_path)
    assert "sweat takes no minutes" in fault.what


@pytest.mark.parametrize("minutes", ["0", "-5", "2000", "12.5", "true"])
def test_an_impossible_time_is_a_fault(tmp_path: Path, minutes: str) -> None:
    fault = only_fault(SOUP.replace("minutes = 20", f"minutes = {minutes}"), tmp_path)
    assert "steps[2].minutes" in fault.where
    assert "whole minutes" in fault.expected


BAKE = """\
[[steps]]
name = "bake"
technique = "bake"
after = ["simmer"]
in = "dish"
minutes = 30
oven = "375 degF"
words = "Bake it."

[night]"""

DISH = '"dish" = { kind = "baking-dish", size = "9x13 inch" }\n'


def baked(old: str = "", new: str = "") -> str:
    text = SOUP.replace("[night]", BAKE).replace("[[ingredients]]", DISH + "\n[[ingredients]]", 1)
    return text.replace(old, new) if old else text


def test_an_oven_step_in_a_baking_dish_is_sound(tmp_path: Path) -> None:
    path = tmp_path / "baked.toml"
    path.write_text(baked(), encoding="utf-8")
    assert load_recipe(path).step("bake").oven == ureg.Quantity(375, "degF")


def test_an_oven_in_degrees_celsius_is_read_as_such(tmp_path: Path) -> None:
    path = tmp_path / "baked.toml"
    path.write_text(baked("375 degF", "190 degC"), encoding="utf-8")
    oven = load_recipe(path).step("bake").oven
    assert oven is not None
    assert float(oven.to("degF").magnitude) == pytest.approx(374)


@pytest.mark.parametrize("oven", ["37 degF", "3750 degF", "-10 degF", "hot", "375"])
def test_an_absurd_oven_temperature_is_a_fault(tmp_path: Path, oven: str) -> None:
    fault = only_fault(baked("375 degF", oven), tmp_path)
    assert "steps[3].oven" in fault.where


def test_an_oven_technique_without_its_temperature_is_a_fault(tmp_path: Path) -> None:
    fault = only_fault(baked('oven = "375 degF"\n', ""), tmp_path)
    assert "has no oven" in fault.what


def test_a_vessel_of_a_kind_that_does_not_suit_is_a_fault(tmp_path: Path) -> None:
    fault = only_fault(baked('in = "dish"', 'in = "soup pot"').replace(DISH, ""), tmp_path)
    assert "bake is not done in 'soup pot', a pot" in fault.what
    assert "baking-dish" in fault.expected


def test_a_vessel_that_nothing_fills_is_a_fault(tmp_path: Path) -> None:
    fault = only_fault(SOUP.replace("[[ingredients]]", DISH + "\n[[ingredients]]", 1), tmp_path)
    assert "'dish' is never filled" in fault.what


def test_a_pot_that_does_not_say_how_full_it_gets_is_a_fault(tmp_path: Path) -> None:
    fault = only_fault(SOUP.replace(', holds = "2 quart"', ""), tmp_path)
    assert "does not say how full" in fault.what


def test_a_baking_dish_without_a_readable_size_is_a_fault(tmp_path: Path) -> None:
    fault = only_fault(baked("9x13 inch", "large"), tmp_path)
    assert "vessels.dish.size" in fault.where


def test_a_step_that_needs_a_vessel_and_names_none_is_a_fault(tmp_path: Path) -> None:
    fault = only_fault(
        SOUP.replace('takes = ["onion"]\nin = "soup pot"', 'takes = ["onion"]'), tmp_path
    )
    assert "names no vessel" in fault.what


@pytest.mark.parametrize(("servings", "fits"), [("100", "1/2 cup"), ("1", "4 cup")])
def test_a_portion_nobody_would_serve_is_a_fault(tmp_path: Path, servings: str, fits: str) -> None:
    told = faults(SOUP.replace("servings = 4", f"servings = {servings}"), tmp_path)
    assert any("a portion" in each.what and fits in each.expected for each in told)


def test_more_portions_than_the_container_takes_is_a_fault(tmp_path: Path) -> None:
    fault = only_fault(SOUP.replace("container = 2", "container = 3"), tmp_path)
    assert "4.5 cup in a quart tub that takes 3 cup" in fault.what
    assert fault.expected == "2 portions of 1.5 cup"


def test_a_claim_to_be_stored_as_something_that_is_not_frozen_is_a_fault(tmp_path: Path) -> None:
    fault = only_fault(
        SOUP.replace('["soup-or-stew"]', '["soup-or-stew", "eggs-hard-cooked"]'), tmp_path
    )
    assert "stored_as[2]" in fault.where


def test_meat_that_is_browned_and_never_cooked_through_is_a_fault(tmp_path: Path) -> None:
    text = (
        SOUP.replace(
            "[[steps]]", '[[ingredients]]\nfood = "beef chuck"\namount = "1 lb"\n\n[[steps]]', 1
        )
        .replace("[[ingredients]]", '"skillet" = { kind = "skillet" }\n\n[[ingredients]]', 1)
        .replace(
            "[night]",
            '[[steps]]\nname = "brown"\ntechnique = "brown"\ntakes = ["beef chuck"]\n'
            'after = ["simmer"]\nin = "skillet"\nwords = "Brown it."\n\n[night]',
        )
    )
    fault = only_fault(text, tmp_path)
    assert "beef chuck goes in raw and is never cooked through" in fault.what


def test_a_cook_to_temperature_below_the_published_one_is_a_fault(tmp_path: Path) -> None:
    text = (
        SOUP.replace(
            "[[steps]]", '[[ingredients]]\nfood = "chicken thigh"\namount = "1 lb"\n\n[[steps]]', 1
        )
        .replace('"chicken broth",\n', '"chicken broth", "chicken thigh",\n')
        .replace("minutes = 20", 'minutes = 20\ncook_to = "150 degF"')
    )
    fault = only_fault(text, tmp_path)
    assert "'150 degF' is too low" in fault.what
    assert fault.expected.startswith("165 degF")


def test_heat_in_a_raw_kit_is_a_fault(tmp_path: Path) -> None:
    text = (
        SOUP.replace('state = "cooked"', 'state = "raw-kit"')
        .replace('form = "soup-or-stew"', 'form = "raw-kit"')
        .replace('cool = "liquid"', 'cool = "none"')
        .replace('finish = "Warm it through."', 'finish = "Warm it through."\nminutes = 20')
    )
    fault = only_fault(text, tmp_path)
    assert "simmer in a raw kit" in fault.what


def test_a_dish_finished_from_frozen_says_how_long_that_takes(tmp_path: Path) -> None:
    fault = only_fault(SOUP.replace('thaw = "either"', 'thaw = "from-frozen"'), tmp_path)
    assert "minutes_from_frozen" in fault.expected


def test_what_goes_into_a_slow_cooker_from_frozen_is_a_fault(tmp_path: Path) -> None:
    words = 'finish = "Four hours on low in the slow cooker."\nminutes_from_frozen = 240'
    fault = only_fault(SOUP.replace('finish = "Warm it through."', words), tmp_path)
    assert "Thaw it first" in fault.what
    assert fault.expected == 'thaw = "refrigerator"'


def test_forbidding_the_slow_cooker_is_none(tmp_path: Path) -> None:
    path = tmp_path / "plain-soup.toml"
    words = 'finish = "Never in the slow cooker: warm it through."'
    path.write_text(SOUP.replace('finish = "Warm it through."', words), encoding="utf-8")
    assert load_recipe(path).night.finish.startswith("Never")


def test_an_unknown_food_for_the_night_is_told(tmp_path: Path) -> None:
    fault = only_fault(SOUP + 'add = [{ food = "parsly", amount = "1/4 cup" }]\n', tmp_path)
    assert fault.suggestion == "parsley"
    assert "night.add[1].food" in fault.where


def test_a_missing_key_says_what_belongs_there(tmp_path: Path) -> None:
    fault = only_fault(SOUP.replace('makes = "6 cup"\n', ""), tmp_path)
    assert fault.what == "is missing"
    assert "3 quart" in fault.expected


@pytest.mark.parametrize(
    ("key", "values"),
    [
        ("state", "one of cooked, part-baked, raw-kit"),
        ("form", "one of "),
        ("cool", "one of liquid, thick, pieces, none"),
    ],
)
def test_a_missing_key_of_few_values_names_them(tmp_path: Path, key: str, values: str) -> None:
    text = re.sub(rf"(?m)^{key} = .*\n", "", SOUP)
    fault = next(each for each in faults(text, tmp_path) if f"{key}: is missing" in str(each))
    assert values in str(fault)


def test_an_unknown_key_deep_in_the_file_suggests_the_nearest_of_its_own_table(
    tmp_path: Path,
) -> None:
    told = faults(SOUP.replace("holds =", "hold ="), tmp_path)
    assert any(
        each.suggestion == "holds" and "vessels.soup pot.hold" in each.where for each in told
    )


@pytest.mark.parametrize(
    "text", ["", "steps = 3", "night = []", 'steps = ["x"]', "vessels = 1", "ingredients = [[]]"]
)
def test_a_file_of_the_wrong_shape_altogether_is_told_as_complaints(
    tmp_path: Path, text: str
) -> None:
    assert faults(text, tmp_path)


def test_a_file_that_is_not_there_is_a_complaint(tmp_path: Path) -> None:
    with pytest.raises(InputFault, match="cannot be read"):
        load_recipe(tmp_path / "none.toml")


def test_a_file_that_is_not_text_is_a_complaint(tmp_path: Path) -> None:
    path = tmp_path / "binary.toml"
    path.write_bytes(b"\xff\xfe\x00")
    with pytest.raises(InputFault, match="not UTF-8"):
        load_recipe(path)


def test_a_folder_of_ones_own_adds_to_the_starter_recipes_and_replaces_them(tmp_path: Path) -> None:
    (tmp_path / "plain-soup.toml").write_text(SOUP, encoding="utf-8")
    (tmp_path / "cottage-pie.toml").write_text(SOUP, encoding="utf-8")
    cookbook = load_cookbook([tmp_path])
    assert cookbook["plain-soup"].title == "Plain soup"
    assert cookbook["cottage-pie"].title == "Plain soup"
    assert "beef-barley-stew" in cookbook


def test_prep_days_in_a_folder_are_not_taken_for_recipes(tmp_path: Path) -> None:
    (tmp_path / "plain-soup.toml").write_text(SOUP, encoding="utf-8")
    (tmp_path / "sample-prep-day.toml").write_text("[day]\n", encoding="utf-8")
    assert [path.name for path in recipe_files(tmp_path)] == ["plain-soup.toml"]


def test_faults_of_several_files_of_a_folder_are_shown_together(tmp_path: Path) -> None:
    (tmp_path / "a.toml").write_text(SOUP.replace('"onion"', '"onoin"'), encoding="utf-8")
    (tmp_path / "b.toml").write_text(SOUP.replace("simmer", "simmr"), encoding="utf-8")
    with pytest.raises(InputFault) as caught:
        load_cookbook([tmp_path])
    assert {Path(each.where.split(",")[0]).name for each in caught.value.complaints} == {
        "a.toml",
        "b.toml",
    }


def test_a_folder_that_is_not_there_is_a_complaint(tmp_path: Path) -> None:
    with pytest.raises(InputFault, match="is no folder"):
        load_cookbook([tmp_path / "none"])


def test_finding_a_recipe_by_its_id() -> None:
    assert find_recipe(load_cookbook(), "cottage-pie", "here").title == "Cottage pie"


@pytest.mark.parametrize(
    ("asked", "suggestion"),
    [
        ("cotage-pie", "cottage-pie"),
        ("meatballs", "turkey-meatballs"),
        ("curry", "chicken-coconut-curry"),
    ],
)
def test_an_unknown_recipe_is_told_with_the_nearest(asked: str, suggestion: str) -> None:
    with pytest.raises(InputFault) as caught:
        find_recipe(load_cookbook(), asked, "here")
    assert caught.value.complaints[0].suggestion == suggestion


def test_checking_reports_the_files_and_what_is_wrong_with_them(tmp_path: Path) -> None:
    good, bad = tmp_path / "good.toml", tmp_path / "bad.toml"
    good.write_text(SOUP, encoding="utf-8")
    bad.write_text(SOUP.replace("minutes = 20\n", ""), encoding="utf-8")
    report = check_recipes([good, bad])
    assert report.files == (good, bad)
    assert len(report.complaints) == 1
    with pytest.raises(InputFault):
        report.raise_faults()


def test_checking_without_files_checks_the_starter_recipes() -> None:
    report = check_recipes()
    report.raise_faults()
    assert {path.parent for path in report.files} == {starter_folder()}
    assert report.in_words().splitlines()[0] == "12 recipes checked, nothing wrong."


def test_a_folder_without_recipes_is_not_called_sound(tmp_path: Path) -> None:
    with pytest.raises(InputFault, match="holds no recipes"):
        check_recipes([tmp_path]).raise_faults()


def test_the_summaries_are_plain_values_in_alphabetical_order() -> None:
    rows = summaries(load_cookbook())
    assert [row["id"] for row in rows] == sorted(str(row["id"]) for row in rows)
    stew = next(row for row in rows if row["id"] == "beef-barley-stew")
    assert stew["servings"] == 8
    assert stew["freezer_months"] == 2


def test_a_recipe_may_have_prep_day_in_its_name(tmp_path: Path) -> None:
    file = tmp_path / "my-prep-day-stew.toml"
    file.write_text(SOUP.replace("servings = 4", 'servings = "four"'), encoding="utf-8")
    report = check_recipes([file])
    assert report.files == (file,)
    assert "servings" in str(report.complaints[0])


def test_an_order_for_a_day_is_known_by_what_it_holds(tmp_path: Path) -> None:
    (tmp_path / "saturday.toml").write_text(
        '[day]\ndate = 2027-01-16\n[dishes]\n"cottage-pie" = 1\n', encoding="utf-8"
    )
    (tmp_path / "torn-prep-day.toml").write_text("[day\n", encoding="utf-8")
    assert [path.stem for path in recipe_files(tmp_path)] == ["torn-prep-day"]


@pytest.mark.parametrize("title", ['" "', '"-"', '"a\\nb"', f'"{"x" * 101}"'])
def test_a_title_that_names_nothing_is_told(tmp_path: Path, title: str) -> None:
    old = next(line for line in SOUP.splitlines() if line.startswith("title"))
    fault = only_fault(SOUP.replace(old, f"title = {title}"), tmp_path)
    assert (fault.what.endswith("is no name"), fault.expected) == (True, "a few words on one line")
