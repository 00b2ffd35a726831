from __future__ import annotations

import datetime as dt
import math
import random
from pathlib import Path

import pytest
from scipy import optimize, special

from batchcook.complaints import InputFault
from batchcook.pacing.pace import (
    Observation,
    fit_paces,
    huber_location,
    read_observations,
    without,
    write_observations,
)

_DAY = dt.date(2027, 1, 16)


def _took(real: float, planned: float = 10, **changes: object) -> Observation:
    fields = {"date": _DAY, "technique": "diced", "food": "onion"}
    return Observation.model_validate({**fields, "planned": planned, "real": real, **changes})


@pytest.mark.parametrize("seed", range(12))
def test_the_location_is_the_minimum_that_scipy_finds(seed: int) -> None:
    rng = random.Random(seed)  # noqa: S311 - variety, not secrecy
    corner, prior = rng.uniform(0.1, 1.0), rng.choice([0.0, 0.5, 3.0])
    values = [rng.gauss(0.3, 0.4) for _ in range(rng.choice([1, 3, 8, 25]))]
    values += [rng.uniform(2, 4)] * rng.randint(0, 2)

    def objective(location: float) -> float:
        rho = sum(float(special.huber(corner, value - location)) for value in values)
        return rho + prior * location**2 / 2

    least = optimize.minimize_scalar(
        objective, bounds=(-1, 5), method="bounded", options={"xatol": 1e-10}
    )
    found = huber_location(values, corner=corner, prior_times=prior)
    assert objective(found) <= float(least.fun) + 1e-12
    assert found == pytest.approx(float(least.x), abs=1e-5)


def test_with_a_wide_corner_and_no_prior_the_location_is_the_mean() -> None:
    assert huber_location([0.1, 0.2, 0.6], corner=9, prior_times=0) == pytest.approx(0.3)


def test_with_a_narrow_corner_and_no_prior_the_location_is_the_median() -> None:
    found = huber_location([0.1, 0.2, 5.0], corner=1e-6, prior_times=0)
    assert found == pytest.approx(0.2, abs=1e-5)


def test_nothing_observed_leaves_the_table_alone() -> None:
    assert fit_paces([]) == {}
    assert huber_location([], corner=1, prior_times=3) == 0


def test_one_slow_time_moves_the_factor_only_a_little() -> None:
    factor = fit_paces([_took(13)])["diced"].factor
    assert 1.0 < factor < 1.1


def test_many_slow_times_are_believed() -> None:
    assert fit_paces([_took(13)] * 40)["diced"].factor == pytest.approx(1.3, abs=0.03)


def test_each_further_time_pulls_further_from_the_table() -> None:
    factors = [fit_paces([_took(13)] * count)["diced"].factor for count in range(1, 8)]
    assert factors == sorted(set(factors))


def test_an_evening_with_the_telephone_ringing_counts_for_little() -> None:
    calm = [_took(real) for real in (11, 12, 11.5, 12.5, 11)]
    alone = fit_paces(calm)["diced"].factor
    disturbed = fit_paces([*calm, _took(90)])["diced"].factor
    assert disturbed == fit_paces([*calm, _took(900)])["diced"].factor
    assert alone < disturbed < 1.07 * alone


def test_a_factor_already_in_the_plan_is_not_counted_twice() -> None:
    plain = fit_paces([_took(13, planned=10)] * 5)
    paced = fit_paces([_took(13, planned=12, pace=1.2)] * 5)
    assert paced["diced"].factor == pytest.approx(plain["diced"].factor)


def test_techniques_are_fitted_apart() -> None:
    paces = fit_paces([_took(15)] * 20 + [_took(8, technique="brown")] * 20)
    assert paces["diced"].factor > 1.3
    assert paces["brown"].factor < 0.85


def test_the_history_is_told_oldest_first() -> None:
    later, earlier = _took(12), _took(11, date=dt.date(2026, 11, 7))
    assert fit_paces([later, earlier])["diced"].history == (earlier, later)


def test_steady_times_narrow_the_scatter_and_wild_ones_widen_it() -> None:
    first = fit_paces([_took(10)])["diced"].scatter
    steady = fit_paces([_took(10)] * 30)["diced"].scatter
    wild = fit_paces([_took(real) for real in (4, 7, 10, 14, 25)] * 6)["diced"].scatter
    assert steady < first < 0.25 < wild


def test_paced_minutes_are_whole_and_at_least_one() -> None:
    pace = fit_paces([_took(13)] * 40)["diced"]
    assert pace.minutes(10) == math.floor(10 * pace.factor + 0.5) == 13
    assert fit_paces([_took(1)] * 40)["diced"].minutes(1) == 1


def test_a_technique_can_be_forgotten_or_all() -> None:
    kept = _took(9, technique="brown")
    assert without([_took(12), kept], "diced") == (kept,)
    assert without([_took(12), kept]) == ()


def test_what_was_written_is_read_again(tmp_path: Path) -> None:
    file = tmp_path / "pace.jsonl"
    observations = (_took(12), _took(7.5, technique="brown", food="jalapeño", pace=1.1))
    write_observations(file, observations)
    assert read_observations(file) == observations
    assert len(file.read_text("utf-8").splitlines()) == 2


def test_where_nothing_was_kept_yet_nothing_is_read(tmp_path: Path) -> None:
    assert read_observations(tmp_path / "pace.jsonl") == ()


def test_every_faulty_line_is_told(tmp_path: Path) -> None:
    file = tmp_path / "pace.jsonl"
    write_observations(file, [_took(12)])
    bad = '{"date": "2027-01-16", "technique": "diced", "planned": 0, "real": 5}'
    file.write_text(file.read_text("utf-8") + "\nnot JSON\n" + bad + "\n", "utf-8")
    with pytest.raises(InputFault) as fault:
        read_observations(file)
    places = [complaint.where for complaint in fault.value.complaints]
    assert places == [f"{file}, line 3", f"{file}, line 4: planned"]


def test_a_folder_is_no_file_of_times(tmp_path: Path) -> None:
    with pytest.raises(InputFault, match="cannot be read"):
        read_observations(tmp_path)
