from __future__ import annotations

from batchcook.tomlplaces import Places

TEXT = '''\
title = "A"
list = [
  "one",
  "two",     # [ not a bracket
]
after_list = 1

[plain]
"quoted key" = { inner = 1 }
dotted.key = 2

[[items]]
name = "[[items]]"
words = """
name = "not a key"
"""
last = 1

[[items]]
name = 'second'
[items.more]
deep = 1
'''


def test_places_name_the_line_of_a_key_after_values_over_several_lines() -> None:
    places = Places.of("file.toml", TEXT)
    assert places.at("title") == "file.toml, title (line 1)"
    assert places.at("list") == "file.toml, list (line 2)"
    assert places.at("after_list") == "file.toml, after_list (line 6)"
    assert places.at("items", 0, "last") == "file.toml, items[1].last (line 17)"


def test_lists_of_tables_are_counted_from_one() -> None:
    places = Places.of("file.toml", TEXT)
    assert places.at("items", 0) == "file.toml, items[1] (line 12)"
    assert places.at("items", 1, "name") == "file.toml, items[2].name (line 20)"


def test_a_table_inside_a_list_belongs_to_its_last_entry() -> None:
    places = Places.of("file.toml", TEXT)
    assert places.at("items", 1, "more", "deep") == "file.toml, items[2].more.deep (line 22)"


def test_quoted_and_dotted_keys_are_found() -> None:
    places = Places.of("file.toml", TEXT)
    assert places.at("plain", "quoted key") == "file.toml, plain.quoted key (line 9)"
    assert places.at("plain", "dotted", "key") == "file.toml, plain.dotted.key (line 10)"


def test_a_place_inside_a_value_has_the_line_on_which_the_value_begins() -> None:
    places = Places.of("file.toml", TEXT)
    assert places.at("list", 1) == "file.toml, list[2] (line 2)"
    assert places.at("plain", "quoted key", "inner") == (
        "file.toml, plain.quoted key.inner (line 9)"
    )


def test_a_key_that_is_missing_has_the_line_of_its_table_or_none() -> None:
    places = Places.of("file.toml", TEXT)
    assert places.at("items", 1, "amount") == "file.toml, items[2].amount (line 19)"
    assert places.at("nowhere") == "file.toml, nowhere"
    assert places.at() == "file.toml"


def test_what_looks_like_a_key_inside_a_text_is_none() -> None:
    places = Places.of("file.toml", TEXT)
    assert places.lines["items", 0, "name"] == 13
