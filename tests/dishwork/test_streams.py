"""The way of each food, and the time on it that counts."""

from dataclasses import replace

from planned_days import starter

from batchcook.dishwork.dishes import dish_work
from batchcook.dishwork.draft import Dish
from batchcook.dishwork.streams import allowed, spells_of
from batchcook.dishwork.work import Moment, Spell, Stream
from batchcook.kitchens.kitchen import default_kitchen


def _stream(*moments: Moment) -> Stream:
    return Stream("stew", "beef", "raw-beef", moments)


def _ways(name: str, food: str) -> list[Stream]:
    work = dish_work(Dish(starter()[name], 2, "bowl"), default_kitchen())
    return [stream for stream in work.streams if stream.food == food]


OUT = Moment("out", "cut", "start")
ON = Moment("on-heat", "simmer", "start")
OFF = Moment("off-heat", "simmer", "end")
COLD = Moment("refrigerated", "portion", "end")


def test_time_counts_from_leaving_the_cold_to_the_heat_and_from_there_to_the_cold() -> None:
    assert spells_of(_stream(OUT, ON, OFF, COLD)) == (
        Spell("cut", "start", "simmer", "start"),
        Spell("simmer", "end", "portion", "end"),
    )


def test_food_held_hot_does_not_age() -> None:
    held = Moment("held-hot", "slow cook", "end")
    emptied = Moment("off-heat", "portion", "start")
    assert spells_of(_stream(ON, held, emptied, COLD)) == (
        Spell("portion", "start", "portion", "end"),
    )


def test_food_handed_straight_on_is_given_its_minutes_beforehand() -> None:
    seared = Moment("off-heat", "sear", "end")
    straight = Moment("on-heat", "pot", "start", straight=True)
    way = _stream(OUT, Moment("on-heat", "sear", "start"), seared, straight, OFF, COLD)
    assert spells_of(way) == (
        Spell("cut", "start", "sear", "start"),
        Spell("simmer", "end", "portion", "end"),
    )
    assert allowed(way, 120) == 110
    assert allowed(_stream(OUT, ON, OFF, COLD), 120) == 120


def test_each_load_of_meat_has_a_way_of_its_own_from_one_board() -> None:
    ways = _ways("beef-barley-stew", "beef chuck")
    loads = {way.moments[2].job for way in ways}
    assert len(loads) == len(ways) > 1
    assert len({way.moments[0] for way in ways}) == 1
    assert all(way.kind == "raw-beef" for way in ways)


def test_what_is_cut_goes_back_into_the_cold_until_its_own_load() -> None:
    ways = _ways("beef-barley-stew", "beef chuck")
    assert ways
    for way in ways:
        out, back, again, on = way.moments[:4]
        assert (out.event, back.event, again.event) == ("out", "refrigerated", "out")
        assert (out.job, out.anchor, back.anchor) == (back.job, "start", "end")
        assert (again.job, again.anchor) == (on.job, on.anchor)
        assert spells_of(way)[0] == Spell(out.job, "start", out.job, "end")


def test_one_heat_in_one_pot_is_told_as_one() -> None:
    # Softened, simmered and seasoned in its pot, a food is on heat once.
    ways = _ways("beef-barley-stew", "pearl barley")
    assert ways
    for way in ways:
        assert [moment.event for moment in way.moments] == ["on-heat", "off-heat", "refrigerated"]


def test_what_keeps_on_the_shelf_begins_at_its_first_heat() -> None:
    work = dish_work(Dish(starter()["sausage-lentil-soup"], 1, "bowl"), default_kitchen())
    first = {stream.kind: stream.moments[0].event for stream in work.streams}
    assert first["raw-sausage"] == "out"
    assert all(
        event == "on-heat"
        for kind, event in first.items()
        if kind in {"fat", "produce", "dry-goods", "canned", "spice"}
    )


def test_milk_and_cheese_count_from_leaving_the_cold() -> None:
    work = dish_work(Dish(starter()["spinach-ricotta-shells"], 1, "bowl"), default_kitchen())
    cold = [stream for stream in work.streams if stream.kind in {"dairy", "cheese", "egg"}]
    assert cold
    assert all(stream.moments[0].event == "out" for stream in cold)


def test_the_meat_of_a_raw_kit_is_out_until_it_is_frozen() -> None:
    (way,) = _ways("lemon-herb-chicken-kit", "chicken thigh")
    assert [moment.event for moment in way.moments] == ["out", "frozen"]
    assert len(spells_of(way)) == 1


def test_canned_fish_counts_from_the_job_that_opens_it() -> None:
    ways = _ways("salmon-potato-cakes", "salmon, canned")
    assert ways
    for way in ways:
        assert way.moments[0] == Moment("out", "salmon-potato-cakes/cut/salmon,-canned", "start")
        assert spells_of(way)


def test_thawed_spinach_counts_from_being_squeezed() -> None:
    (way,) = _ways("vegetable-egg-bake", "spinach, frozen")
    assert way.moments[0] == Moment("out", "vegetable-egg-bake/cut/spinach,-frozen", "start")


def test_what_is_opened_over_the_hot_pot_is_never_out() -> None:
    work = dish_work(Dish(starter()["chicken-coconut-curry"], 2, "bowl"), default_kitchen())
    assert not [
        stream
        for stream in work.streams
        if stream.kind == "canned-low-acid" and stream.moments[0].event == "out"
    ]


def test_what_is_opened_for_a_step_without_heat_is_out_from_then_on() -> None:
    cakes = starter()["salmon-potato-cakes"]
    swapped = tuple(
        replace(each, food="coconut milk", cut=None) if each.food == "salmon, canned" else each
        for each in cakes.ingredients
    )
    work = dish_work(Dish(replace(cakes, ingredients=swapped), 1, "bowl"), default_kitchen())
    (way,) = (stream for stream in work.streams if stream.food == "coconut milk")
    assert way.moments[0] == Moment("out", "salmon-potato-cakes/mix", "start")
