"""The labels command."""

from __future__ import annotations

from pathlib import Path

import pytest
import typer
from pdf_reading import texts
from sample_plan import sample_plan
from typer.testing import CliRunner

from batchcook.cli.labels import labels
from batchcook.complaints import InputFault
from batchcook.plan import write_plan

app = typer.Typer()
app.command()(labels)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "plan.json").write_text(write_plan(sample_plan(2, 1)), "utf-8")
    return tmp_path


def test_one_label_is_reprinted_on_the_stock_asked_for(folder: Path) -> None:
    out = folder / "one.pdf"
    asked = ["--sheet", "1.33x4", "--only", "B3", "--start-at", "4", "--out", str(out)]
    done = CliRunner().invoke(app, [str(folder), *asked])
    assert done.exit_code == 0, done.output
    codes = [box.text for box in texts(out.read_bytes()) if box.text in {"A1", "B2", "B3"}]
    assert codes == ["B3"]


def test_a_wrong_code_is_a_fault_and_writes_nothing(folder: Path) -> None:
    out = folder / "none.pdf"
    done = CliRunner().invoke(app, [str(folder), "--only", "Q1", "--out", str(out)])
    assert isinstance(done.exception, InputFault)
    assert not out.exists()


@pytest.mark.parametrize("option", [["--blank", "3"], ["--test-page"]])
def test_blank_labels_and_the_test_page_need_no_plan(tmp_path: Path, option: list[str]) -> None:
    out = tmp_path / "made.pdf"
    done = CliRunner().invoke(app, [*option, "--out", str(out)])
    assert done.exit_code == 0, done.output
    assert out.read_bytes().startswith(b"%PDF")


def test_without_a_plan_it_says_what_is_missing() -> None:
    done = CliRunner().invoke(app, [])
    assert isinstance(done.exception, InputFault)
    assert "a plan folder" in str(done.exception)


def test_the_stock_at_hand_is_listed_by_size() -> None:
    done = CliRunner().invoke(app, ["--sheets"])
    assert "2 x 4 inch, 10 to a Letter page" in done.output


@pytest.mark.parametrize("name", ["labels.txt", "labels.html", "labels"])
def test_a_pdf_is_not_written_under_the_name_of_something_else(folder: Path, name: str) -> None:
    out = folder / name
    done = CliRunner().invoke(app, [str(folder), "--out", str(out)])
    assert isinstance(done.exception, InputFault)
    assert "expected a name that ends in .pdf. Did you mean 'labels.pdf'" in str(done.exception)
    assert not out.exists()


def test_an_ending_in_capitals_is_the_same_ending(folder: Path) -> None:
    done = CliRunner().invoke(app, [str(folder), "--out", str(folder / "L.PDF")])
    assert done.exit_code == 0, done.output
