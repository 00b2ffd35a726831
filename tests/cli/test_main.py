"""What becomes of faults on the way out."""

from __future__ import annotations

import re
import sys
from pathlib import Path
from types import SimpleNamespace

import pytest

from batchcook import planning
from batchcook.cli.main import run


def test_a_plan_that_its_check_rejects_is_withheld_with_one_line(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    out = tmp_path / "out"
    rejected = SimpleNamespace(dish="kit", food="chicken", what="was out for ever")
    monkeypatch.setattr(planning, "replay", lambda *_, **__: (rejected,))
    words = ["batchcook", "plan", "lemon-herb-chicken-kit", "--out", str(out)]
    monkeypatch.setattr(sys, "argv", words)
    with pytest.raises(SystemExit) as left:
        run()
    assert left.value.code == 3
    told = capsys.readouterr().err
    assert "was out for ever" in told
    assert "a fault of the program, not yours" in told
    assert not out.exists()


def test_ctrl_c_ends_with_one_line_and_the_code_that_shells_expect(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    def pressed(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    out = tmp_path / "out"
    monkeypatch.setattr(planning, "plan_day", pressed)
    monkeypatch.setattr(sys, "argv", ["batchcook", "plan", "cottage-pie", "--out", str(out)])
    with pytest.raises(SystemExit) as left:
        run()
    assert left.value.code == 130
    assert capsys.readouterr().err.strip() == "Stopped; no file is half written."
    assert not list(tmp_path.iterdir())


def test_faults_without_end_are_counted(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    file = tmp_path / "soup.toml"
    file.write_text("".join(f"key{number} = 1\n" for number in range(300)), "utf-8")
    monkeypatch.setattr(sys, "argv", ["batchcook", "recipes", "check", str(file)])
    with pytest.raises(SystemExit) as left:
        run()
    told = capsys.readouterr().err.splitlines()
    assert (left.value.code, len(told)) == (1, 101)
    assert re.fullmatch(r"And 2\d\d more\.", told[-1])
