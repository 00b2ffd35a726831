from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from batchcook.complaints import InputFault
from batchcook.foods import Food, describe, food, load_foods, shopping_text
from batchcook.foodsafety.kinds import FOOD_KINDS
from batchcook.foodstuffs.measures import FORMS
from batchcook.foodstuffs.table import read_food_table
from batchcook.kitchens.techniques import CUTS
from batchcook.quantities import Quantity, parse_amount, ureg

FOODS = load_foods()
EACH_FOOD = pytest.mark.parametrize("one", FOODS.values(), ids=list(FOODS))
ONION = FOODS["onion"]


def grams(quantity: Quantity) -> float:
    return float(quantity.to("gram").magnitude)


def amount(text: str) -> Quantity:
    return parse_amount(text, where="")


def told(key: str, text: str, cut: str | None = None, system: str = "us") -> str:
    """An amount as it is described in the form in which it was written."""
    written = amount(text)
    return describe(FOODS[key], FOODS[key].to_grams(written, cut), cut, system, like=written)


def shopped(key: str, text: str, cut: str | None = None, system: str = "us") -> str:
    one = FOODS[key]
    return shopping_text(one, one.as_purchased(one.to_grams(amount(text), cut)), system)


def test_a_food_unknown_by_that_name_comes_with_the_nearest() -> None:
    with pytest.raises(InputFault, match="Did you mean 'onion'") as caught:
        food("onoin", "stew.toml")
    assert caught.value.complaints[0].where == "stew.toml"


@pytest.mark.parametrize(
    ("other", "key"),
    [
        ("white rice", "rice, white"),
        ("tomatoes, crushed", "crushed tomatoes, canned"),
        ("peas, frozen", "green peas, frozen"),
        ("burger bun", "hamburger buns"),
        ("heavy cream", "cream, heavy"),
    ],
)
def test_a_food_by_another_of_its_names_comes_with_ours(other: str, key: str) -> None:
    with pytest.raises(InputFault) as caught:
        food(other, "")
    assert caught.value.complaints[0].suggestion == key


def test_a_known_food_is_found() -> None:
    assert food("beef chuck", "").kind == "raw-beef"


@EACH_FOOD
def test_no_other_name_of_a_food_is_the_name_of_another(one: Food) -> None:
    others = [name for each in FOODS.values() if each is not one for name in (each.key, *each.also)]
    assert not {one.key, *one.also} & set(others)


@EACH_FOOD
def test_a_kind_of_food_is_one_that_food_safety_knows(one: Food) -> None:
    assert one.kind in FOOD_KINDS


@EACH_FOOD
def test_a_cup_and_a_spoon_of_a_food_weigh_alike(one: Food) -> None:
    cups = {each.cut: grams(each.weight) / 48 for each in one.measures if each.unit == "cup"}
    spoons = {"tablespoon": 3, "teaspoon": 1}
    for each in one.measures:
        if each.unit in spoons and each.cut in cups and one.key != "parmesan":
            assert grams(each.weight) / spoons[each.unit] == pytest.approx(cups[each.cut], rel=0.2)


@EACH_FOOD
def test_a_cup_of_a_food_is_neither_feathers_nor_lead(one: Food) -> None:
    for each in one.measures:
        if each.unit == "cup":
            assert 10 < grams(each.weight) < 350


@EACH_FOOD
def test_meat_and_fish_are_raw_unless_cured(one: Food) -> None:
    assert (one.section == "meat and fish") == (
        one.kind.startswith("raw-") or one.kind in {"bacon", "cooked-sausage"}
    )


@pytest.mark.parametrize(
    ("key", "allergens"),
    [
        ("milk, whole", ("milk",)),
        ("egg noodles", ("egg", "wheat")),
        ("soy sauce", ("soybean", "wheat")),
        ("worcestershire sauce", ("fish",)),
        ("salmon, canned", ("fish",)),
        ("flour", ("wheat",)),
        ("onion", ()),
    ],
)
def test_a_food_carries_its_major_allergens(key: str, allergens: tuple[str, ...]) -> None:
    assert FOODS[key].allergens == allergens


@EACH_FOOD
def test_dairy_and_cheese_carry_milk(one: Food) -> None:
    assert ("milk" in one.allergens) == (one.kind in {"dairy", "cheese"} or one.key == "butter")


def test_every_cut_that_is_cut_has_figures_that_answer_for_it() -> None:
    assert set(CUTS) == set(FORMS) - {""}


@pytest.mark.parametrize(
    ("key", "text", "cut", "expected"),
    [
        ("onion", "2 cup", "diced", 320),
        ("onion", "2 cup", "sliced", 230),
        ("onion", "1 quart", "chopped", 640),
        ("onion", "3 tbsp", "minced", 30),
        ("onion", "2 medium", None, 220),
        ("onion", "2 each", None, 220),
        ("onion", "350 g", "diced", 350),
        ("carrot", "1 cup", "grated", 110),
        ("carrot", "1 cup", "thin strips", 122),
        ("garlic", "4 clove", "minced", 12),
        ("potato", "1 cup", "cubed", 150),
        ("butternut squash", "2 cup", "1-inch cubes", 280),
        ("cheddar", "2 cup", "grated", 226),
        ("crushed tomatoes, canned", "1 cup", None, 242),
        ("egg", "12 large", None, 600),
        ("mushroom", "1 cup", "halved", 96),
        ("flour", "2 tbsp", None, 15.625),
        ("beef chuck", "1 lb", "1-inch cubes", 453.59237),
    ],
)
def test_an_amount_weighs_what_the_figure_of_its_cut_says(
    key: str, text: str, cut: str | None, expected: float
) -> None:
    assert grams(FOODS[key].to_grams(amount(text), cut)) == pytest.approx(expected)


def test_a_measure_that_the_table_cannot_weigh_is_a_fault_with_those_it_can() -> None:
    with pytest.raises(InputFault) as caught:
        FOODS["garlic"].to_grams(amount("2 bunch"), where="stew.toml, ingredients[1]")
    (complaint,) = caught.value.complaints
    assert complaint.where == "stew.toml, ingredients[1]"
    assert "1 bunch of garlic" in complaint.what
    assert "clove" in complaint.expected


def test_a_volume_of_what_has_none_is_a_fault() -> None:
    with pytest.raises(InputFault, match="expected a weight"):
        FOODS["beef chuck"].to_grams(amount("2 cup"), "1-inch cubes")


@given(st.sampled_from(list(FOODS.values())), st.floats(0.1, 50_000))
def test_what_is_bought_covers_what_is_used(one: Food, used: float) -> None:
    bought = one.as_purchased(ureg.Quantity(used, "gram"))
    assert grams(bought) >= used
    assert grams(one.as_used(bought)) == pytest.approx(used)


def test_only_what_is_bought_whole_grows_by_its_refuse() -> None:
    thousand = ureg.Quantity(1000, "gram")
    assert grams(ONION.as_purchased(thousand)) == pytest.approx(1000 / 0.9)
    assert grams(FOODS["pork shoulder"].as_purchased(thousand)) == 1000  # boneless, says its list
    thigh = FOODS["chicken thigh"]
    assert thigh.refuse_percent == 40
    assert grams(thigh.as_purchased(thousand)) == 1000


@pytest.mark.parametrize(
    ("key", "text", "cut", "us", "metric"),
    [
        ("onion", "4 cup", "diced", "4 cups (640 g) onions", "640 g onions"),
        ("onion", "1/4 cup", "diced", "1/4 cup (40 g) onions", "40 g onions"),
        ("beef chuck", "4 lb", None, "4 lb beef chuck", "1.8 kg beef chuck"),
        ("beef broth", "11 cup", None, "2 3/4 quarts beef broth", "2.6 L beef broth"),
        ("cabbage", "12 cup", "shredded", "12 cups (840 g) cabbage", "840 g cabbage"),
        ("canola oil", "2 tbsp", None, "2 tbsp canola oil", "2 tbsp canola oil"),
        ("salt", "1/2 tsp", None, "1/2 tsp salt", "1/2 tsp salt"),
        ("egg", "24 large", None, "24 large eggs", "24 large eggs"),
        ("egg", "1 large", None, "1 large egg", "1 large egg"),
        ("bay leaf", "3 leaf", None, "3 bay leaves", "3 bay leaves"),
        ("garlic", "4 clove", "minced", "4 cloves garlic", "4 cloves garlic"),
        ("hamburger buns", "12 each", None, "12 hamburger buns", "12 hamburger buns"),
        ("salmon, canned", "2 can", None, "2 cans salmon", "650 g canned salmon, drained"),
        ("coconut milk", "4 can", None, "4 cans coconut milk", "1.6 L coconut milk"),
        (
            "crushed tomatoes, canned",
            "1 can",
            None,
            "1 can crushed tomatoes",
            "800 g canned crushed tomatoes",
        ),
    ],
)
def test_an_amount_is_described_in_the_form_of_its_recipe(
    key: str, text: str, cut: str | None, us: str, metric: str
) -> None:
    assert told(key, text, cut) == us
    assert told(key, text, cut, "metric") == metric


@pytest.mark.parametrize("system", ["us", "metric"])
@pytest.mark.parametrize(("cups", "spoons"), [("1/2 cup", "2 tbsp"), ("3/4 cup", "3 tbsp")])
def test_a_quarter_of_its_cups_comes_out_in_even_spoons(
    cups: str, spoons: str, system: str
) -> None:
    # USDA SR26 has 100 g a cup of grated Parmesan and 5 g a tablespoon: a sixteenth is 6.25 g.
    written, one = amount(cups), FOODS["parmesan"]
    quarter = one.to_grams(written, "grated") / 4
    assert describe(one, quarter, "grated", system, like=written, named=False) == spoons


def test_an_amount_may_go_without_its_name() -> None:
    assert describe(ONION, ureg.Quantity(640, "gram"), "diced", "us", named=False) == (
        "4 cups (640 g)"
    )


@pytest.mark.parametrize(
    ("key", "text", "cut", "expected"),
    [
        ("onion", "16 cup", "diced", "6 1/4 lb (about 24 medium)"),
        ("egg", "24 large", None, "24 large"),
        ("lemon juice", "1/2 cup", None, "1/2 cup (about 3 lemons)"),
        ("lime juice", "2 tbsp", None, "2 tbsp (about 1 lime)"),
        ("hamburger buns", "24 each", None, "24"),
        ("black pepper", "2 tsp", None, "2 tsp"),
        ("beef chuck", "4 lb", None, "4 lb"),
        ("kale", "6 cup", "chopped", "1 1/2 lb (about 3 bunches)"),
        ("ricotta", "6 cup", None, "3 1/4 lb"),
    ],
)
def test_a_list_says_what_to_buy(key: str, text: str, cut: str | None, expected: str) -> None:
    assert shopped(key, text, cut) == expected


@given(
    st.sampled_from([each for each in FOODS.values() if each.shop != "count"]),
    st.floats(5, 20_000),
    st.sampled_from(["us", "metric"]),
)
def test_a_list_is_never_short_by_more_than_a_fiftieth(one: Food, used: float, system: str) -> None:
    bought = one.as_purchased(ureg.Quantity(used, "gram"))
    listed = amount(shopping_text(one, bought, system).split(" (")[0])
    if listed.check("[mass]"):
        assert grams(listed) >= 0.979 * grams(bought)
    else:
        assert grams(one.to_grams(listed)) >= 0.93 * used


@EACH_FOOD
def test_a_size_on_the_shelf_is_an_amount_that_can_be_weighed_or_poured(one: Food) -> None:
    for size in one.buy:
        if size.amount is not None and not size.amount.check("[volume]"):
            assert grams(one.to_grams(size.amount)) > 0
        assert size.words


def test_sizes_are_read_from_their_words() -> None:
    assert FOODS["crushed tomatoes, canned"].buy[1].amount == ureg.Quantity(28, "ounce")
    assert FOODS["egg"].buy[0].amount == ureg.Quantity(12, "large")
    assert FOODS["milk, whole"].buy[1].amount == ureg.Quantity(0.5, "gallon")
    assert FOODS["onion"].buy[0].amount is None


SOUND = """\
[leek]
plural = "leeks"
kind = "produce"
section = "produce"
ndb = "11246"
sr26 = "Leeks, (bulb and lower leaf-portion), raw"
measures = [{ unit = "tsp", grams = 2, ours = true }]
buy = ["each"]
"""


def test_a_table_that_is_sound_is_read() -> None:
    assert read_food_table(SOUND, "table")["leek"].measures[0].unit == "teaspoon"


@pytest.mark.parametrize(
    ("right", "wrong", "what"),
    [
        ('kind = "produce"', 'kind = "mineral"', "unknown kind 'mineral'"),
        ("grams = 2", "grams = 0", "more than 0"),
        ("ours = true", "ours = false", "either of SR26 or ours"),
        ('"tsp"', '"sack"', "unknown unit 'sack'"),
        ('ndb = "11246"\n', "", "NDB number"),
        ('buy = ["each"]', "buy = []", "expected something"),
        ('section = "produce"', 'section = "attic"', "produce"),
        ('plural = "leeks"', 'plurals = "leeks"', "leek.plurals"),
        ('buy = ["each"]', 'buy = ["each"]\nallergens = ["gluten"]', "allergens"),
        ('buy = ["each"]', 'buy = ["each"]\nliquid = true', "weight of its cup"),
    ],
)
def test_a_table_at_fault_is_refused_with_its_place(right: str, wrong: str, what: str) -> None:
    assert right in SOUND
    with pytest.raises(InputFault) as caught:
        read_food_table(SOUND.replace(right, wrong), "table")
    assert what in str(caught.value)
    assert "table, leek" in str(caught.value)


def test_all_faults_of_a_table_are_told_at_once() -> None:
    bad = SOUND.replace("grams = 2", "grams = -2").replace('"produce"\nndb', '"attic"\nndb')
    with pytest.raises(InputFault) as caught:
        read_food_table(bad, "table")
    assert len(caught.value.complaints) == 2
