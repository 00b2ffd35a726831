"""The work around the cooking."""

from dataclasses import replace

from batchcook.day.framing import with_day_work
from batchcook.dishwork.work import Job, Link, Work
from batchcook.scheduling.problem import Condition, Family


def _job(name: str, *, board: str = "", choice: str = "", technique: str = "mix") -> Job:
    return Job(
        id=name,
        title=name,
        technique=technique,
        minutes=5,
        hands=frozenset(),
        station="counter",
        label=name,
        uses={f"board:{board}": 1} if board else {},
        when=(Condition("how", frozenset({choice})),) if choice else (),
    )


def _pairs(work: Work) -> set[tuple[str, str]]:
    return {(link.before, link.after) for link in work.links}


def test_everything_lies_between_setting_up_and_closing_down() -> None:
    work = Work((_job("cut", board="produce"), _job("mix")), (Link("cut", "mix"),))
    pairs = _pairs(with_day_work(work, 4, {"stew": 900.0}))
    assert ("day/clear", "day/rinse") in pairs
    assert ("day/rinse", "cut") in pairs
    assert ("mix", "day/cleanup") in pairs
    assert ("day/rinse", "mix") not in pairs


def test_raw_meat_need_not_wait_for_vegetables_to_be_rinsed() -> None:
    pairs = _pairs(with_day_work(Work((_job("cut", board="raw"),)), 4, {}))
    assert ("day/clear", "cut") in pairs
    assert ("day/rinse", "cut") not in pairs


def test_labels_are_stuck_before_anything_is_filled() -> None:
    pairs = _pairs(with_day_work(Work((_job("portion", technique="portion"),)), 4, {}))
    assert ("day/stick-labels", "portion") in pairs


def test_rinsing_more_takes_longer() -> None:
    def minutes(grams: float) -> int:
        work = with_day_work(Work(), 0, {"stew": grams})
        return next(job.minutes for job in work.jobs if job.id == "day/rinse")

    assert minutes(8000) > minutes(1000) > 0


def test_no_can_is_opened_before_its_step_wants_it() -> None:
    rinse = next(job for job in with_day_work(Work(), 0, {}).jobs if job.id == "day/rinse")
    assert "open them when they are wanted" in rinse.title


def test_a_job_after_one_that_may_be_left_out_still_waits_for_setting_up() -> None:
    work = Work(
        (_job("load 1", choice="apart"), _job("load 2"), _job("load 3", choice="apart")),
        (Link("load 1", "load 2"), Link("load 2", "load 3")),
    )
    pairs = _pairs(with_day_work(work, 4, {}))
    assert ("day/rinse", "load 2") in pairs
    assert ("load 2", "day/cleanup") in pairs


def test_even_a_day_with_no_dish_is_set_up_before_it_is_closed_down() -> None:
    pairs = _pairs(with_day_work(Work(), 0, {}))
    assert {("day/rinse", "day/cleanup"), ("day/stick-labels", "day/cleanup")} <= pairs


def test_the_last_board_is_washed_before_the_day_is_closed_down() -> None:
    cut = replace(_job("cut", board="produce"), family="dice")
    work = Work((cut, _job("mix")), (Link("cut", "mix"),), families={"dice": Family("dice", 2, 4)})
    (last,) = [
        link
        for link in with_day_work(work, 4, {}).links
        if link.before == "cut" and link.after == "day/cleanup"
    ]
    assert (last.origin, last.to, last.low) == ("end", "start", 4)
