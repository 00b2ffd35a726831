"""Each mishap for real: the process killed, the disk full, the file damaged."""

from __future__ import annotations

import datetime as dt
import os
import random
import resource
import shutil
import signal
import sqlite3
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from freezer_process import NOW, ROOT, check_integrity, put_in, run, soup

from batchcook.complaints import InputFault
from batchcook.freezer import store
from batchcook.freezer.changes import Moment, add
from batchcook.freezer.copies import DAYS_KEPT, copy_place, last_copy
from batchcook.freezer.layout import LAYOUTS
from batchcook.freezer.stock import stock_of
from batchcook.freezer.store import read_journal

WRITER = """\
import sys
sys.path.insert(0, "tests/freezer")
from pathlib import Path
from freezer_process import put_in
while True:
    print(*put_in(Path(sys.argv[1]), 3), flush=True)
"""

TAKER = """\
import sys
sys.path.insert(0, "tests/freezer")
from pathlib import Path
from batchcook.complaints import InputFault
from batchcook.freezer.changes import Moment, take
from freezer_process import DAY, NOW, put_in
place = Path(sys.argv[1])
for number in range(1, 21):
    try:
        take(place, [f"Z{number}"], Moment(NOW, DAY))
        print("took", number)
    except InputFault as fault:
        assert "is not in the freezer any more" in str(fault), fault
    print("added", *put_in(place))
"""


@pytest.fixture
def place(tmp_path: Path) -> Path:
    return tmp_path / "freezer.sqlite"


def codes_in(place: Path) -> set[str]:
    return {each.code for each in stock_of(read_journal(place)).here.values()}


def test_killed_at_any_moment_it_holds_all_that_was_reported_and_no_half_step(place: Path) -> None:
    chance = random.Random(5)  # noqa: S311 - moments to kill at, no secret
    reported: set[str] = set()
    for _ in range(12):
        with subprocess.Popen(
            [sys.executable, "-c", WRITER, str(place)],
            cwd=ROOT,
            stdout=subprocess.PIPE,
            text=True,
        ) as writer:
            assert writer.stdout is not None
            first = writer.stdout.readline()
            time.sleep(chance.uniform(0.0, 0.15))
            writer.send_signal(signal.SIGKILL)
            rest = writer.stdout.read()
        assert writer.returncode == -signal.SIGKILL
        whole_lines = (first + rest).rpartition("\n")[0].split()
        reported |= set(whole_lines)
        journal = read_journal(place)
        check_integrity(place)
        assert reported <= codes_in(place)
        steps: dict[int, int] = {}
        for entry in journal.entries:
            steps[entry.step] = steps.get(entry.step, 0) + 1
        assert set(steps.values()) == {3}
    assert len(reported) > 36


def test_two_commands_at_once_lose_nothing_and_take_nothing_twice(place: Path) -> None:
    put_in(place, 20)
    workers = [
        subprocess.Popen(
            [sys.executable, "-c", TAKER, str(place)],
            cwd=ROOT,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
        )
        for _ in range(4)
    ]
    told = [worker.communicate(timeout=120) for worker in workers]
    assert [errors for _, errors in told] == [""] * 4
    lines = [line.split() for said, _ in told for line in said.splitlines()]
    took = [words[1] for words in lines if words[0] == "took"]
    added = [words[1] for words in lines if words[0] == "added"]
    assert sorted(map(int, took)) == list(range(1, 21))
    assert len(set(added)) == 80
    assert codes_in(place) == set(added)
    check_integrity(place)


def test_a_command_waits_no_longer_than_its_patience_for_another(
    place: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    put_in(place)
    monkeypatch.setattr(store, "PATIENCE_SECONDS", 0.1)
    other = sqlite3.connect(place, isolation_level=None)
    try:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(InputFault, match="another command is still writing"):
            put_in(place)
    finally:
        other.close()
    assert codes_in(place) == {"Z1"}


@pytest.mark.parametrize("room", [0, 4096, 12288])
def test_a_full_disk_changes_nothing_and_says_so(place: Path, room: int) -> None:
    put_in(place)
    put_in(place)
    shutil.rmtree(copy_place(place, "").parent)
    before = read_journal(place)
    limit = place.stat().st_size + room

    def with_little_room() -> None:
        resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))

    words = ("throw", "Z1", "--why", "x" * 30_000)
    full = run(*words, "--store", str(place), before=with_little_room)
    assert full.returncode == 1
    assert "disk is full or fails" in full.stderr
    assert "nothing was changed" in full.stderr
    assert read_journal(place) == before
    check_integrity(place)
    assert run(*words, "--store", str(place)).returncode == 0
    assert codes_in(place) == {"Z2"}


def test_no_room_even_for_a_copy_changes_nothing_and_says_so(place: Path) -> None:
    put_in(place)
    limit = place.stat().st_size // 2
    shutil.rmtree(copy_place(place, "").parent, ignore_errors=True)

    def with_no_room() -> None:
        resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))

    full = run("take", "Z1", "--store", str(place), before=with_no_room)
    assert full.returncode == 1
    assert "nothing was changed" in full.stderr
    assert codes_in(place) == {"Z1"}
    check_integrity(place)
    assert not list(copy_place(place, "").parent.glob("*"))


@pytest.fixture
def seen_by_all() -> Iterator[Path]:
    folder = Path(tempfile.mkdtemp())
    folder.chmod(0o755)
    yield folder
    folder.chmod(0o755)
    shutil.rmtree(folder)


def as_someone_who_may_only_read(work: Callable[[], object]) -> str:
    """What came of it in a process of another user: the superuser may write anything."""
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        try:
            if os.getuid() == 0:
                os.setgroups([])
                os.setgid(65534)
                os.setuid(65534)
            said = str(work())
        except BaseException as fault:  # noqa: BLE001 - told to the parent whatever it is
            said = f"{type(fault).__name__} {fault}"
        os.write(writing, said.encode())
        os._exit(0)
    os.waitpid(child, 0)
    os.close(writing)
    with os.fdopen(reading) as file:
        return file.read()


def test_a_file_that_may_only_be_read_is_listed_but_not_changed(seen_by_all: Path) -> None:
    place = seen_by_all / "freezer.sqlite"
    put_in(place)
    before = place.read_bytes()
    place.chmod(0o444)
    seen_by_all.chmod(0o555)
    assert as_someone_who_may_only_read(lambda: codes_in(place)) == "{'Z1'}"
    refused = as_someone_who_may_only_read(lambda: put_in(place))
    assert refused.startswith("InputFault")
    assert "cannot be written" in refused
    assert "nothing was changed" in refused
    assert place.read_bytes() == before
    check_integrity(place)


@pytest.mark.parametrize("words", [("list",), ("take", "Z1"), ("undo",)])
def test_a_file_of_a_newer_version_is_not_touched(place: Path, words: tuple[str, ...]) -> None:
    put_in(place)
    connection = sqlite3.connect(place)
    connection.execute(f"PRAGMA user_version = {len(LAYOUTS) + 1}")
    connection.close()
    before = place.read_bytes()
    refused = run(*words, "--store", str(place))
    assert refused.returncode == 1
    assert "newer version" in refused.stderr
    assert "bring it up to date" in refused.stderr
    assert place.read_bytes() == before


def test_the_file_of_another_program_is_not_touched(place: Path) -> None:
    connection = sqlite3.connect(place)
    connection.execute("CREATE TABLE letters (text)")
    connection.commit()
    connection.close()
    before = place.read_bytes()
    with pytest.raises(InputFault, match="belongs to another program"):
        put_in(place)
    assert place.read_bytes() == before


@pytest.mark.parametrize("words", [("list",), ("take", "Z1"), ("undo",)])
def test_a_file_cut_to_nothing_is_no_empty_freezer(place: Path, words: tuple[str, ...]) -> None:
    put_in(place)
    put_in(place)
    copy = last_copy(place)
    assert copy is not None
    os.truncate(place, 0)
    refused = run(*words, "--store", str(place))
    assert refused.returncode == 1
    assert "is an empty file, no freezer: what it held is gone" in refused.stderr
    assert str(copy) in refused.stderr
    assert place.stat().st_size == 0
    shutil.copy(copy, place)
    assert codes_in(place) == {"Z1"}


def test_an_empty_file_without_a_copy_is_named_and_left(place: Path) -> None:
    place.touch()
    for work in (lambda: put_in(place), lambda: read_journal(place)):
        with pytest.raises(InputFault, match=r"is an empty file.*no copy.*remove it to begin anew"):
            work()
    assert place.stat().st_size == 0
    place.unlink()
    assert put_in(place) == ("Z1",)


def damage_header(place: Path) -> None:
    with place.open("r+b") as file:
        file.write(b"no database at all" * 4)


def damage_middle(place: Path) -> None:
    with place.open("r+b") as file:
        file.seek(place.stat().st_size // 2)
        file.write(b"\xff" * 6000)


def damage_letter(place: Path) -> None:
    content = place.read_bytes()
    assert b"Minestrone" in content
    place.write_bytes(content.replace(b"Minestrone", b"Minestrune", 1))


def damage_end(place: Path) -> None:
    with place.open("r+b") as file:
        file.truncate(place.stat().st_size - 5000)


@pytest.mark.parametrize("damage", [damage_header, damage_middle, damage_letter, damage_end])
@pytest.mark.parametrize("words", [("list",), ("take", "Z1")])
def test_a_damaged_file_is_left_alone_and_its_copy_named(
    place: Path, damage: object, words: tuple[str, ...]
) -> None:
    put_in(place, 60)
    put_in(place, 60)
    copy = last_copy(place)
    assert copy is not None
    assert callable(damage)
    damage(place)
    before = place.read_bytes()
    refused = run(*words, "--store", str(place))
    assert refused.returncode == 1
    assert "is damaged" in refused.stderr
    assert str(copy) in refused.stderr
    assert place.read_bytes() == before
    shutil.copy(copy, place)
    check_integrity(place)
    assert len(codes_in(place)) == 60


def test_damage_before_there_is_any_copy_says_so(place: Path) -> None:
    put_in(place)
    damage_header(place)
    with pytest.raises(InputFault, match="there is no copy of it yet"):
        read_journal(place)


@pytest.mark.parametrize("statement", ["DELETE FROM journal", "UPDATE journal SET subject = 'x'"])
def test_the_file_itself_refuses_to_change_or_delete_an_entry(place: Path, statement: str) -> None:
    put_in(place)
    connection = sqlite3.connect(place)
    with pytest.raises(sqlite3.IntegrityError, match="entries are never"):
        connection.execute(statement)
    connection.close()
    assert codes_in(place) == {"Z1"}


def with_a_second_layout(monkeypatch: pytest.MonkeyPatch, *statements: str) -> None:
    monkeypatch.setattr(store, "LAYOUTS", (*LAYOUTS, statements))


def test_a_new_layout_comes_with_a_copy_of_the_old_file(
    place: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    put_in(place, 3)
    with_a_second_layout(monkeypatch, "ALTER TABLE household ADD COLUMN name TEXT")
    assert codes_in(place) == {"Z1", "Z2", "Z3"}
    copy = copy_place(place, "layout-1")
    check_integrity(place)
    check_integrity(copy)
    monkeypatch.undo()
    assert codes_in(copy) == {"Z1", "Z2", "Z3"}
    with pytest.raises(InputFault, match="newer version"):
        read_journal(place)


def test_a_new_layout_that_fails_half_way_leaves_the_old_one(
    place: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    put_in(place, 3)
    with_a_second_layout(
        monkeypatch, "ALTER TABLE household ADD COLUMN name TEXT", "INSERT INTO nowhere VALUES (1)"
    )
    with pytest.raises(InputFault):
        put_in(place)
    monkeypatch.undo()
    assert codes_in(place) == {"Z1", "Z2", "Z3"}
    check_integrity(place)


def test_a_copy_is_made_before_the_first_change_of_each_day_and_old_ones_go(place: Path) -> None:
    for day in range(DAYS_KEPT + 4):
        now = NOW + dt.timedelta(days=day)
        for _ in range(2):
            add(place, soup(), 1, Moment(now, now.date()))
    copies = sorted(copy_place(place, "").parent.iterdir())
    assert len(copies) == DAYS_KEPT
    assert copies[-1].name == f"{(NOW + dt.timedelta(days=DAYS_KEPT + 3)).date()}.sqlite"
    assert len(codes_in(copies[-1])) == 2 * (DAYS_KEPT + 3)


def test_reading_makes_no_file(place: Path) -> None:
    assert read_journal(place).entries == ()
    assert not place.exists()
