"""The run sheet: every task once, in words of the kitchen."""

from __future__ import annotations

import itertools
import re
from dataclasses import replace
from datetime import timedelta

import pytest
from pdf_reading import page_sizes, texts, words
from planned_days import planned
from sample_plan import sample_plan

from batchcook.complaints import InputFault
from batchcook.documents import pages
from batchcook.documents.columns import Entry, columns
from batchcook.documents.pages import paged
from batchcook.documents.pdf import PAPERS, Paper, check_paper
from batchcook.documents.runsheet import run_sheet_html, run_sheet_pdf
from batchcook.plan import Plan


@pytest.fixture(scope="module")
def plan() -> Plan:
    return sample_plan()


def entries(plan: Plan) -> list[Entry]:
    return [entry for column in columns(plan) for entry in column.entries]


def visible(html: str) -> str:
    body = html.partition("<body>")[2]
    return " ".join(re.sub(r"<[^>]+>", " ", body).split())


def test_every_task_with_hands_is_in_one_entry_of_its_own_cook(plan: Plan) -> None:
    assert {task.cook for task in plan.tasks} - {None} == {each.cook for each in columns(plan)}
    for column in columns(plan):
        work = [entry for entry in column.entries if not entry.cue]
        for task in plan.tasks:
            if task.cook == column.cook:
                holding = [e for e in work if e.start <= task.start and task.end <= e.end]
                assert len(holding) == 1, task.id


def test_the_entries_of_a_column_are_in_order_of_time(plan: Plan) -> None:
    for column in columns(plan):
        starts = [entry.start for entry in column.entries]
        assert len(starts) > 1
        assert starts == sorted(starts)


def test_a_shared_run_is_one_entry_with_its_bowls_in_order(plan: Plan) -> None:
    [run] = plan.shared
    [entry] = [each for each in entries(plan) if each.title == run.title]
    assert [part.bowl for part in entry.parts] == [f"to the {bowl.name}" for bowl in run.bowls]
    assert [part.ready for part in entry.parts] == sorted(part.ready for part in entry.parts)
    assert "Dice onions" not in [each.title for each in entries(plan)]
    assert entry.end == run.end


def test_a_clean_down_stands_at_the_end_of_what_it_follows(plan: Plan) -> None:
    [meat, *_] = [each for each in entries(plan) if each.title == "Cube the meat"]
    assert meat.then == "Then wash and sanitize board and knife, wash hands 20 seconds"
    assert not [each for each in entries(plan) if each.title.startswith("Wash and sanitize")]


def test_what_cooks_by_itself_is_told_where_it_starts_and_called_out_when_done(plan: Plan) -> None:
    fill = next(each for each in entries(plan) if each.title == "Fill the pot")
    done = fill.end + timedelta(minutes=40)
    assert fill.onward[0].startswith(f"By itself until {done:%H:%M}: Simmer the")
    cues = [each for each in entries(plan) if each.cue]
    assert len(cues) == len(plan.dishes)
    assert all(
        re.match(r"Done: Simmer .*; keep it hot on low heat, at 140 degF or above, until", c.title)
        for c in cues
    )


def test_no_call_is_made_for_what_is_gone_on_with_at_once(plan: Plan) -> None:
    starts = {task.id: task.start for task in plan.tasks}
    prompt = [
        task.model_copy(update={"end": starts[task.id.replace("simmer", "season")]})
        if task.id.endswith("/simmer")
        else task
        for task in plan.tasks
    ]
    at_once = plan.model_copy(update={"tasks": tuple(prompt)})
    assert not [each for each in entries(at_once) if each.cue]


def test_each_safety_deadline_stands_with_its_task(plan: Plan) -> None:
    said = {entry.deadline for entry in entries(plan)}
    assert {each.words for each in plan.deadlines} <= said
    assert visible(run_sheet_html(plan)).count("or throw it out") == len(plan.deadlines)


def test_no_scheduling_word_reaches_the_page(plan: Plan) -> None:
    text = visible(run_sheet_html(plan)).lower()
    for word in ("makespan", "mode", "lag", "resource", "capacity", "lower bound", "proved"):
        assert not re.search(rf"\b{word}s?\b", text), word


def test_the_page_says_how_sure_it_is_that_the_day_is_the_shortest(plan: Plan) -> None:
    assert "At most 12 min longer than the shortest possible" in said(plan)
    proved = plan.summary.model_copy(update={"proved_shortest": True})
    assert "No shorter day is possible" in said(plan.model_copy(update={"summary": proved}))


def said(plan: Plan) -> str:
    return visible(run_sheet_html(plan)).replace("\u00a0", " ")


def test_lists_and_cautions_stand_on_the_page_once(plan: Plan) -> None:
    text = said(plan)
    for line in (*plan.day_before, *plan.morning_after, *plan.cautions):
        assert text.count(line.replace(" degF", " °F")) == 1


def test_words_of_a_recipe_are_never_taken_for_html() -> None:
    html = run_sheet_html(sample_plan(1, 1, "Salt <b>& pepper</b>"))
    assert "Salt &lt;b&gt;&amp; pepper&lt;/b&gt;" in html


@pytest.mark.parametrize(("paper", "size"), [("letter", (215.9, 279.4)), ("a4", (210.0, 297.0))])
def test_the_pdf_is_on_the_paper_asked_for(
    plan: Plan, paper: str, size: tuple[float, float]
) -> None:
    sizes = page_sizes(run_sheet_pdf(plan, paper))
    assert sizes
    for each in sizes:
        assert each == pytest.approx(size, abs=0.1)


def test_unknown_paper_is_refused(plan: Plan) -> None:
    with pytest.raises(InputFault, match="letter or a4"):
        run_sheet_pdf(plan, "legal")


@pytest.mark.parametrize(
    ("dishes", "cooks", "more"),
    [
        (5, 2, ""),
        (10, 2, "Incomprehensibilityandthensomemorewithoutanyspaceatall" * 3),
        (10, 3, "Stir now and then. " * 12),
        (3, 1, ""),
        (10, 4, ""),
    ],
)
def test_all_text_stays_between_the_edges_of_the_paper(dishes: int, cooks: int, more: str) -> None:
    pdf = run_sheet_pdf(sample_plan(dishes, cooks, more), "a4")
    sizes = page_sizes(pdf)
    boxes = texts(pdf)
    assert {box.page for box in boxes} == {*range(len(sizes))}
    for box in boxes:
        width, height = sizes[box.page]
        assert box.left >= 11
        assert box.right <= width - 11
        assert box.bottom <= height - 5


def test_a_page_of_columns_fits_one_sheet_of_paper(plan: Plan) -> None:
    for paper in ("letter", "a4"):
        pages = len(page_sizes(run_sheet_pdf(plan, paper)))
        assert pages <= 2 + len(paged(columns(plan), wide=False).stretches)


def test_all_columns_turn_the_page_at_the_same_minute(plan: Plan) -> None:
    pages = paged(columns(plan), wide=False).stretches
    assert len(pages) > 1
    for page, following in itertools.pairwise(pages):
        last = max(entry.start for cell in page.cells for entry in cell)
        first = min(entry.start for cell in following.cells for entry in cell)
        assert last <= first


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize(("dishes", "cooks"), [(10, 3), (6, 1)])
def test_no_page_of_columns_runs_over_onto_another(paper: Paper, dishes: int, cooks: int) -> None:
    plan = sample_plan(dishes, cooks, "Stir now and then, and see that it does not catch.")
    name = columns(plan)[0].name
    heads = {box.page for box in texts(run_sheet_pdf(plan, paper)) if box.text.strip() == name}
    assert len(heads - {0}) == len(paged(columns(plan), wide=cooks > 2, paper=paper).stretches)


def test_a_cook_with_little_to_do_gets_a_narrow_column_where_that_saves_a_page(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    days = [columns(sample_plan(10, 2, "Stir now and then. " * many)) for many in range(4, 31, 2)]
    cooks = [(busy, replace(idle, entries=idle.entries[::6])) for busy, idle in days]
    found = [paged(each, wide=False) for each in cooks]
    monkeypatch.setattr(pages, "_NARROWER", (1.0,))
    alike = [paged(each, wide=False) for each in cooks]
    saved = 0
    for one, other in zip(found, alike, strict=True):
        assert sum(one.shares) == pytest.approx(1)
        fewer = len(one.stretches) < len(other.stretches)
        assert fewer == (one.shares[1] < one.shares[0])
        saved += fewer
    assert saved > 0


def test_longer_paper_takes_more_of_a_column() -> None:
    day = columns(sample_plan(10, 1, "Stir now and then. " * 4))
    on_letter, on_a4 = (
        len(paged(day, wide=False, paper=check_paper(each)).stretches) for each in PAPERS
    )
    assert on_a4 < on_letter


def test_only_a_day_too_full_for_its_picture_has_the_day_before_on_a_page_of_its_own() -> None:
    full = (box for box in texts(run_sheet_pdf(sample_plan(10, 3))) if box.text == "The day before")
    assert [box.page for box in full] == [1]
    some = (box for box in texts(run_sheet_pdf(sample_plan(3, 2))) if box.text == "The day before")
    assert [box.page for box in some] == [0]


def test_every_page_has_its_number(plan: Plan) -> None:
    pdf = run_sheet_pdf(plan)
    count = len(page_sizes(pdf))
    assert count > 1
    for number in range(1, count + 1):
        assert f"page {number} of {count}" in words(pdf)


def test_a_deadline_of_what_bakes_by_itself_stands_where_it_is_put_into_the_oven() -> None:
    pie = planned(cottage_pie=1)
    into = next(task for task in pie.tasks if task.id == "cottage-pie/bake/in")
    due = (each for each in pie.deadlines if each.task == "cottage-pie/bake/oven")
    first = min(due, key=lambda each: each.at)
    (entry,) = (each for each in entries(pie) if each.start == into.start and each.deadline)
    assert entry.deadline == first.words
