"""The recipes that come with the program: believable, freezable, and cut alike."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

import pytest

from batchcook.buying.packs import choose, sizes
from batchcook.cookbook import load_cookbook
from batchcook.cookbooks.recipe import Ingredient, Recipe, Step, Vessel
from batchcook.foods import load_foods
from batchcook.foodsafety.limits import SLOW_COOKER_FILL
from batchcook.kitchens.techniques import load_techniques
from batchcook.quantities import Quantity, ureg

COOKBOOK = load_cookbook()
RECIPES = pytest.mark.parametrize("recipe", COOKBOOK.values(), ids=COOKBOOK)


def every(recipes: Iterable[Recipe]) -> pytest.MarkDecorator:
    """A test for every one of some recipes, of which there is one at least."""
    found = {recipe.id: recipe for recipe in recipes}
    assert found
    return pytest.mark.parametrize("recipe", found.values(), ids=found)


def every_part(
    name: str, parts: Iterable[tuple[Recipe, Ingredient | Step | Vessel]]
) -> pytest.MarkDecorator:
    """A test for every one of some parts of recipes, of which there is one at least."""
    found = list(parts)
    assert found
    ids = [f"{recipe.id}, {part.name}" for recipe, part in found]
    return pytest.mark.parametrize(("recipe", name), found, ids=ids)


INGREDIENTS = [(recipe, each) for recipe in COOKBOOK.values() for each in recipe.ingredients]
STEPS = [(recipe, each) for recipe in COOKBOOK.values() for each in recipe.steps]
VESSELS = [(recipe, each) for recipe in COOKBOOK.values() for each in recipe.vessels.values()]

WATER_TAKEN_UP = {"jumbo shells": 1.2}
"""Grams of the water it is boiled in, and drained of, that a gram of dry pasta keeps."""

PRESSED_OUT = {"spinach, frozen": 0.45}
"""Share of a food that runs off before it goes in."""

LOSS = {"cider-pulled-pork": (1.25, 1.55)}
"""Where much is boiled down or skimmed off: fat, and half of the juices."""

GRAMS_A_MILLILITRE = (0.98, 1.28)
"""What goes in, against the finished volume: food is a little denser than water, and some boils
away or runs off browned meat."""


def grams(ingredient: Ingredient) -> float:
    food = load_foods()[ingredient.food]
    return float(food.to_grams(ingredient.amount, ingredient.cut).to("gram").magnitude)


def millilitres(makes: Quantity) -> float:
    if makes.check("[mass]"):
        return float(makes.to("gram").magnitude)
    return float(makes.to("millilitre").magnitude)


def kind(ingredient: Ingredient) -> str:
    return load_foods()[ingredient.food].kind


def is_raw(ingredient: Ingredient) -> bool:
    return kind(ingredient).startswith("raw-")


def onwards(recipe: Recipe, step: Step) -> Iterator[Step]:
    """The steps that a step's outcome goes through."""
    for later in recipe.steps:
        if step.name in later.after:
            yield later
            yield from onwards(recipe, later)


def before(recipe: Recipe, step: Step) -> Iterator[Step]:
    """The steps that lead to a step."""
    for name in step.after:
        yield recipe.step(name)
        yield from before(recipe, recipe.step(name))


def taken_by(recipe: Recipe, ingredient: Ingredient) -> Step:
    return next(step for step in recipe.steps if ingredient.name in step.takes)


def test_the_twelve_starter_recipes_are_there() -> None:
    assert list(COOKBOOK) == [
        "beef-barley-stew",
        "beef-mushroom-ragu",
        "chicken-coconut-curry",
        "cider-pulled-pork",
        "cottage-pie",
        "lemon-herb-chicken-kit",
        "salmon-potato-cakes",
        "sausage-lentil-soup",
        "spinach-ricotta-shells",
        "squash-red-lentil-soup",
        "turkey-meatballs",
        "vegetable-egg-bake",
    ]


def test_between_them_they_use_every_technique() -> None:
    used = {step.technique for recipe in COOKBOOK.values() for step in recipe.steps}
    assert used == set(load_techniques())


def test_between_them_they_use_every_part_of_the_format() -> None:
    recipes = COOKBOOK.values()
    steps = [step for recipe in recipes for step in recipe.steps]
    ingredients = [each for recipe in recipes for each in recipe.ingredients]
    vessels = [each for recipe in recipes for each in recipe.vessels.values()]
    assert {recipe.state for recipe in recipes} == {"cooked", "part-baked", "raw-kit"}
    assert len({recipe.form for recipe in recipes}) == 6
    assert len({recipe.cool for recipe in recipes}) == 4
    assert {recipe.night.thaw for recipe in recipes} == {"refrigerator", "from-frozen", "either"}
    assert len({vessel.kind for vessel in vessels}) == 6
    assert any(vessel.per_batch > 1 for vessel in vessels)
    assert any(vessel.size for vessel in vessels)
    assert any(step.strict for step in steps)
    assert any(step.heat for step in steps)
    assert any(step.cook_to is not None for step in steps)
    assert any(step.vessel is None for step in steps)
    assert any(each.name != each.food for each in ingredients)
    assert any(each.to_taste for each in ingredients)
    assert any(each.note for each in ingredients)
    assert any(recipe.makes.check("[mass]") for recipe in recipes)
    assert any(recipe.source_note for recipe in recipes)


@RECIPES
def test_what_goes_in_adds_up_to_what_comes_out(recipe: Recipe) -> None:
    weight = sum(
        grams(each) * (1 + WATER_TAKEN_UP.get(each.food, 0.0) - PRESSED_OUT.get(each.food, 0.0))
        for each in recipe.ingredients
    )
    low, high = LOSS.get(recipe.id, GRAMS_A_MILLILITRE)
    assert low <= weight / millilitres(recipe.makes) <= high


TABLESPOON = 14.8
"""Millilitres, and near enough the grams of a moist mixture in one."""


@pytest.mark.parametrize(
    ("name", "step", "pieces", "spoons", "water"),
    [
        ("spinach-ricotta-shells", "fill", 28, 3, 0.45),
        ("turkey-meatballs", "roll", 40, 2, 0.0),
        ("salmon-potato-cakes", "shape", 16, 8, 0.0),
    ],
)
def test_the_pieces_of_a_batch_use_up_its_mixture(
    name: str, step: str, pieces: int, spoons: int, water: float
) -> None:
    recipe = COOKBOOK[name]
    if step == "fill":
        mixed = [recipe.step("mix the filling")]
    else:
        mixed = [recipe.step(step), *before(recipe, recipe.step(step))]
    weight = sum(
        grams(each) * (1 - (water if each.food in PRESSED_OUT else 0))
        for one in mixed
        for each in map(recipe.ingredient, one.takes)
    )
    assert weight / pieces / TABLESPOON == pytest.approx(spoons, rel=0.1)


def test_the_words_name_those_pieces() -> None:
    assert "about 3 tablespoons" in COOKBOOK["spinach-ricotta-shells"].step("fill").words
    assert "14 shells a pan" in COOKBOOK["spinach-ricotta-shells"].step("layer").words
    assert "2-tablespoon balls, 40 from" in COOKBOOK["turkey-meatballs"].step("roll").words
    assert "half cups" in COOKBOOK["salmon-potato-cakes"].step("shape").words


PANS = [recipe for recipe in COOKBOOK.values() if recipe.container.endswith("foil pan")]


@every(PANS)
def test_a_cold_pan_is_given_the_time_to_heat_through_on_the_night(recipe: Recipe) -> None:
    # 35 to 45 minutes at 350 or 375 degF from the refrigerator: common practice, no source.
    assert recipe.night.minutes is not None
    assert 35 <= recipe.night.minutes <= 45


@every(recipe for recipe in PANS if recipe.night.minutes_from_frozen is not None)
def test_a_frozen_pan_is_given_about_twice_the_time_of_a_cold_one(recipe: Recipe) -> None:
    # Common practice, no source.
    frozen, cold = recipe.night.minutes_from_frozen, recipe.night.minutes
    assert frozen is not None
    assert cold is not None
    assert 1.75 <= frozen / cold <= 2.25


CANNED = [(recipe, each) for recipe, each in INGREDIENTS if kind(each).startswith("canned")]


@every_part("tinned", (each for each in CANNED if str(each[1].amount.units) == "can"))
@pytest.mark.parametrize("batches", [1, 2, 3])
def test_cans_are_used_up(recipe: Recipe, tinned: Ingredient, batches: int) -> None:
    assert tinned in recipe.ingredients
    need = grams(tinned) * batches
    choice = choose(need, sizes(tinned.food))
    assert choice.grams == pytest.approx(need, rel=0.02)
    assert choice.pieces == tinned.amount.magnitude * batches
    (size,) = choice.counts
    assert size.words.removesuffix(" can") in tinned.note


@every_part("poured", (each for each in CANNED if str(each[1].amount.units) != "can"))
def test_what_comes_in_bottles_cartons_and_tubes_is_measured(
    recipe: Recipe, poured: Ingredient
) -> None:
    food = load_foods()[poured.food]
    assert food.liquid or food.key in {"tomato paste", "mustard"}, recipe.id


@RECIPES
def test_a_portion_is_a_meal(recipe: Recipe) -> None:
    portion = millilitres(recipe.makes) / recipe.servings
    assert 170 <= portion <= 500


@every(recipe for recipe, each in INGREDIENTS if is_raw(each))
def test_meat_for_each_person_is_between_two_and_eight_ounces_raw(recipe: Recipe) -> None:
    meat = sum(grams(each) for each in recipe.ingredients if is_raw(each))
    assert 2 * 28 <= meat / recipe.servings <= 8 * 28.4


@RECIPES
def test_salt_is_on_the_shy_side_and_never_missing(recipe: Recipe) -> None:
    weight = sum(map(grams, recipe.ingredients))
    salt = sum(grams(each) for each in recipe.ingredients if each.food == "salt")
    assert 0.0005 <= salt / weight <= 0.012


@every_part("meat", (each for each in INGREDIENTS if is_raw(each[1])))
def test_meat_is_bought_by_the_pound(recipe: Recipe, meat: Ingredient) -> None:
    assert meat.amount.units == ureg.pound, recipe.id


ALIKE = {"onion": "diced", "carrot": "diced", "celery": "diced", "garlic": "minced"}


@every_part("vegetable", (each for each in INGREDIENTS if each[1].food in ALIKE))
def test_shared_vegetables_are_cut_alike_in_every_dish(
    recipe: Recipe, vegetable: Ingredient
) -> None:
    assert vegetable.cut == ALIKE[vegetable.food], recipe.id


@every_part("potato", (each for each in INGREDIENTS if each[1].food == "potato"))
def test_potatoes_are_frozen_only_as_mash_made_rich(recipe: Recipe, potato: Ingredient) -> None:
    later = list(onwards(recipe, taken_by(recipe, potato)))
    mash = [step for step in later if step.technique == "mash"]
    assert mash
    assert "butter" in mash[0].takes


@RECIPES
def test_nothing_that_freezes_badly_goes_into_the_freezer(recipe: Recipe) -> None:
    for each in recipe.ingredients:
        assert each.food not in {
            "spaghetti",
            "egg noodles",
            "rice, white",
            "cabbage",
            "cream, heavy",
            "sour cream",
            "yogurt, plain",
            "zucchini",
        }


@every_part(
    "soft",
    (
        each
        for each in INGREDIENTS
        if kind(each[1]) == "cheese" or each[1].food == "bread crumbs, dry"
    ),
)
def test_cheese_and_crumbs_are_inside_a_dish_and_never_on_top(
    recipe: Recipe, soft: Ingredient
) -> None:
    assert taken_by(recipe, soft).technique in {"mix", "mash"}


@every_part(
    "seasoning",
    (
        (recipe, each)
        for recipe, each in INGREDIENTS
        if each.food in {"salt", "black pepper"} and taken_by(recipe, each).technique == "season"
    ),
)
def test_seasoning_is_held_back_for_the_night(recipe: Recipe, seasoning: Ingredient) -> None:
    assert seasoning.to_taste, recipe.id


def test_half_of_the_curry_powder_waits_for_the_night() -> None:
    curry = COOKBOOK["chicken-coconut-curry"]
    now = curry.ingredient("curry powder").amount
    later = next(each for each in curry.night.add if each.food == "curry powder")
    assert now == later.amount


@every_part("browned", (each for each in STEPS if each[1].technique == "brown"))
def test_browned_meat_goes_straight_on_to_its_next_heat(recipe: Recipe, browned: Step) -> None:
    following = next(onwards(recipe, browned))
    assert following.technique in {"simmer", "slow-cook"}


@every_part(
    "ground",
    (
        each
        for each in INGREDIENTS
        if kind(each[1]).startswith("raw-ground") or kind(each[1]) == "raw-sausage"
    ),
)
def test_ground_meat_and_sausage_are_cooked_through_or_baked(
    recipe: Recipe, ground: Ingredient
) -> None:
    step = taken_by(recipe, ground)
    ways = {step.technique, *(later.technique for later in onwards(recipe, step))}
    assert ways & {"cook-through", "bake"}


@every_part("cooker", (each for each in VESSELS if each[1].kind == "slow-cooker"))
def test_a_slow_cooker_load_suits_a_six_quart_cooker(recipe: Recipe, cooker: Vessel) -> None:
    size = ureg.Quantity(6, "quart")
    assert cooker.holds is not None
    assert size * SLOW_COOKER_FILL[0] <= cooker.holds <= size * SLOW_COOKER_FILL[1]
    assert recipe.night.thaw == "refrigerator"


@every(recipe for recipe, step in STEPS if step.technique == "slow-cook")
def test_meat_goes_into_a_slow_cooker_in_chunks(recipe: Recipe) -> None:
    assert {each.cut for each in recipe.ingredients if is_raw(each)} == {"2-inch chunks"}


@every_part(
    "step",
    (
        each
        for each in STEPS
        if each[1].technique in {"slow-cook", "simmer"} and each[0].id not in LOSS
    ),
)
def test_a_slow_cooker_and_a_pot_hold_about_what_goes_into_them(recipe: Recipe, step: Step) -> None:
    assert step.vessel is not None
    holds = recipe.vessels[step.vessel].holds
    assert holds is not None
    weight = sum(grams(each) for each in _gone_in(recipe, step))
    assert 0.6 <= weight / millilitres(holds) <= 1.25


def _gone_in(recipe: Recipe, step: Step) -> Iterator[Ingredient]:
    for name in step.takes:
        yield recipe.ingredient(name)
    for earlier in step.after:
        yield from _gone_in(recipe, recipe.step(earlier))


@every_part("pot", (each for each in VESSELS if each[1].kind == "pot"))
def test_two_batches_fit_one_eight_quart_pot_to_four_fifths(recipe: Recipe, pot: Vessel) -> None:
    assert pot.holds is not None, recipe.id
    assert 2 * pot.holds <= 0.8 * ureg.Quantity(8, "quart")


def packed_from(recipe: Recipe) -> Vessel | None:
    """The vessel that a dish is in when it is done."""
    name = recipe.steps[-1].vessel
    return None if name is None else recipe.vessels[name]


@every_part(
    "vessel",
    (
        (recipe, vessel)
        for recipe in COOKBOOK.values()
        if (vessel := packed_from(recipe)) is not None and vessel.holds is not None
    ),
)
def test_a_pot_that_is_packed_from_holds_the_finished_dish(recipe: Recipe, vessel: Vessel) -> None:
    assert vessel.holds is not None
    assert vessel.holds >= recipe.makes


@RECIPES
def test_every_step_is_told_in_a_sentence_or_two(recipe: Recipe) -> None:
    for step in recipe.steps:
        assert step.words.endswith(".")
        assert 20 < len(step.words) < 260


@RECIPES
def test_every_cooked_dish_is_reheated_to_165(recipe: Recipe) -> None:
    assert "165 degF" in recipe.night.finish


COOKED = [recipe for recipe in COOKBOOK.values() if recipe.state != "raw-kit"]


@every(recipe for recipe in COOKBOOK.values() if recipe.state == "raw-kit")
def test_a_kit_is_kept_as_raw_poultry(recipe: Recipe) -> None:
    assert set(recipe.stored_as) == {"raw-poultry-pieces", "raw-poultry-parts-fsis"}


@pytest.mark.parametrize(
    ("kinds", "row"),
    [
        ({"raw-poultry", "raw-ground-poultry"}, "cooked-poultry-fsis"),
        (
            {"raw-beef", "raw-pork", "raw-ground-beef", "raw-ground-pork", "raw-sausage"},
            "cooked-meat-fsis",
        ),
        ({"raw-sausage"}, "cooked-sausage"),
    ],
)
def test_the_storage_rows_name_the_meat_in_a_dish(kinds: set[str], row: str) -> None:
    holding = [recipe for recipe in COOKED if kinds & set(map(kind, recipe.ingredients))]
    assert holding
    for recipe in holding:
        assert row in recipe.stored_as, recipe.id


@every(recipe for recipe in COOKBOOK.values() if recipe.form == "egg-casserole")
def test_a_baked_egg_dish_is_kept_as_one(recipe: Recipe) -> None:
    assert "egg-casserole-baked" in recipe.stored_as


@every(recipe for recipe, each in INGREDIENTS if "salmon" in each.food)
def test_a_dish_of_fish_is_kept_as_cooked_fish(recipe: Recipe) -> None:
    assert "cooked-fish" in recipe.stored_as


def test_raw_chicken_in_a_kit_says_how_it_is_thawed_and_roasted() -> None:
    kit = COOKBOOK["lemon-herb-chicken-kit"]
    assert kit.night.thaw == "refrigerator"
    assert kit.night.oven is not None
    assert kit.night.minutes is not None
