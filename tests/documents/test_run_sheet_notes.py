"""Notes of last time on the first page of the run sheet."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest
from pdf_reading import page_sizes, texts
from sample_plan import sample_plan

from batchcook.cli.summary import print_summary
from batchcook.documents.runsheet import run_sheet_html, run_sheet_pdf
from batchcook.pacing.surewords import often_lost_lines
from batchcook.plan import AtRisk, Order, Plan, Sureness

NOTES = ("Turkey chili: made 5 tubs, not 6 (16 Dec 2026)", "Start <earlier> (16 Dec 2026)")


def test_notes_stand_on_the_first_page() -> None:
    plan = sample_plan().model_copy(update={"notes": NOTES})
    pages = {box.page for box in texts(run_sheet_pdf(plan)) if "Noted last time" in box.text}
    assert pages == {0}


def test_notes_do_not_push_anything_off_the_first_page() -> None:
    plain, noted = sample_plan(), sample_plan().model_copy(update={"notes": NOTES * 3})
    assert len(page_sizes(run_sheet_pdf(noted))) == len(page_sizes(run_sheet_pdf(plain)))


def test_words_of_a_note_are_never_taken_for_html() -> None:
    html = run_sheet_html(sample_plan().model_copy(update={"notes": NOTES}))
    assert "Start &lt;earlier&gt;" in html


def test_a_day_without_notes_says_nothing_of_them() -> None:
    assert "Noted last time" not in run_sheet_html(sample_plan())


def sure(*risks: AtRisk) -> Plan:
    plan = sample_plan()
    later = plan.finish + timedelta(minutes=40)
    told = Sureness(half=plan.finish, nine_of_ten=later, at_risk=risks)
    order = Order(day={"pad": 15}, recipes=())
    return plan.model_copy(update={"sure": told, "order": order})


def test_how_sure_the_finish_is_stands_on_the_first_page() -> None:
    plan = sure(AtRisk(dish="x", words="Turkey chili: turkey out too long", share=0.04))
    boxes = (box.text for box in texts(run_sheet_pdf(plan)) if box.page == 0)
    first = " ".join(" ".join(boxes).split())
    half, nine = f"{plan.finish:%H:%M}", f"{plan.finish + timedelta(minutes=40):%H:%M}"
    assert f"Done by {half} in half of all days, by {nine} in nine of ten." in first
    assert "15 % longer" in first
    assert "turkey out too long on 4 days of 100" in first
    assert "waits in the refrigerator" in first


def test_how_sure_it_is_pushes_nothing_off_the_first_page() -> None:
    risks = [AtRisk(dish="x", words="Turkey chili: turkey out too long", share=0.04)] * 3
    assert len(page_sizes(run_sheet_pdf(sure(*risks)))) == len(
        page_sizes(run_sheet_pdf(sample_plan()))
    )


def test_a_day_on_which_food_is_often_lost_leads_with_that_and_what_would_help() -> None:
    kit = AtRisk(dish="x", words="Chicken kit: chicken out too long", share=0.96)
    seldom = AtRisk(dish="y", words="Turkey chili: turkey out too long", share=0.04)
    plan = sure(kit, seldom)
    body = run_sheet_html(plan).partition("<body>")[2]
    warning = body.index("lost on this day: Chicken kit: chicken out too long on 96 days of 100.")
    assert warning < body.index("<h1>")
    assert warning < body.index("a dish less on the day, one more cook") < body.index("<h1>")
    assert len(page_sizes(run_sheet_pdf(plan))) == len(page_sizes(run_sheet_pdf(sample_plan())))
    assert "often be lost" not in run_sheet_html(sure(seldom))


def test_the_summary_of_plan_leads_with_it_too(capsys: pytest.CaptureFixture[str]) -> None:
    kit = AtRisk(dish="x", words="Chicken kit: chicken out too long", share=0.96)
    print_summary(sure(kit), Path("day"), ["plan.json"])
    told = " ".join(capsys.readouterr().out.split())
    assert told.startswith(
        "Food would often be lost on this day: Chicken kit: chicken out too long"
    )
    print_summary(sure(), Path("day"), ["plan.json"])
    assert "often be lost" not in capsys.readouterr().out


def test_what_would_help_is_something_that_the_day_has() -> None:
    plan = sample_plan()
    large = plan.dishes[0].model_copy(update={"batches": 2})
    lost = AtRisk(dish=large.id, words="Soup: broth out too long", share=0.5)
    alone = sure(lost).model_copy(update={"dishes": (large,)})
    assert f"What would help: a batch less of {large.title}, one more" in often_lost_lines(alone)[1]
    one = alone.model_copy(update={"dishes": (large.model_copy(update={"batches": 1}),)})
    assert "What would help: one more cook, or quicker cooling" in often_lost_lines(one)[1]


def later(**changes: object) -> str:
    plan = sample_plan()
    boxes = tuple(each.model_copy(update=changes) for each in plan.containers)
    html = run_sheet_html(plan.model_copy(update={"containers": boxes}))
    return html.partition("Out of the freezer, later")[2].partition("<h2>")[0]


def test_the_way_from_frozen_has_the_minutes_of_the_label() -> None:
    told = later(from_frozen=True, from_frozen_takes="35 min")
    assert "Straight from the freezer in 35 min; no slow cooker." in told
    assert "half as long" not in told
    assert "Straight from the freezer; no slow cooker." in later(from_frozen=True)


def test_cold_water_is_told_only_with_what_keeps_it_out() -> None:
    wrapped = "its tub sealed in a leak-proof bag"
    told = later(cold_water_minutes=81, cold_water_in=wrapped)
    assert f"in cold water, {wrapped}, the water changed every 30 min, about 85 min" in told
    assert "in cold water" not in later(cold_water_minutes=None)
    assert "in cold water" not in later(cold_water_minutes=85)  # a plan made before that was told


def test_raw_meat_thaws_on_a_tray_on_the_lowest_shelf() -> None:
    assert "ahead, on a tray on the lowest shelf." in later(state="raw-kit")
    assert "lowest shelf" not in later()
