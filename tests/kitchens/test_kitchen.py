"""The kitchen file."""

from pathlib import Path

import pytest

from batchcook.complaints import InputFault
from batchcook.kitchens.kitchen import default_kitchen, load_kitchen
from batchcook.kitchens.written import parse_clock

GOOD = """
[[cooks]]
name = "Mara"

[burners]
count = 4

[refrigerator]
free = "3 cubic_foot"
temperature = "37 degF"

[freezer]
free = "4 cubic_foot"
temperature = "0 degF"
"""


def _complaints(folder: Path, text: str) -> list[str]:
    file = folder / "kitchen.toml"
    file.write_text(text)
    with pytest.raises(InputFault) as caught:
        load_kitchen(file)
    return [str(each) for each in caught.value.complaints]


def test_the_default_kitchen_has_what_an_ordinary_kitchen_has() -> None:
    kitchen = default_kitchen()
    assert len(kitchen.cooks) == 2
    assert kitchen.burners.count == 4
    assert [oven.shelves for oven in kitchen.ovens] == [2]
    assert sum(each.count for each in kitchen.slow_cookers) == 1
    assert float(kitchen.slow_cookers[0].size.to("quart").magnitude) == pytest.approx(6)
    assert sum(each.count for each in kitchen.skillets) == 2
    assert sum(each.count for each in kitchen.pots) == 4


def test_equal_pots_are_counted_together_from_the_largest_down(tmp_path: Path) -> None:
    file = tmp_path / "kitchen.toml"
    sizes = ("5", "8", "5")
    file.write_text(GOOD + "".join(f'\n[[pots]]\nsize = "{size} quart"\n' for size in sizes))
    pots = load_kitchen(file).pots
    assert [(float(each.size.magnitude), each.count) for each in pots] == [(8.0, 1), (5.0, 2)]


def test_every_fault_of_a_kitchen_file_is_told_at_once(tmp_path: Path) -> None:
    text = GOOD.replace('name = "Mara"', 'name = "Mara"\nskills = ["knive"]').replace(
        'free = "4 cubic_foot"', 'free = "4 bananas"'
    )
    told = _complaints(tmp_path, text)
    assert len(told) == 2
    assert any("'knive'" in each and "Did you mean 'knife'?" in each for each in told)
    assert any("freezer.free" in each and "4 bananas" in each for each in told)


def test_an_unknown_key_is_answered_with_the_nearest_one(tmp_path: Path) -> None:
    told = _complaints(tmp_path, GOOD + '\n[[skilets]]\nsize = "12 inch"\n')
    assert any("skilets" in each and "skillets" in each for each in told)


def test_a_kitchen_without_cooks_is_refused(tmp_path: Path) -> None:
    told = _complaints(tmp_path, "cooks = []\n" + GOOD.replace('[[cooks]]\nname = "Mara"\n', ""))
    assert any("cooks" in each for each in told)


def test_two_cooks_of_one_name_are_refused(tmp_path: Path) -> None:
    told = _complaints(tmp_path, GOOD + '\n[[cooks]]\nname = "mara"\n')
    assert any("2 cooks are called 'mara'" in each for each in told)


def test_an_absence_that_ends_before_it_begins_is_refused(tmp_path: Path) -> None:
    text = GOOD.replace(
        'name = "Mara"', 'name = "Mara"\naway = [{ from = "13:00", to = "12:00", why = "lunch" }]'
    )
    assert any("before it begins" in each for each in _complaints(tmp_path, text))


def test_a_file_that_is_not_there_is_named(tmp_path: Path) -> None:
    with pytest.raises(InputFault, match=r"nowhere\.toml"):
        load_kitchen(tmp_path / "nowhere.toml")


@pytest.mark.parametrize("text", ["8", "8:0:0", "25:00", "noon"])
def test_a_time_of_day_is_hours_and_minutes(text: str) -> None:
    with pytest.raises(InputFault, match="no time of day"):
        parse_clock(text, "--start")


def test_a_cook_away_backwards_is_told_beside_other_faults(tmp_path: Path) -> None:
    text = GOOD.replace(
        'name = "Mara"',
        'name = "Mara"\nskills = ["knive"]\naway = [{ from = "13:00", to = "12:00" }]',
    )
    assert len(_complaints(tmp_path, text)) == 2


def test_a_kitchen_that_says_nothing_of_pans_has_the_usual_ones(tmp_path: Path) -> None:
    file = tmp_path / "kitchen.toml"
    file.write_text(GOOD)
    kitchen = load_kitchen(file)
    assert kitchen.sheet_pans == default_kitchen().sheet_pans
    assert kitchen.baking_dishes == default_kitchen().baking_dishes


def test_a_kitchen_may_have_no_pans_or_its_own(tmp_path: Path) -> None:
    file = tmp_path / "kitchen.toml"
    dishes = "".join(f'\n[[baking_dishes]]\nsize = "{s}"\n' for s in ("9x13 inch", "13 x 9 inch"))
    file.write_text("sheet_pans = []\n" + GOOD + dishes)
    kitchen = load_kitchen(file)
    assert kitchen.sheet_pans == ()
    assert [(each.size, each.count) for each in kitchen.baking_dishes] == [("9x13 inch", 2)]


def test_every_fault_of_a_pan_is_told_with_its_place(tmp_path: Path) -> None:
    told = _complaints(
        tmp_path,
        GOOD
        + '\n[[sheet_pans]]\nsize = "13 by 18"\n'
        + '\n[[baking_dishes]]\nsize = "8x8 inch"\n'
        + '\n[[baking_dishes]]\nsize = "8x80 inch"\n',
    )
    assert len(told) == 2
    assert any("sheet_pans[1].size" in each and "'13 by 18'" in each for each in told)
    assert any("baking_dishes[2].size" in each and "22 inch" in each for each in told)


def test_a_misspelt_kind_of_pan_is_answered_with_the_nearest_one(tmp_path: Path) -> None:
    told = _complaints(tmp_path, GOOD + '\n[[sheetpans]]\nsize = "13x18 inch"\n')
    assert any("Did you mean 'sheet_pans'?" in each for each in told)


def test_faults_of_shape_of_value_and_of_names_are_told_together_from_the_top(
    tmp_path: Path,
) -> None:
    text = (
        GOOD.replace('name = "Mara"', 'name = "Mara"\naway = [{ from = "noon", to = "13:00" }]')
        .replace("count = 4", "count = 40\npower = '9 bananas'")
        .replace('temperature = "0 degF"', 'temperature = "60 degF"\ncold = true')
    )
    told = _complaints(tmp_path, text + '\n[[cooks]]\nname = "mara"\n[[pots]]\nsize = "90 quart"\n')
    assert [each.partition(", ")[2] for each in told] == [
        "cooks[1].away[1].from (line 4): 'noon' is no time of day; expected one like 08:30",
        "burners.count (line 7): 40 does not fit here; expected a whole number, 0 to 12",
        "burners.power (line 8): '9 bananas' is no measure; expected something like '300 watt'",
        (
            "freezer.temperature (line 16): '60 degF' is out of reason; "
            "expected between -40 and 32 degF"
        ),
        "freezer.cold (line 17): unknown key 'cold'; expected one of capacity, free, temperature",
        (
            "cooks[2].name (line 20): 2 cooks are called 'mara'; expected a name of its own for "
            "each; small and capital letters count alike"
        ),
        "pots[1].size (line 22): '90 quart' is out of reason; expected between 1 and 40 quart",
    ]


def test_too_warm_a_freezer_or_refrigerator_is_told_with_its_place(tmp_path: Path) -> None:
    """The limits are the published ones: 0 degF and 40 degF, of ``foodsafety/``."""
    warm = GOOD.replace('"0 degF"', '"20 degF"').replace('"37 degF"', '"43 degF"')
    first, second = _complaints(tmp_path, warm)
    assert "refrigerator.temperature (line 10): '43 degF' is too warm to keep food" in first
    assert "expected 40 degF or below" in first
    assert "freezer.temperature (line 14): '20 degF' is too warm to freeze food" in second
    assert "expected 0 degF or below" in second


@pytest.mark.parametrize(
    ("table", "hint"),
    [
        ("cooks", '[[cooks]], each with a name such as name = "First cook"'),
        ("burners", "count = 4"),
        ("refrigerator", 'temperature = "37 degF"'),
        ("freezer", 'temperature = "0 degF"'),
    ],
)
def test_a_table_that_is_missing_is_told_with_what_belongs_there(
    tmp_path: Path, table: str, hint: str
) -> None:
    parts = GOOD.split("\n\n")
    text = "\n\n".join(part for part in parts if f"[{table}]" not in part)
    (told,) = _complaints(tmp_path, text)
    assert f"{table}: is missing; expected" in told
    assert hint in told


def test_cooks_of_one_name_are_told_by_the_name_as_written(tmp_path: Path) -> None:
    (told,) = _complaints(tmp_path, GOOD + '\n[[cooks]]\nname = "Mara"\n')
    assert "2 cooks are called 'Mara'; expected a name of its own for each" in told


def test_no_more_is_free_than_there_is(tmp_path: Path) -> None:
    text = GOOD.replace(
        'free = "4 cubic_foot"', 'capacity = "1 cubic_foot"\nfree = "20 cubic_foot"'
    )
    (told,) = _complaints(tmp_path, text)
    assert "'20 cubic_foot' is free of '1 cubic_foot'" in told


def test_a_cook_may_be_away_until_midnight(tmp_path: Path) -> None:
    file = tmp_path / "kitchen.toml"
    away = 'name = "Mara"\naway = [{ from = "18:00", to = "24:00" }]'
    file.write_text(GOOD.replace('name = "Mara"', away), "utf-8")
    (gone,) = load_kitchen(file).cooks[0].away
    assert (gone.start.hour, gone.end.hour, gone.end.minute) == (18, 23, 59)
    backwards = away.replace("18:00", "24:00").replace('to = "24:00"', 'to = "08:00"')
    (told,) = _complaints(tmp_path, GOOD.replace('name = "Mara"', backwards))
    assert "'24:00' is no time of day" in told
