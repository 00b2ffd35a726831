from __future__ import annotations

import json

from typer.testing import CliRunner

from batchcook.cli.main import app
from batchcook.complaints import InputFault
from batchcook.foodsafety.catalogue import entries, topics

RUNNER = CliRunner()
WIDE = {"COLUMNS": "200"}


def test_without_words_every_topic_is_listed() -> None:
    told = RUNNER.invoke(app, ["safety"], env=WIDE)
    assert told.exit_code == 0
    assert all(topic in told.stdout for topic in topics())


def test_a_topic_shows_figures_with_scope_source_and_date() -> None:
    told = RUNNER.invoke(app, ["safety", "thawing"], env=WIDE)
    assert told.exit_code == 0
    for part in ("24 hours for each 4 to 5 lb", "USDA FSIS, The Big Thaw", "2026-11-25"):
        assert part in told.stdout


def test_a_topic_of_two_words_needs_no_quotes() -> None:
    assert RUNNER.invoke(app, ["safety", "cold", "storage"]).exit_code == 0


def test_charts_that_disagree_are_both_shown() -> None:
    told = RUNNER.invoke(app, ["safety", "cooked-meat-or-poultry", "--json"])
    rows = json.loads(told.stdout)
    assert rows[0]["figure"] == "refrigerator 3 to 4 days, freezer 2 to 6 months"
    told = RUNNER.invoke(app, ["safety", "cooked-meat-fsis", "--json"])
    assert json.loads(told.stdout)[0]["figure"].endswith("freezer 2 to 3 months")


def test_words_find_rows_that_mention_them() -> None:
    told = RUNNER.invoke(app, ["safety", "ice", "water", "around", "--json"])
    assert {row["name"] for row in json.loads(told.stdout)} == {"ice-water"}


def test_as_json_without_words_every_row_is_given() -> None:
    rows = json.loads(RUNNER.invoke(app, ["safety", "--json"]).stdout)
    assert len(rows) == len(entries())
    assert all(row["figure"] and row["source"] and row["checked"] for row in rows)


def test_what_nothing_is_about_is_refused_with_the_nearest() -> None:
    told = RUNNER.invoke(app, ["safety", "thawng"])
    assert isinstance(told.exception, InputFault)
    assert told.exception.complaints[0].suggestion == "Thawing"
