"""The order for a prep day."""

import datetime as dt
from pathlib import Path

import pytest

from batchcook.complaints import InputFault
from batchcook.day.prepday import load_prep_day, parse_date, parse_orders


def test_dishes_are_read_with_their_batches() -> None:
    assert parse_orders(["cottage-pie=2", "beef-barley-stew"], "dishes") == {
        "cottage-pie": 2,
        "beef-barley-stew": 1,
    }


@pytest.mark.parametrize("word", ["cottage-pie=0", "cottage-pie=-2", "cottage-pie=40", "a=two"])
def test_absurd_batches_are_refused(word: str) -> None:
    with pytest.raises(InputFault, match="whole number"):
        parse_orders([word], "dishes")


def test_all_wrong_words_are_told_at_once() -> None:
    with pytest.raises(InputFault) as caught:
        parse_orders(["a=x", "b=0", "c=1", "c=2"], "dishes")
    assert len(caught.value.complaints) == 3


@pytest.mark.parametrize("text", ["16.1.2027", "2027-13-01", "tomorrow"])
def test_a_date_in_a_wrong_form_is_answered_with_the_right_one(text: str) -> None:
    with pytest.raises(InputFault, match="one like 2027-01-16"):
        parse_date(text, "--date")


def test_a_prep_day_file_is_read(tmp_path: Path) -> None:
    file = tmp_path / "prep-day.toml"
    file.write_text(
        '[day]\ndate = 2027-01-16\nstart = "08:30"\nunits = "metric"\n'
        "[dishes]\ncottage-pie = 2\n"
        '[[busy]]\nwhat = "burner"\namount = 2\nfrom = "12:00"\nto = "12:45"\nwhy = "lunch"\n'
    )
    day = load_prep_day(file)
    assert day.date == dt.date(2027, 1, 16)
    assert day.start == dt.time(8, 30)
    assert day.system == "metric"
    assert day.orders == {"cottage-pie": 2}
    assert (day.busy[0].what, day.busy[0].amount) == ("burner", 2)


def test_faults_of_a_prep_day_file_name_file_and_key(tmp_path: Path) -> None:
    file = tmp_path / "prep-day.toml"
    file.write_text('[day]\ndate = "soon"\nbegin = "08:00"\n[dishes]\n')
    with pytest.raises(InputFault) as caught:
        load_prep_day(file)
    told = "\n".join(map(str, caught.value.complaints))
    assert "prep-day.toml" in told
    assert "day.date" in told
    assert "begin" in told
    assert len(caught.value.complaints) == 3


def _day(folder: Path, day: str = "", rest: str = "") -> Path:
    file = folder / "prep-day.toml"
    file.write_text(f"[day]\ndate = 2027-01-16\n{day}\n[dishes]\ncottage-pie = 2\n{rest}")
    return file


def test_a_day_that_says_nothing_of_its_times_begins_at_eight(tmp_path: Path) -> None:
    assert load_prep_day(_day(tmp_path)).start == dt.time(8)


def test_a_day_with_only_a_finish_begins_when_it_has_to(tmp_path: Path) -> None:
    day = load_prep_day(_day(tmp_path, 'finish_by = "15:00"'))
    assert (day.start, day.finish_by) == (None, dt.time(15))


def test_what_is_busy_may_not_end_before_it_begins(tmp_path: Path) -> None:
    busy = '[[busy]]\nwhat = "burner"\nfrom = "13:00"\nto = "12:00"\n'
    with pytest.raises(InputFault) as caught:
        load_prep_day(_day(tmp_path, rest=busy + busy))
    told = [str(each) for each in caught.value.complaints]
    assert len(told) == 2
    assert "busy[2] (line 10): ends at 12:00, before it begins" in told[1]


def test_the_kitchen_of_a_day_is_looked_for_beside_its_file(tmp_path: Path) -> None:
    with pytest.raises(InputFault) as caught:
        load_prep_day(_day(tmp_path, 'kitchen = "ours.toml"'))
    assert str(tmp_path / "ours.toml") in str(caught.value)


def test_tonights_dinner_is_of_a_dish_that_is_cooked(tmp_path: Path) -> None:
    dinner = '[tonight]\ndish = "cotage-pie"\nportions = 4\nat = "18:00"\n'
    with pytest.raises(InputFault, match="Did you mean 'cottage-pie'"):
        load_prep_day(_day(tmp_path, rest=dinner))


def test_every_fault_of_a_day_and_of_its_kitchen_is_told_at_once(tmp_path: Path) -> None:
    (tmp_path / "ours.toml").write_text('[burners]\ncount = "four"\n')
    file = tmp_path / "prep-day.toml"
    file.write_text(
        '[day]\ndate = "soon"\nstart = "8"\nunits = "british"\nkitchen = "ours.toml"\n'
        "[dishes]\ncottage-pie = 40\n"
        '[tonight]\ndish = "cotage-pie"\nportions = 4\nat = "late"\n'
        '[[busy]]\nwhat = "burner"\nfrom = "13:00"\nto = "12:00"\n'
    )
    with pytest.raises(InputFault) as caught:
        load_prep_day(file)
    told = [str(each).partition("day.toml, ")[2] for each in caught.value.complaints]
    assert told[:7] == [
        "day.date (line 2): 'soon' does not fit here; expected a date such as 2027-01-16",
        "day.start (line 3): '8' is no time of day; expected one like 08:30",
        "day.units (line 4): unknown value 'british'; expected one of us, metric",
        "dishes.cottage-pie (line 7): 40 batches; expected a whole number from 1 to 12",
        (
            "tonight.dish (line 9): 'cotage-pie' is not cooked that day; "
            "expected one of cottage-pie. Did you mean 'cottage-pie'?"
        ),
        "tonight.at (line 11): 'late' is no time of day; expected one like 08:30",
        "busy[1] (line 12): ends at 12:00, before it begins",
    ]
    kitchen = [str(each) for each in caught.value.complaints[7:]]
    assert any("ours.toml, burners.count (line 2): 'four' does not fit" in each for each in kitchen)
    assert any("cooks: is missing" in each for each in kitchen)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("[day]\ndate = 2027-01-16\n[dishes]\n", "no dish is named; expected a dish and its"),
        ("[day]\ndate = 2027-01-16\n", "dishes: is missing; expected [dishes], with a dish and"),
        ("[dishes]\ncottage-pie = 2\n", "day: is missing; expected [day], with its date, as in"),
        ("[day]\n[dishes]\ncottage-pie = 2\n", "(line 1): is missing; expected a date such"),
    ],
)
def test_what_a_day_file_lacks_is_told_with_an_example(
    tmp_path: Path, text: str, told: str
) -> None:
    file = tmp_path / "prep-day.toml"
    file.write_text(text)
    with pytest.raises(InputFault) as caught:
        load_prep_day(file)
    (complaint,) = caught.value.complaints
    assert told in str(complaint)
