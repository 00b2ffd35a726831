"""Files as editors save them, and what no editor would."""

from __future__ import annotations

from pathlib import Path

import pytest

from batchcook.complaints import InputFault
from batchcook.tomlfiles import parse_toml, read_json, read_text


def test_the_mark_that_some_editors_put_before_a_text_is_none_of_it(tmp_path: Path) -> None:
    file = tmp_path / "soup.toml"
    file.write_bytes('title = "Soupe \u00e0 l\'oignon"\r\n'.encode("utf-8-sig"))
    assert parse_toml(read_text(file, "a recipe file"), "soup.toml") == {
        "title": "Soupe \u00e0 l'oignon"
    }


@pytest.mark.parametrize("encoding", ["utf-16", "latin-1"])
def test_a_text_of_another_encoding_is_told_with_what_to_do(tmp_path: Path, encoding: str) -> None:
    file = tmp_path / "soup.toml"
    file.write_bytes("title = 'Soupe \u00e0 l\u00e9gumes'".encode(encoding))
    with pytest.raises(InputFault, match=r"is not UTF-8 text \(byte \d+\).*saved as UTF-8"):
        read_text(file, "a recipe file")


def test_what_no_paper_can_show_is_told_with_its_key() -> None:
    with pytest.raises(InputFault) as caught:
        parse_toml('steps = [{ words = "Stir.\\nWait.\\u001b[2J" }]\ntitle = "a\\u0007"', "a.toml")
    assert [each.where for each in caught.value.complaints] == [
        "a.toml, steps[1].words",
        "a.toml, title",
    ]


@pytest.mark.parametrize("text", ["[" * 100_000, "9" * 5000])
def test_json_that_is_too_large_to_be_read_is_told(tmp_path: Path, text: str) -> None:
    (tmp_path / "plan.json").write_text(text, "utf-8")
    with pytest.raises(InputFault, match="larger than can be read"):
        read_json(tmp_path / "plan.json", "a plan.json")
