"""What changed on a shopping list, as a page."""

from __future__ import annotations

from pdf_reading import words
from sample_plan import sample_plan

from batchcook.buying.purchasechanges import Change
from batchcook.documents.shoppingchanges import changes_html, changes_pdf

MORE = Change("buy more", "onion", "produce", "4 medium", "1 bag of 3 lb", "1 bag of 3 lb and 4")
OUT = Change("leave out", "kale", "produce", "3 bunches", "3 bunches", "")


def test_what_is_left_out_comes_before_what_is_added() -> None:
    said = words(changes_pdf(sample_plan(), [MORE, OUT]))
    assert said.index("Leave out") < said.index("kale") < said.index("Buy more")
    assert "4 medium onions now 1 bag of 3 lb and 4, was 1 bag of 3 lb" in said


def test_the_page_says_that_nothing_changes() -> None:
    assert "Nothing changes." in changes_html(sample_plan(), [])


def test_words_are_never_taken_for_html() -> None:
    page = changes_html(sample_plan(), [Change("buy", "<b>", "", "1", "", "1")])
    assert "&lt;b&gt;" in page
