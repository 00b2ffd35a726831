"""The picture of the day."""

from __future__ import annotations

import itertools

import pytest
from sample_plan import sample_plan

from batchcook.documents.columns import columns
from batchcook.documents.dishkeys import dish_keys
from batchcook.documents.lanes import rows
from batchcook.documents.picture import Picture, picture
from batchcook.documents.textwidth import text_width
from batchcook.plan import Plan


@pytest.fixture(scope="module")
def plan() -> Plan:
    return sample_plan()


@pytest.fixture(scope="module")
def drawn(plan: Plan) -> Picture:
    return picture(plan, columns(plan), dish_keys(plan.dishes), 450.0)


def test_a_place_holds_one_thing_at_a_time(plan: Plan) -> None:
    for row in rows(plan):
        for lane in range(row.places):
            stays = sorted(
                (stay for stay in row.stays if lane in stay.lanes), key=lambda stay: stay.start
            )
            for one, other in itertools.pairwise(stays):
                assert one.end <= other.start
    assert any(len(row.stays) > row.places for row in rows(plan))


def test_every_pot_that_keeps_a_burner_is_drawn_with_what_goes_on_in_it(plan: Plan) -> None:
    [burners] = rows(plan)
    assert burners.name == "Burners"
    simmering = [stay for stay in burners.stays if stay.inside]
    assert {dish for stay in simmering for dish in stay.dishes} == {dish.id for dish in plan.dishes}


def test_a_burner_that_is_away_is_drawn_as_not_free(plan: Plan) -> None:
    [burners] = rows(plan)
    assert [stay.label for stay in burners.stays if stay.away] == ["not free"]


def test_everything_lies_within_the_frame(drawn: Picture) -> None:
    assert drawn.blocks
    for block in drawn.blocks:
        assert block.x >= 0
        assert block.x + block.width <= drawn.width + 0.1
        assert block.y >= 0
        assert block.y + block.height <= drawn.height + 0.1


def test_no_word_runs_out_of_the_picture_or_its_column(drawn: Picture) -> None:
    assert drawn.words
    for words in drawn.words:
        column = [each for each in drawn.headings if each.x <= words.x <= each.x + each.width]
        right = words.x + text_width(words.text, words.size, bold=words.bold)
        edge = column[0].x + column[0].width if column else drawn.axis
        assert right <= edge + 0.1, words.text


def test_each_dish_has_a_letter_of_its_own_like_its_containers(plan: Plan) -> None:
    keys = dish_keys(plan.dishes)
    for container in plan.containers:
        assert container.code.startswith(keys[container.dish].letter)
    assert len({key.letter for key in keys.values()}) == len(plan.dishes)
    assert len({key.hatching for key in keys.values()}) == len(plan.dishes)


def test_a_day_with_thirty_dishes_still_has_letters() -> None:
    dish = sample_plan(1, 1).dishes[0]
    many = [dish.model_copy(update={"id": f"dish-{number}"}) for number in range(30)]
    assert [key.letter for key in dish_keys(many).values()][24:28] == ["Y", "Z", "AA", "AB"]
