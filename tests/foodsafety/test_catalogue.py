"""Every figure with its source."""

from __future__ import annotations

import datetime as dt

import pytest

from batchcook.complaints import InputFault
from batchcook.foodsafety.allergens import allergens
from batchcook.foodsafety.catalogue import about, entries, topics
from batchcook.foodsafety.limits import limits
from batchcook.foodsafety.storage import storage_rows
from batchcook.foodsafety.tables import sources, table
from batchcook.foodsafety.temperatures import safe_temperatures
from batchcook.foodsafety.thermal import thermal_values


def test_no_row_lacks_its_figure_its_scope_its_source_or_its_date() -> None:
    for entry in entries():
        assert entry.topic
        assert entry.figure
        assert entry.scope
        assert entry.source
        assert entry.checked <= dt.datetime.now(tz=dt.UTC).date()


def test_every_row_of_every_table_is_in_the_catalogue() -> None:
    shown = {entry.name for entry in entries()}
    for rows in (storage_rows(), limits(), safe_temperatures(), allergens(), thermal_values()):
        assert set(rows) <= shown
    for part in table("freezer_quality").values():
        assert set(part) <= shown


def test_a_row_is_found_with_its_source() -> None:
    (found,) = about("soup-or-stew")
    assert found.figure == "refrigerator 3 to 4 days, freezer 2 to 3 months"
    assert found.source.startswith("FoodSafety.gov, Cold Food Storage Chart")


def test_both_publishers_of_a_disagreement_are_shown() -> None:
    figures = [entry.figure for entry in about("cooked-fish")]
    assert figures[0] == "refrigerator 3 to 4 days, freezer 3 months"
    assert figures[1] == "freezer 4 to 6 months (not used: the stricter stands)"


def test_what_comes_from_memory_says_so() -> None:
    (found,) = about("cook-from-frozen")
    assert found.source.endswith("(from memory)")
    (found,) = about("refreezing")
    assert "from memory" not in found.source


def test_assumptions_are_told_from_handbook_values() -> None:
    for entry in entries("Cooling and freezing estimates"):
        assumed = "our own assumption" in entry.source
        assert assumed == ("assumption" in entry.figure)
        assert assumed != ("handbook" in entry.figure)


def test_topics_split_the_whole() -> None:
    assert sum(len(entries(topic)) for topic in topics()) == len(entries())


def test_an_unknown_row_and_an_unknown_topic_suggest_the_nearest() -> None:
    with pytest.raises(InputFault) as fault:
        about("soup-or-stow")
    assert fault.value.complaints[0].suggestion == "soup-or-stew"
    with pytest.raises(InputFault) as fault:
        entries("thawin")
    assert fault.value.complaints[0].suggestion == "Thawing"


def test_every_source_is_used() -> None:
    told = " ".join(entry.source for entry in entries())
    unused = [source.key for source in sources().values() if source.title not in told]
    assert unused == ["incropera", "singh-heldman"]  # formulas, not figures
