"""What a label says, and that nothing on it is cut off."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pdf_reading import words
from sample_plan import container

from batchcook.complaints import InputFault
from batchcook.documents import labelface
from batchcook.documents.labelface import face, roll_face
from batchcook.documents.labels import labels_pdf, mm_to_points, pick
from batchcook.documents.labelsheets import DEFAULT_SHEETS, LabelSheet, load_sheets
from batchcook.documents.labelwords import Shortening, label_words
from batchcook.documents.pdf import Paper
from batchcook.documents.textwidth import text_width
from batchcook.foodsafety.thawing import eat_by
from batchcook.plan import read_plan
from batchcook.wording import day

FULL = Shortening.NOTHING
SAMPLE = Path(__file__).parents[2] / "output_samples" / "prep-day"


def test_a_raw_kit_says_raw_and_the_temperature_to_reach() -> None:
    kit = container(state="raw-kit", cook_to_degF=165, reheat_to_degF=None, rest_minutes=3)
    assert label_words(kit, FULL).state == "RAW: COOK TO 165\u00a0°F in the center, rest 3 min"


def test_a_cooked_dish_says_so_and_the_temperature_to_reheat_to() -> None:
    assert label_words(container(), FULL).state == "COOKED: reheat to 165\u00a0°F in the center"


def test_one_date_stands_where_best_by_and_use_by_are_the_same_day() -> None:
    same = container(use_by=date(2027, 3, 16))
    assert label_words(same, FULL).dates == (
        ("Packed", "Sat 16 Jan 2027"),
        ("Best and use by (quality)", "Tue 16 Mar 2027"),
    )


def test_dates_are_marked_as_dates_of_quality() -> None:
    captions = [caption for caption, _ in label_words(container(), FULL).dates]
    assert captions == ["Packed", "Best by (quality)", "Use by (quality)"]


@pytest.mark.parametrize(
    ("thaw", "said"),
    [
        ("from-frozen", "Serves 2 · cook from frozen"),
        ("refrigerator", "Serves 2 · thaw first, 2 days in the refrigerator"),
        ("either", "Serves 2 · thaw 2 days in the refrigerator, or from frozen"),
    ],
)
def test_it_says_how_long_to_thaw_or_to_cook_from_frozen(thaw: str, said: str) -> None:
    assert label_words(container(thaw=thaw, thaw_days=2), FULL).night == said


def test_what_is_never_thawed_has_no_line_for_the_thaw_date() -> None:
    assert label_words(container(thaw="from-frozen"), FULL).write == ()


def test_allergens_come_with_a_call_to_check_the_packages() -> None:
    assert label_words(container(), FULL).foot.endswith("Contains milk, wheat: check packages")
    none = label_words(container(allergens=()), FULL).foot
    assert none.endswith("No major allergens known: check packages")


def test_a_full_label_holds_everything_in_the_order_of_need() -> None:
    said = words(labels_pdf([container()], load_sheets()["2x4"])).replace("\u00a0", " ")
    places = [
        said.index(each)
        for each in (
            "Bean and barley soup",
            "COOKED: reheat to 165 °F in the center",
            "Serves 2",
            "35 min from frozen",
            "Add: 1 tbsp parsley",
            "Sat 16 Jan 2027",
            "Tue 16 Mar 2027",
            "Fri 16 Apr 2027",
            "To refrigerator",
            "1 of 8",
            "Contains milk, wheat: check packages",
        )
    ]
    assert places == sorted(places)
    assert "A1" in said


def test_the_smallest_stock_keeps_what_must_be_on_it() -> None:
    said = words(labels_pdf([container()], load_sheets()["1x2.625"])).replace("\u00a0", " ")
    for each in ("Bean and barley soup", "165 °F", "16 Mar 2027", "16 Apr 2027", "A1", "milk"):
        assert each in said


def test_stock_too_small_is_refused_with_stock_that_is_not() -> None:
    tiny = load_sheets()["1x2.625"].model_copy(update={"width": 25.0, "height": 12.0})
    with pytest.raises(InputFault) as fault:
        labels_pdf([container()], tiny)
    [complaint] = fault.value.complaints
    assert "25 mm wide and 12 mm high" in complaint.what
    assert complaint.suggestion in load_sheets()


def test_a_code_that_no_container_has_is_told_with_those_there_are() -> None:
    made = [container(code=f"A{number}") for number in range(1, 9)]
    with pytest.raises(InputFault) as fault:
        pick(made, ["A3", "B1", "A99"])
    assert len(fault.value.complaints) == 2
    assert "A1 to A8" in str(fault.value)


def test_containers_are_picked_by_code_whatever_its_case() -> None:
    made = [container(code=f"A{number}") for number in range(1, 9)]
    assert [each.code for each in pick(made, ["a8", "A2"])] == ["A8", "A2"]
    assert pick(made, []) == made


def test_the_usual_cautions_are_the_small_print_where_there_is_room() -> None:
    sheets = load_sheets()
    [large] = (words(labels_pdf([container()], sheets[each])) for each in ("2x4",))
    assert large.count("Follow current USDA FSIS guidance") == 1


@pytest.mark.parametrize("sheet", load_sheets().values(), ids=lambda sheet: sheet.name)
@pytest.mark.parametrize("state", ["cooked", "raw-kit"])
def test_no_stock_is_so_small_that_its_label_gives_up_the_caution(
    sheet: LabelSheet, state: str
) -> None:
    long = "Spread everything apart, roast until every piece is done. " * 6
    temperature: dict[str, Any] = (
        {"cook_to_degF": 165, "reheat_to_degF": None} if state == "raw-kit" else {}
    )
    made = container(state=state, finish=f"Oven 425 degF, 30 min thawed. {long}", **temperature)
    said = words(labels_pdf([made], sheet)).replace("\u00a0", " ").replace("\n", " ")
    assert "thermometer" in said
    assert "165 °F" in said
    assert "thermometer" in label_words(made, max(Shortening)).state


def test_directions_are_shortened_before_the_cautions_are_put_in_fewer_words() -> None:
    cut = label_words(container(), Shortening.NO_NUMBER)
    assert cut.finish == ""
    assert cut.small == "Check with a thermometer. Follow USDA FSIS guidance."


def test_a_raw_kit_thaws_on_the_lowest_shelf_and_is_cooked_by_its_last_day() -> None:
    kit = container(state="raw-kit", cook_to_degF=165, reheat_to_degF=None, thaw="refrigerator")
    full = label_words(kit, FULL)
    assert full.night.endswith("1 day in the refrigerator, on a tray on the lowest shelf")
    assert full.write == ("To refrigerator", "cook by (4 days later)")
    assert "lowest shelf, then cook within 3 days" in (
        label_words(kit, Shortening.NO_LINES_TO_WRITE_ON).night
    )


def test_the_label_counts_the_last_day_as_the_freezer_does() -> None:
    # As in the review: two days of thawing and three of keeping, moved on 15 September.
    moved = date(2026, 9, 15)
    bake = container(thaw_days=2, keeps_thawed_days=3)
    _, last = label_words(bake, FULL).write
    assert last == "eat by (5 days later)"
    assert eat_by(moved, bake.thaw_days, bake.keeps_thawed_days) == moved + timedelta(days=5)


def test_where_the_system_has_only_a_wider_font_its_width_is_kept_free(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(labelface, "wider", lambda: 1.2)
    labelface._rows.cache_clear()  # noqa: SLF001 - it remembers rows of the other font
    width, height = mm_to_points(101.6), mm_to_points(50.8)
    found = face(container(), width, height)
    labelface._rows.cache_clear()  # noqa: SLF001 - the same
    assert found is not None
    for text in found.texts:
        assert text.x + 1.2 * text_width(text.text, text.size, bold=text.bold) <= width - 6


@pytest.mark.parametrize("sheet", load_sheets().values(), ids=lambda sheet: sheet.name)
def test_nothing_is_set_in_type_too_small_to_read_at_a_freezer_door(sheet: LabelSheet) -> None:
    for made in (
        container(),
        container(title="Turkey meatballs in tomato sauce", allergens=("egg", "milk", "wheat")),
        container(state="raw-kit", cook_to_degF=165, reheat_to_degF=None, rest_minutes=3),
        container(use_by=date(2027, 3, 16)),
    ):
        width, height = mm_to_points(sheet.width), mm_to_points(sheet.height)
        found = face(made, width, height) if sheet.paper else roll_face(made, width)
        assert found is not None, made.title
        assert min(text.size for text in found.texts) >= 7


def test_the_smallest_stock_says_in_how_many_days_to_eat_it_where_no_line_has_room() -> None:
    full = label_words(container(), Shortening.NO_NUMBER)
    assert full.write == ("To refrigerator", "eat by (4 days later)")
    assert full.night == "Serves 2 · thaw 1 day, or from frozen"
    cut = label_words(container(), Shortening.NO_LINES_TO_WRITE_ON)
    assert cut.write == ()
    assert cut.night == "Serves 2 · thaw 1 day, or from frozen, then eat within 3 days"
    fewest = label_words(container(), Shortening.FEWEST_WORDS)
    assert fewest.night == "Serves 2 · thaw 1 day, eat in 3 days"


LONG = "Slow braised grandmother's short ribs with caramelized shallots, thyme and red wine sauce"


@pytest.mark.parametrize("title", [LONG, "Rindfleischetikettierungsüberwachungsaufgabensuppe"])
@pytest.mark.parametrize("width", [102.0, 62.0, 50.0])
def test_a_roll_takes_a_title_of_any_length(title: str, width: float) -> None:
    roll = LabelSheet(title="a roll", width=width)
    said = words(labels_pdf([container(title=title)], roll)).replace("\u00a0", " ")
    assert title.replace(" ", "") in said.replace("A1", "").replace(" ", "").replace("\n", "")


titles = st.lists(
    st.text("abcdefghijklmnopqrstuvwxyzABCW&'-éüßñ", min_size=1, max_size=24),
    min_size=1,
    max_size=8,
).map(" ".join)


@settings(max_examples=150, deadline=None)
@given(
    title=titles,
    sheet=st.sampled_from([each for each in load_sheets().values() if each.paper]),
    finish=st.lists(titles, max_size=6).map(". ".join),
    allergens=st.lists(st.sampled_from(["milk", "tree nuts", "wheat", "crustacean shellfish"])),
    days=st.integers(0, 400),
)
def test_no_title_is_ever_cut_and_no_text_leaves_its_label(
    title: str, sheet: object, finish: str, allergens: list[str], days: int
) -> None:
    assert hasattr(sheet, "width")
    assert hasattr(sheet, "height")
    width, height = mm_to_points(sheet.width), mm_to_points(sheet.height)
    made = container(
        title=title,
        finish=finish,
        allergens=tuple(allergens),
        use_by=date(2027, 3, 16) + timedelta(days=days),
    )
    found = face(made, width, height)
    if found is None:
        return
    said = " ".join(text.text for text in found.texts if text.bold and text.text != made.code)
    assert said.replace(" ", "").startswith(title.replace(" ", ""))
    assert any(text.text == made.code for text in found.texts)
    for text in found.texts:
        assert 0 <= text.x <= width
        assert text.y >= 0
        assert text.y + text.size <= height - 5


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_the_dates_of_every_label_stand_side_by_side(paper: Paper) -> None:
    sheet = load_sheets()[DEFAULT_SHEETS[paper]]
    size = (mm_to_points(sheet.width), mm_to_points(sheet.height))
    few_words = container(title="Chili", finish="Warm it.", add=())
    for each in (few_words, *read_plan(SAMPLE).containers):
        found = face(each, *size)
        assert found is not None
        dates = (each.packed_on, each.best_by, each.use_by)
        places = {text.y for text in found.texts if text.text in {day(date) for date in dates}}
        assert len(places) == 1, each.code
