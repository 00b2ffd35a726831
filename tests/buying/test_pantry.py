"""What is at home and what things cost, from a file and from the command line."""

from __future__ import annotations

from pathlib import Path

import pytest

from batchcook.buying.packs import choose, sizes
from batchcook.buying.pantry import load_pantry, parse_have, together
from batchcook.complaints import InputFault

GOOD = """
currency = "EUR "
[have]
onion = ["1 kg", "3 medium"]
flour = "2 cup"
[containers]
"quart tub" = 12
[prices.onion]
"3 lb bag" = 3.49
[prices."beef chuck"]
"by the pound" = 8.00
"""


def written(folder: Path, text: str) -> Path:
    file = folder / "pantry.toml"
    file.write_text(text, "utf-8")
    return file


def complaints(fault: InputFault) -> list[str]:
    return [str(each) for each in fault.complaints]


def test_a_file_says_what_is_at_home(tmp_path: Path) -> None:
    found = load_pantry(written(tmp_path, GOOD))
    # SR26: a medium onion is 110 g peeled, a tenth of it as bought is refuse.
    assert found.foods["onion"] == pytest.approx(1000 + 3 * 110 / 0.9)
    assert found.foods["flour"] == pytest.approx(250)
    assert found.containers == {"quart tub": 12}
    assert found.currency == "EUR "


def test_a_price_by_the_pound_is_a_price_of_the_scale_s_steps(tmp_path: Path) -> None:
    prices = load_pantry(written(tmp_path, GOOD)).prices
    (step,) = sizes("beef chuck")
    assert prices["beef chuck"][step] == pytest.approx(2.0)
    assert prices["onion"][sizes("onion")[0]] == 3.49


def test_what_a_choice_costs_has_no_fractions_of_a_cent(tmp_path: Path) -> None:
    text = '[prices."chicken thigh"]\n"by the pound" = 4\n'
    prices = load_pantry(written(tmp_path, text)).prices["chicken thigh"]
    assert choose(2722, sizes("chicken thigh")).cost(prices) == 24.0


def test_a_price_by_the_kilo_is_one_of_a_metric_list(tmp_path: Path) -> None:
    text = '[prices."beef chuck"]\n"by the kilo" = 14.0\n[prices.butter]\n"250 g block" = 2.5\n'
    prices = load_pantry(written(tmp_path, text)).prices
    (step,) = sizes("beef chuck", "metric")
    assert prices["beef chuck"][step] == pytest.approx(1.4)
    assert prices["butter"][sizes("butter", "metric")[0]] == 2.5


def test_every_fault_of_a_file_is_told_at_once_with_the_nearest_name(tmp_path: Path) -> None:
    text = """
[have]
onin = "2 kg"
carrot = "3 smidgen"
[containers]
"quart tubb" = 2
[prices.onion]
"3 lb bags" = 1
"""
    with pytest.raises(InputFault) as caught:
        load_pantry(written(tmp_path, text))
    told = "\n".join(complaints(caught.value))
    assert len(caught.value.complaints) == 4
    for near in ("'onion'?", "have.carrot (line 4)", "'quart tub'?", "'3 lb bag'?"):
        assert near in told


@pytest.mark.parametrize(
    "text",
    [
        "have = 3",
        "[have]\nonion = 3",
        "[containers]\n'quart tub' = -1",
        "[hav]",
        "not toml",
        "\x00",
    ],
)
def test_a_file_of_another_shape_is_refused(tmp_path: Path, text: str) -> None:
    with pytest.raises(InputFault):
        load_pantry(written(tmp_path, text))


def test_a_file_that_is_not_there_is_refused(tmp_path: Path) -> None:
    with pytest.raises(InputFault, match="cannot be read"):
        load_pantry(tmp_path / "none.toml")


def test_the_command_line_says_it_in_words_and_adds_up() -> None:
    found = parse_have(["onion 2 kg", "onion 1 kg", "milk, whole=1 quart", "quart tub 12"])
    assert found.foods["onion"] == pytest.approx(3000)
    assert found.foods["milk, whole"] == pytest.approx(976)
    assert found.containers == {"quart tub": 12}


def test_containers_whose_names_start_with_a_number_are_understood() -> None:
    assert parse_have(["8x8 inch foil pan 3"]).containers == {"8x8 inch foil pan": 3}


def test_every_word_that_cannot_be_read_is_told_at_once() -> None:
    with pytest.raises(InputFault) as caught:
        parse_have(["onin 2 kg", "egg", "carrot 2 smidgens", "onion -2 kg", ""])
    told = complaints(caught.value)
    assert len(told) == 5
    assert "Did you mean 'onion'?" in told[0]
    assert "has no amount" in told[1]
    assert "-2 kg is below zero" in told[3]


def test_two_pantries_add_up_and_the_later_price_stands(tmp_path: Path) -> None:
    first = load_pantry(written(tmp_path, GOOD))
    second = load_pantry(written(tmp_path, '[have]\nonion = "1 kg"\n[prices.onion]\n"each" = 0.5'))
    both = together([first, second])
    assert both.foods["onion"] == pytest.approx(first.foods["onion"] + 1000)
    assert set(both.prices["onion"].values()) == {3.49, 0.5}
    assert both.currency == "EUR "


def test_a_pantry_file_that_is_not_there_is_told_in_our_words(tmp_path: Path) -> None:
    with pytest.raises(InputFault) as caught:
        load_pantry(tmp_path / "nothere.toml")
    (told,) = complaints(caught.value)
    assert "cannot be read: no such file" in told
    assert "Errno" not in told
