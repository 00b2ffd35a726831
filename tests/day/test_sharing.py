"""What loads become when dishes are laid side by side."""

from batchcook.day.sharing import APART, TWO_AT_ONCE, share
from batchcook.dishwork.work import Job, Link, Moment, Stream, Work
from batchcook.scheduling.problem import Family

LOAD = 1000.0


def _load(dish: str, number: int, grams: float) -> Job:
    return Job(
        id=f"{dish}/sear/{number}",
        title=f"Brown beef, load {number}",
        technique="brown",
        minutes=8,
        hands=frozenset(),
        station="skillet",
        label="Brown beef",
        dishes={dish: f"{grams:.0f} g"},
        uses={"burner": 1, "skillet": 1},
        family="brown beef",
        grams=grams,
    )


def _work(dish: str, *grams: float) -> Work:
    loads = tuple(_load(dish, number, each) for number, each in enumerate(grams, 1))
    pot = Job(f"{dish}/pot", "Fill the pot", "simmer", 3, frozenset(), "pot", "Fill", {dish: ""})
    return Work(
        (*loads, pot),
        tuple(Link(load.id, pot.id) for load in loads),
        streams=tuple(
            Stream(dish, "beef", "raw-beef", (Moment("out", load.id, "start"),)) for load in loads
        ),
        families={"brown beef": Family("brown beef", 4, 3)},
    )


def test_part_loads_that_fit_one_skillet_may_be_browned_together() -> None:
    day = share([_work("a", 1000, 300), _work("b", 1000, 600)], LOAD, skillets=1, burners=4)
    (choice,) = day.choices.values()
    assert len(choice.options) == 2
    pair = next(job for job in day.jobs if len(job.dishes) == 2)
    assert pair.grams == 900
    assert pair.minutes == 8
    assert {job.id for job in day.jobs if job.when} == {"a/sear/2", "b/sear/2", pair.id}


def test_part_loads_that_do_not_fit_stay_apart() -> None:
    day = share([_work("a", 600), _work("b", 600)], LOAD, skillets=1, burners=4)
    assert not day.choices


def test_part_loads_of_one_dish_are_never_paired() -> None:
    day = share([_work("a", 300, 300)], LOAD, skillets=1, burners=4)
    assert not day.choices


def test_a_pair_goes_to_both_pots_and_each_food_keeps_its_way() -> None:
    day = share([_work("a", 300), _work("b", 600)], LOAD, skillets=1, burners=4)
    pair = next(job for job in day.jobs if len(job.dishes) == 2)
    assert {link.after for link in day.links if link.before == pair.id} == {"a/pot", "b/pot"}
    assert {stream.dish for stream in day.streams if stream.moments[0].job == pair.id} == {"a", "b"}


def test_two_skillets_at_once_halve_a_dishs_loads() -> None:
    day = share([_work("a", 1000, 1000, 400)], LOAD, skillets=2, burners=4)
    (choice,) = day.choices.values()
    assert choice.options == (APART, TWO_AT_ONCE)
    double = next(job for job in day.jobs if job.uses.get("skillet") == 2)
    assert double.grams == 2000
    assert 8 < double.minutes < 16
    alone = {
        job.id for job in day.jobs if any(TWO_AT_ONCE not in each.options for each in job.when)
    }
    assert alone == {"a/sear/1", "a/sear/2"}


def test_four_loads_are_browned_two_by_two() -> None:
    day = share([_work("a", 1000, 1000, 1000, 1000)], LOAD, skillets=2, burners=4)
    doubles = [job for job in day.jobs if job.uses.get("skillet") == 2]
    assert [job.grams for job in doubles] == [2000, 2000]


def test_in_every_option_every_gram_is_browned_exactly_once() -> None:
    works = [_work("a", 1000, 300), _work("b", 1000, 1000, 450), _work("c", 200)]
    day = share(works, LOAD, skillets=2, burners=2)
    (choice,) = day.choices.values()
    assert len(choice.options) > 2
    for option in choice.options:
        done = [
            job
            for job in day.jobs
            if job.station == "skillet" and all(option in each.options for each in job.when)
        ]
        assert sum(job.grams for job in done) == 3950


def test_many_part_loads_offer_a_dozen_pairings_and_no_more_are_looked_at() -> None:
    """Thirty loads have more matchings than could ever be listed: 30!/(2^15 15!) whole ones."""
    works = [_work(f"dish-{number}", 200.0) for number in range(30)]
    shared = share(works, 450.0, skillets=1, burners=1)
    (choice,) = shared.choices.values()
    assert len(choice.options) == 13
