"""FoodSafety.gov, Cold Food Storage Chart; USDA FSIS, Freezing and Food Safety: 10,000 dishes.

Dishes drawn at random (from a fixed seed) get their dates from the program and, here, straight from
the published copies, by an own reading of which rows apply. No date may be later than the shortest
published time that applies, and where two charts differ the longer may never stand.
"""

from __future__ import annotations

import calendar
import csv
import datetime as dt
import random
from pathlib import Path

import pytest

from batchcook.foodsafety.dishrows import check_claim, derive_rows, rows_carried
from batchcook.foodsafety.storage import dates, rows_for

DATA = Path(__file__).parent / "data"
COPIES = ("cold_food_storage_chart.csv", "freezing_and_food_safety.csv", "cooked_fish.csv")
PUBLISHED = {
    row["row"]: row
    for name in COPIES
    for row in csv.DictReader((DATA / name).read_text(encoding="utf-8").splitlines())
}
FREEZABLE = [name for name, row in PUBLISHED.items() if row["months_low"]]
BEEF_OR_PORK = {"raw-beef", "raw-pork", "raw-ground-beef", "raw-ground-pork", "raw-sausage"}
KINDS = (
    *sorted(BEEF_OR_PORK),
    "raw-poultry",
    "raw-ground-poultry",
    "cooked-sausage",
    "raw-fish-fatty",
    "raw-fish-lean",
    "bacon",
    "egg",
    "dairy",
    "cheese",
    "produce",
    "dry-goods",
)
FORM_ROWS = {
    "soup-or-stew": {"soup-or-stew"},
    "sauce-or-filling": {"soup-or-stew"},
    "casserole": {"casserole"},
    "egg-casserole": {"casserole", "egg-casserole-baked"},
    "pieces": set[str](),
}
# What a recipe may name, and the rows that then apply although they differ.
DISAGREEING = (
    (("cooked-meat-or-poultry",), ("cooked-meat-or-poultry", "cooked-meat-fsis")),
    (("cooked-meat-fsis",), ("cooked-meat-or-poultry", "cooked-meat-fsis")),
    (("cooked-poultry-fsis",), ("cooked-meat-or-poultry", "cooked-poultry-fsis")),
    (("lean-fish-raw", "lean-fish-raw-2"), ("lean-fish-raw", "lean-fish-raw-2")),
)
RAW_ROWS = {
    "raw-beef": {"raw-stew-meat"},
    "raw-pork": {"raw-stew-meat"},
    "raw-ground-beef": {"raw-ground-meat-or-poultry", "raw-ground-meat-fsis"},
    "raw-ground-pork": {"raw-ground-meat-or-poultry", "raw-ground-meat-fsis"},
    "raw-ground-poultry": {"raw-ground-meat-or-poultry"},
    "raw-sausage": {"raw-sausage"},
    "raw-poultry": {"raw-poultry-pieces", "raw-poultry-parts-fsis"},
    "cooked-sausage": {"cooked-sausage"},
    "raw-fish-fatty": {"fatty-fish-raw"},
    "raw-fish-lean": {"lean-fish-raw", "lean-fish-raw-2"},
    "bacon": {"bacon"},
    "egg": {"egg-whites-or-yolks-raw", "egg-whites-fsis"},
}


def applicable(state: str, kinds: set[str], form: str) -> set[str]:
    """Rows that apply to a dish, read off the charts without the program's tables."""
    if state == "raw-kit":
        return set().union(*(RAW_ROWS.get(kind, set()) for kind in kinds))
    rows = set(FORM_ROWS[form])
    if kinds & (BEEF_OR_PORK | {"cooked-sausage"}):
        rows |= {"cooked-meat-or-poultry", "cooked-meat-fsis"}
    if kinds & {"raw-poultry", "raw-ground-poultry"}:
        rows |= {"cooked-meat-or-poultry", "cooked-poultry-fsis"}
    if kinds & {"raw-fish-fatty", "raw-fish-lean"}:
        rows.add("cooked-fish")
    if kinds & {"raw-sausage", "cooked-sausage"}:
        rows.add("cooked-sausage")
    if "bacon" in kinds:
        rows.add("bacon")
    if "egg" in kinds and "casserole" in form:
        rows.add("egg-casserole-baked")
    if "egg" in kinds and state == "part-baked":
        rows |= {"egg-whites-or-yolks-raw", "egg-whites-fsis"}
    return rows


def later(day: dt.date, months: int) -> dt.date:
    """So many calendar months on, by stepping through them one at a time."""
    year, month = day.year, day.month
    for _ in range(months):
        year, month = (year, month + 1) if month < 12 else (year + 1, 1)
    return dt.date(year, month, min(day.day, calendar.monthrange(year, month)[1]))


def test_no_date_of_10_000_random_dishes_is_later_than_the_shortest_published_time() -> None:
    rng = random.Random(20270116)  # noqa: S311 - dishes, not secrets
    compared = 0
    for _ in range(10_000):
        state = rng.choice(("cooked", "part-baked", "raw-kit"))
        kinds = set(rng.sample(KINDS, rng.randint(1, 6)))
        form = rng.choice(tuple(FORM_ROWS))
        packed = dt.date(2027, 1, 1) + dt.timedelta(days=rng.randrange(1500))
        rows = [PUBLISHED[name] for name in applicable(state, kinds, form)]
        claimed = rng.sample(FREEZABLE, rng.randint(0, 2))
        rows += [PUBLISHED[name] for name in claimed]
        found = dates(rows_carried(claimed, state, kinds, form), packed)
        assert found.best_by <= found.use_by
        for row in rows:
            assert found.best_by <= later(packed, int(row["months_low"]))
            assert found.use_by <= later(packed, int(row["months_high"]))
            if row["days_low"]:
                assert found.refrigerator_days_after_thaw <= int(row["days_low"])
                assert found.refrigerator_days_after_thaw_at_most <= int(row["days_high"])
        compared += bool(rows)
    assert compared > 9_000


@pytest.mark.parametrize(("named", "differing"), DISAGREEING)
def test_no_disagreement_between_charts_is_resolved_to_the_longer(
    named: tuple[str, ...], differing: tuple[str, ...]
) -> None:
    packed = dt.date(2027, 1, 16)
    found = dates(rows_for(named), packed)
    rows = [PUBLISHED[name] for name in differing]
    assert len({(row["months_low"], row["months_high"]) for row in rows}) == len(rows)
    assert found.best_by == min(later(packed, int(row["months_low"])) for row in rows)
    assert found.use_by == min(later(packed, int(row["months_high"])) for row in rows)


def test_a_random_claim_passes_only_if_it_sets_no_later_date() -> None:
    rng = random.Random(20270117)  # noqa: S311 - claims, not secrets
    packed = dt.date(2027, 1, 31)
    passed = 0
    for _ in range(2_000):
        kinds = set(rng.sample(KINDS, rng.randint(1, 4)))
        derived = derive_rows("cooked", kinds, rng.choice(tuple(FORM_ROWS)))
        claim = rng.sample(FREEZABLE, rng.randint(1, 3))
        theirs, ours = dates(rows_for(claim), packed), dates(derived, packed)
        stricter = (
            theirs.best_by <= ours.best_by
            and theirs.use_by <= ours.use_by
            and theirs.refrigerator_days_after_thaw <= ours.refrigerator_days_after_thaw
            and theirs.refrigerator_days_after_thaw_at_most
            <= ours.refrigerator_days_after_thaw_at_most
        )
        assert (check_claim(claim, derived) == ()) == stricter
        passed += stricter
    assert 100 < passed < 1_900
