from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
from scipy import integrate, stats

from batchcook.scheduling.flownetwork import FlowNetwork, Limit
from batchcook.scheduling.handovers import Draft, connect
from batchcook.scheduling.problem import Budget, Lag, Span
from batchcook.scheduling.risk import Lognormal, Spread, Triangular, simulate

_DAYS = 40_000
_HANDS = Triangular(0.75, 1.0, 1.6)


def _after(*pairs: tuple[str, str]) -> list[Lag]:
    return [Lag(before, "end", after, "start") for before, after in pairs]


def _exact(spread: Triangular, minutes: float) -> stats._distn_infrastructure.rv_continuous_frozen:
    width = spread.high - spread.low
    return stats.triang(
        (spread.mode - spread.low) / width, loc=spread.low * minutes, scale=width * minutes
    )


def _assert_distributed(finishes: np.ndarray, cdf: Callable[[float], float]) -> None:
    """The largest gap between the two distributions is within Kolmogorov's 0.1 % limit."""
    ordered = np.sort(finishes)
    places = np.linspace(0, len(ordered) - 1, 25).astype(int)
    gaps = [abs(cdf(float(ordered[place])) - (place + 1) / len(ordered)) for place in places]
    assert max(gaps) < 1.95 / np.sqrt(len(ordered))


def _two_side_by_side() -> FlowNetwork:
    return connect(Draft({"a": (0, 20), "b": (0, 20)}))


def test_the_later_of_two_equal_steps_has_the_square_of_their_distribution() -> None:
    risk = simulate(_two_side_by_side(), {"a": _HANDS, "b": _HANDS}, days=_DAYS)
    one = _exact(_HANDS, 20)
    _assert_distributed(risk.finishes, lambda minute: float(one.cdf(minute)) ** 2)


def test_the_mean_of_the_later_is_more_than_the_later_of_the_means() -> None:
    risk = simulate(_two_side_by_side(), {"a": _HANDS, "b": _HANDS}, days=_DAYS)
    one = _exact(_HANDS, 20)
    later = integrate.quad(lambda minute: 1 - float(one.cdf(minute)) ** 2, 15, 32)
    exact = 15.0 + later[0]
    assert float(np.mean(risk.finishes)) == pytest.approx(exact, abs=0.08)
    assert exact > float(one.mean()) + 1.5


def test_either_of_two_equal_steps_is_critical_on_half_of_the_days() -> None:
    risk = simulate(_two_side_by_side(), {"a": _HANDS, "b": _HANDS}, days=_DAYS)
    assert risk.criticality["a"] == pytest.approx(0.5, abs=0.01)
    assert risk.criticality["a"] + risk.criticality["b"] == pytest.approx(1.0)


def test_a_step_before_two_side_by_side_is_convolved_with_the_later() -> None:
    network = connect(
        Draft({"a": (0, 10), "b": (10, 30), "c": (10, 28)}, _after(("a", "b"), ("a", "c")))
    )
    risk = simulate(network, dict.fromkeys("abc", _HANDS), days=_DAYS)
    first, one, other = (_exact(_HANDS, minutes) for minutes in (10, 20, 18))

    def cdf(minute: float) -> float:
        def density(at: float) -> float:
            left = minute - at
            return float(first.pdf(at) * one.cdf(left) * other.cdf(left))

        return float(integrate.quad(density, 7.5, 16, points=[10])[0])

    _assert_distributed(risk.finishes, cdf)


def test_means_and_variances_add_along_a_path() -> None:
    times = {"a": (0, 10), "b": (10, 40), "c": (40, 55)}
    spreads: dict[str, Spread] = {
        "a": _HANDS,
        "b": Lognormal(1.1, 0.2),
        "c": Triangular(0.9, 1.0, 1.1),
    }
    network = connect(Draft(times, _after(("a", "b"), ("b", "c"))))
    risk = simulate(network, spreads, days=_DAYS)
    exact = [
        _exact(_HANDS, 10),
        stats.lognorm(0.2, scale=1.1 * 30),
        _exact(Triangular(0.9, 1.0, 1.1), 15),
    ]
    mean, variance = sum(each.mean() for each in exact), sum(each.var() for each in exact)
    assert float(np.mean(risk.finishes)) == pytest.approx(mean, abs=0.15)
    assert float(np.var(risk.finishes)) == pytest.approx(variance, rel=0.04)
    assert set(risk.criticality.values()) == {1.0}


@pytest.mark.parametrize("share", [0.05, 0.3, 0.5, 0.9, 0.99])
def test_quantiles_of_spreads_are_those_of_scipy(share: float) -> None:
    assert _HANDS.quantile(share) == pytest.approx(float(_exact(_HANDS, 1).ppf(share)))
    exact = stats.lognorm(0.3, scale=1.2)
    assert Lognormal(1.2, 0.3).quantile(share) == pytest.approx(float(exact.ppf(share)))


def test_a_spread_without_width_is_its_mode() -> None:
    flat = Triangular(1.0, 1.0, 1.0)
    assert flat.quantile(0.7) == 1.0
    assert set(flat.draw(np.random.default_rng(1), 3)) == {1.0}


def test_the_share_of_days_and_the_minute_agree() -> None:
    risk = simulate(_two_side_by_side(), {"a": _HANDS, "b": _HANDS}, days=999)
    for share in (0.1, 0.5, 0.9):
        minute = risk.done_by(share)
        assert risk.share_done_by(minute) >= share
        assert risk.share_done_by(minute - 1e-9) < share


def test_the_same_seed_gives_the_same_days_and_another_gives_others() -> None:
    network = _two_side_by_side()
    spreads = {"a": _HANDS, "b": _HANDS}
    first, again, other = (
        simulate(network, spreads, days=50, seed=seed).finishes for seed in (3, 3, 4)
    )
    assert list(first) == list(again)
    assert list(first) != list(other)


def test_a_step_keeps_its_draws_when_another_is_added() -> None:
    alone = connect(Draft({"b": (0, 20)}))
    longer = connect(Draft({"a": (0, 1), "b": (0, 20)}))
    spreads = {"a": _HANDS, "b": _HANDS}
    assert list(simulate(alone, spreads, days=20).finishes) == list(
        simulate(longer, spreads, days=20).finishes
    )


def test_without_spreads_every_day_is_the_planned_one() -> None:
    risk = simulate(_two_side_by_side(), {}, days=5)
    assert set(risk.finishes) == {20.0}
    assert risk.at_risk == ()


def test_a_limit_breaks_on_as_many_days_as_its_step_takes_too_long() -> None:
    lags = [*_after(("sear", "stir"), ("stir", "pot")), Lag("sear", "end", "pot", "start", 0, 12)]
    draft = Draft({"sear": (0, 5), "stir": (5, 15), "pot": (15, 20)}, lags)
    risk = simulate(connect(draft), {"stir": _HANDS}, days=_DAYS)
    (found,) = risk.at_risk
    assert isinstance(found.limit, Limit)
    assert (found.limit.before, found.limit.after) == ("sear", "pot")
    assert found.share == pytest.approx(1 - float(_exact(_HANDS, 10).cdf(12)), abs=0.01)


def test_what_begins_a_limited_time_is_not_begun_before_its_minute() -> None:
    lags = [*_after(("chop", "pot")), Lag("take out", "start", "pot", "start", 0, 30)]
    draft = Draft({"chop": (0, 60), "take out": (40, 45), "pot": (60, 70)}, lags)
    assert simulate(connect(draft), {}, days=3).at_risk == ()


def test_a_budget_at_risk_is_told_with_its_share() -> None:
    budget = Budget("warm", (Span("a", "start", "b", "start"),), 22)
    draft = Draft({"a": (0, 20), "b": (20, 30)}, _after(("a", "b")), budgets=[budget])
    risk = simulate(connect(draft), {"a": _HANDS}, days=_DAYS)
    share = 1 - float(_exact(_HANDS, 20).cdf(22))
    (found,) = risk.at_risk
    assert found.limit == budget
    assert found.share == pytest.approx(share, abs=0.01)


def test_what_is_done_varies_no_more() -> None:
    network = connect(Draft({"a": (0, 20), "b": (20, 30)}, _after(("a", "b"))))
    spreads = {"a": _HANDS, "b": Triangular(1.0, 1.0, 1.2)}
    done = simulate(network, spreads, fixed={"a": (0, 33)}, now=33, days=500)
    assert min(done.finishes) >= 43
    assert max(done.finishes) <= 45
    assert "a" not in done.criticality
    running = simulate(network, spreads, fixed={"a": (0, None)}, now=18, days=500)
    assert min(running.finishes) >= 28


def test_a_step_whose_clean_down_follows_at_once_may_still_begin_early() -> None:
    draft = Draft(
        {"mix": (0, 20), "cut": (20, 30), "cut/clean-down": (30, 33)},
        _after(("mix", "cut"), ("cut", "cut/clean-down")),
        kept=[Limit("cut", "end", "cut/clean-down", "start", 0, told=False)],
    )
    risk = simulate(connect(draft), {"mix": Triangular(0.5, 0.6, 0.7)}, days=50)
    assert max(risk.finishes) <= 14 + 13
