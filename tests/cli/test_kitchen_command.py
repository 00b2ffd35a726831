"""``batchcook kitchen``: shown, checked, copied."""

from __future__ import annotations

import json
import re
from pathlib import Path

from typer.testing import CliRunner

from batchcook.cli.kitchen import app
from batchcook.complaints import InputFault
from batchcook.kitchens.kitchen import default_kitchen, load_kitchen

RUNNER = CliRunner()


def test_show_tells_who_cooks_and_with_what() -> None:
    told = RUNNER.invoke(app, ["show"], env={"COLUMNS": "200"})
    assert told.exit_code == 0
    for part in ("First cook", "burners", "6 quart", "12 inch", "degF"):
        assert part in told.stdout


def test_show_as_json_has_every_row() -> None:
    told = RUNNER.invoke(app, ["show", "--json"])
    assert told.exit_code == 0
    rows = json.loads(told.stdout)
    assert rows["title"] == default_kitchen().title
    assert {"cooks", "burners", "ovens", "skillets", "pots", "freezer", "room"} <= set(rows)


def test_the_template_is_the_default_kitchen(tmp_path: Path) -> None:
    told = RUNNER.invoke(app, ["template"])
    file = tmp_path / "ours.toml"
    file.write_text(told.stdout, "utf-8")
    assert load_kitchen(file) == default_kitchen()


def test_what_the_template_has_as_a_remark_can_be_put_to_use(tmp_path: Path) -> None:
    text = RUNNER.invoke(app, ["template"]).stdout
    entries = re.sub(r"^# (?=away|\[\[cooks|name|skills)", "", text, flags=re.MULTILINE)
    file = tmp_path / "ours.toml"
    file.write_text(entries, "utf-8")
    _, second, child = load_kitchen(file).cooks
    assert [each.why for each in second.away] == ["school run"]
    assert child.skills == frozenset()


def test_show_of_a_file_shows_that_kitchen(tmp_path: Path) -> None:
    file = tmp_path / "ours.toml"
    text = RUNNER.invoke(app, ["template"]).stdout
    file.write_text(text.replace("An ordinary kitchen", "The lake house"), "utf-8")
    assert "The lake house" in RUNNER.invoke(app, ["show", str(file)]).stdout


def test_check_of_a_sound_file_says_so(tmp_path: Path) -> None:
    file = tmp_path / "ours.toml"
    file.write_text(RUNNER.invoke(app, ["template"]).stdout, "utf-8")
    told = RUNNER.invoke(app, ["check", str(file)])
    assert told.exit_code == 0
    assert "in order" in told.stdout


def test_check_tells_every_fault_at_once(tmp_path: Path) -> None:
    file = tmp_path / "ours.toml"
    text = RUNNER.invoke(app, ["template"]).stdout
    file.write_text(
        text.replace('"12 inch"', '"12 bananas"').replace('"raw meat"', '"raw meet"'), "utf-8"
    )
    told = RUNNER.invoke(app, ["check", str(file)])
    assert isinstance(told.exception, InputFault)
    assert len(told.exception.complaints) == 3
    assert "12 bananas" in str(told.exception)
    assert "Did you mean 'raw meat'" in str(told.exception)


def test_check_of_a_file_that_is_not_there_names_it(tmp_path: Path) -> None:
    told = RUNNER.invoke(app, ["check", str(tmp_path / "none.toml")])
    assert isinstance(told.exception, InputFault)
    assert "none.toml" in str(told.exception)


def test_burners_are_shown_in_the_units_of_a_stove_label_too() -> None:
    told = RUNNER.invoke(app, ["show"], env={"COLUMNS": "200"}).stdout
    assert "9000 BTU/hour (2.6 kW) each" in told


def test_a_kitchen_told_in_litres_is_shown_without_long_fractions(tmp_path: Path) -> None:
    file = tmp_path / "ours.toml"
    text = RUNNER.invoke(app, ["template"]).stdout
    text = text.replace('"12 quart"', '"20 liter"').replace('"6 lb"', '"3 kg"')
    file.write_text(text.replace("ice_baths = 2", "ice_baths = 1"), "utf-8")
    told = RUNNER.invoke(app, ["show", str(file)], env={"COLUMNS": "200"}).stdout
    # 20 L / 0.946353 L and 3 kg / 0.453592 kg: NIST Handbook 44, Appendix C.
    assert "1 of 21.1 quart" in told
    assert "1 ice bath;" in told
    assert "makes 6.6 lb of ice" in told
