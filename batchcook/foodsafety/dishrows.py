"""Which storage rows a dish carries, from what it is and holds, and whether a claim is honest."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence

from batchcook.complaints import Complaint, InputFault, nearest
from batchcook.foodsafety.kinds import DISH_STATES, unknown_kinds
from batchcook.foodsafety.storage import StorageRow, rows_for
from batchcook.foodsafety.tables import table

__all__ = ["check_claim", "derive_rows", "dish_forms", "rows_carried"]

POULTRY = frozenset({"raw-poultry", "raw-ground-poultry"})
MEAT = frozenset(
    {"raw-beef", "raw-ground-beef", "raw-pork", "raw-ground-pork", "raw-sausage", "cooked-sausage"}
)


def dish_forms() -> tuple[str, ...]:
    """The forms that a dish may have."""
    return tuple(table("dish_rows")["form"])


def derive_rows(
    state: str,
    contains: Collection[str],
    form: str,
    where: str = "dish",
) -> tuple[StorageRow, ...]:
    """Every row of every chart that fits a dish.

    Meat, poultry and fish in a part-baked dish count as cooked: published guidance forbids packing
    them half cooked. Raw egg in it counts as raw.

    Args:
        state: ``"cooked"``, ``"part-baked"`` or ``"raw-kit"``.
        contains: The food kinds that it holds.
        form: One of :func:`dish_forms`; a raw kit of an unknown cut is ``"raw-kit"``.
        where: The place that described it, for messages.

    Returns:
        The rows, rows of other charts for the same food included. A dish that no row fits is kept
        as a frozen main dish.

    Raises:
        InputFault: With a complaint for each unknown state, kind or form.
    """
    faults = unknown_kinds(contains, where)
    if state not in DISH_STATES:
        faults.append(
            Complaint(
                where,
                f"unknown state {state!r}",
                ", ".join(DISH_STATES),
                nearest(state, DISH_STATES),
            )
        )
    if form not in dish_forms():
        faults.append(
            Complaint(
                where,
                f"unknown form {form!r}",
                ", ".join(dish_forms()),
                nearest(form, dish_forms()),
            )
        )
    if faults:
        raise InputFault(faults)
    names = _raw(contains, form) if state == "raw-kit" else _cooked(state, contains, form)
    return rows_for(names or table("dish_rows")["otherwise"]["rows"], where)


def rows_carried(
    claimed: Sequence[str],
    state: str,
    contains: Collection[str],
    form: str,
    where: str = "dish",
) -> tuple[StorageRow, ...]:
    """The rows that a label's dates are taken from: those claimed and those that fit besides.

    Args:
        claimed: Row names that the recipe gives.
        state: As for :func:`derive_rows`.
        contains: As for :func:`derive_rows`.
        form: As for :func:`derive_rows`.
        where: The place that described it, for messages.

    Raises:
        InputFault: An unknown row, or as for :func:`derive_rows`.
    """
    derived = derive_rows(state, contains, form, where)
    if claimed and [row.name for row in derived] == table("dish_rows")["otherwise"]["rows"]:
        return rows_for(claimed, where)
    return rows_for([*claimed, *(row.name for row in derived)], where)


def check_claim(
    claimed: Sequence[str], derived: Sequence[StorageRow], where: str = "storage rows"
) -> tuple[Complaint, ...]:
    """Whether the rows that a recipe claims allow longer than what it holds does.

    Args:
        claimed: Row names that the recipe gives.
        derived: What :func:`derive_rows` found for it.
        where: The place of the claim, for messages.

    Returns:
        A complaint for each date that the claim would set too late, and for each claimed name that
        is no row; empty when the claim is as strict or stricter.
    """
    try:
        rows = rows_for(claimed, where)
    except InputFault as fault:
        return fault.complaints
    if not rows:
        expected = ", ".join(row.name for row in derived)
        return (Complaint(where, "no storage row is named", expected),)
    return (
        *_not_frozen(rows, where),
        *_not_frozen([row for row in derived if row not in rows], where),
        *_too_long(rows, derived, where),
    )


def _not_frozen(rows: Sequence[StorageRow], where: str) -> list[Complaint]:
    return [
        Complaint(where, f"{row.name}: {row.not_frozen}", "a dish that can be frozen")
        for row in rows
        if row.freezer_months is None
    ]


def _too_long(
    rows: Sequence[StorageRow], derived: Sequence[StorageRow], where: str
) -> list[Complaint]:
    found = []
    for what, unit, spans_of, end in (
        ("best by", "months", _months, 0),
        ("use by", "months", _months, 1),
        ("in the refrigerator, to be on the safe side", "days", _days, 0),
        ("in the refrigerator at most", "days", _days, 1),
    ):
        claimed, allowed = _shortest(spans_of(rows), end), _shortest(spans_of(derived), end)
        if claimed is None or allowed is None or claimed <= allowed:
            continue
        deciding = [name for name, span in spans_of(derived).items() if span[end] == allowed]
        found.append(
            Complaint(
                where,
                f"{what}: the named rows allow {claimed} {unit}, what it is and holds {allowed}",
                f"also {', '.join(deciding)}",
            )
        )
    return found


def _cooked(state: str, contains: Collection[str], form: str) -> list[str]:
    tables = table("dish_rows")
    names: list[str] = list(tables["form"][form]["rows"])
    for kind in sorted(contains):
        names += tables["cooked"].get(kind, ())
        names += tables["cooked_in_form"].get(form, {}).get(kind, ())
        if state == "part-baked":
            names += tables["part_baked"].get(kind, ())
    if tables["form"][form]["meat"]:
        names += _cooked_meat(contains)
    return names


def _cooked_meat(contains: Collection[str]) -> list[str]:
    names = []
    if not MEAT.isdisjoint(contains):
        names.append("cooked-meat-fsis")
    if not POULTRY.isdisjoint(contains):
        names.append("cooked-poultry-fsis")
    return names


def _raw(contains: Collection[str], form: str) -> list[str]:
    tables = table("dish_rows")
    by_cut = tables["raw_in_form"].get(form, {})
    return [
        name for kind in sorted(contains) for name in by_cut.get(kind, tables["raw"].get(kind, ()))
    ]


def _months(rows: Sequence[StorageRow]) -> dict[str, tuple[int, int]]:
    return {row.name: row.freezer_months for row in rows if row.freezer_months}


def _days(rows: Sequence[StorageRow]) -> dict[str, tuple[int, int]]:
    return {row.name: row.refrigerator_days for row in rows if row.refrigerator_days}


def _shortest(spans: Mapping[str, tuple[int, int]], end: int) -> int | None:
    return min((span[end] for span in spans.values()), default=None)
