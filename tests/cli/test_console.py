from __future__ import annotations

import io

from rich.table import Column, Table

from batchcook.cli.console import Console, widths


def drawn(table: Table, width: int) -> str:
    file = io.StringIO()
    console = Console(file=file)
    console.width = width
    console.print_table(table)
    return file.getvalue()


def shopping() -> Table:
    table = Table("food", "take", "when")
    when = "the day before, if there is room for it; else that morning"
    table.add_row("butternut squash", "2", "")
    table.add_row("cauliflower", "1 head", "")
    table.add_row("ice", "20 lb", when)
    return table


def test_no_word_is_cut_while_all_words_fit() -> None:
    told = drawn(shopping(), 44)
    for word in ("butternut", "squash", "cauliflower", "20 lb", "morning"):
        assert word in told
    assert max(map(len, told.splitlines())) <= 44


def test_what_does_not_fit_at_all_goes_on_in_the_next_line() -> None:
    told = drawn(shopping(), 24)
    assert "…" not in told
    letters = "".join(line.split("│")[1].strip() for line in told.splitlines() if "│" in line)
    assert "cauliflower" in letters
    assert max(map(len, told.splitlines())) <= 24


def test_a_name_that_is_typed_on_stays_whole() -> None:
    table = Table(Column("recipe", no_wrap=True), "what it is")
    table.add_row("spinach-ricotta-shells", "Spinach and ricotta shells")
    assert "spinach-ricotta-shells" in drawn(table, 36)


def test_the_widest_gives_way_first() -> None:
    assert widths([10, 30, 5], [[4, 6, 5]], 35) == (10, 20, 5)
    assert widths([10, 30, 5], [[4, 6, 5], [2, 2, 2]], 12) == (4, 4, 4)
    assert widths([3, 3], [[3, 3]], 40) == (3, 3)
