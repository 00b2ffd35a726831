"""The usual cautions."""

from __future__ import annotations

import pytest

from batchcook.foodsafety.cautions import PAPERS, cautions


@pytest.mark.parametrize("paper", PAPERS)
def test_every_paper_defers_to_current_guidance_and_asks_for_a_thermometer(paper: str) -> None:
    text = " ".join(caution.text for caution in cautions(paper))
    assert "USDA FSIS" in text
    assert "thermometer" in text


@pytest.mark.parametrize("paper", PAPERS)
def test_no_caution_stands_twice_on_a_paper(paper: str) -> None:
    texts = [caution.text for caution in cautions(paper)]
    assert len(texts) == len(set(texts))


def test_selling_food_is_referred_to_the_health_department() -> None:
    assert any("health department" in caution.text for caution in cautions("run-sheet"))


def test_a_passed_quality_date_is_never_a_reason_to_throw_out() -> None:
    found = [caution.text for caution in cautions() if "quality dates" in caution.text]
    assert found
    for text in found:
        assert "throw" not in text.lower()
        assert "stays safe" in text


def test_cautions_of_all_papers_are_those_of_each() -> None:
    assert {c.name for c in cautions()} == {c.name for p in PAPERS for c in cautions(p)}


def test_an_unknown_paper_is_refused() -> None:
    with pytest.raises(ValueError, match="napkin"):
        cautions("napkin")
