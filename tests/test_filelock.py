"""What two write at once is all there afterwards."""

from __future__ import annotations

import time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from batchcook.filelock import held


def test_who_comes_second_reads_what_the_first_wrote(tmp_path: Path) -> None:
    file = tmp_path / "count"
    file.write_text("0")

    def one_more(_: int) -> None:
        with held(tmp_path):
            count = int(file.read_text())
            time.sleep(0.002)
            file.write_text(str(count + 1))

    with ThreadPoolExecutor(max_workers=8) as together:
        list(together.map(one_more, range(40)))
    assert file.read_text() == "40"
    assert [each.name for each in tmp_path.iterdir()] == ["count"]


def test_a_folder_that_is_not_there_holds_nobody_up(tmp_path: Path) -> None:
    with held(tmp_path / "none"):
        assert not (tmp_path / "none").exists()


def test_a_fault_lets_go(tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="x"), held(tmp_path):
        raise ValueError("x")
    with held(tmp_path):
        assert tmp_path.is_dir()
