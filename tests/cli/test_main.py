"""What becomes of faults on the way out."""

from __future__ import annotations

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
