"""The rules of a plan's labels, by own copies of the published storage times."""

from __future__ import annotations

import calendar
import csv
import datetime as dt
from collections.abc import Iterator
from pathlib import Path

from oracle_reading import Plan

__all__ = ["containers", "dates"]

_DATA = Path(__file__).parent / "published" / "data"
_CHARTS = ("cold_food_storage_chart.csv", "freezing_and_food_safety.csv", "cooked_fish.csv")
_ROWS = {
    row["row"]: row
    for name in _CHARTS
    for row in csv.DictReader((_DATA / name).read_text(encoding="utf-8").splitlines())
}


def _later(day: str, months: int) -> str:
    """So many calendar months on, the last day of a month that is too short."""
    date = dt.date.fromisoformat(day)
    year, month = divmod(date.year * 12 + date.month - 1 + months, 12)
    last = calendar.monthrange(year, month + 1)[1]
    return dt.date(year, month + 1, min(date.day, last)).isoformat()


def dates(plan: Plan) -> Iterator[str]:
    """Best by is the shortest short end of the published rows, use by the shortest long end."""
    for each in plan["containers"]:
        rows = [_ROWS[name] for name in each["storage_rows"] if name in _ROWS]
        if not rows or len(rows) != len(each["storage_rows"]):
            yield f"{each['code']} names a row that is not published"
            continue
        best = _later(each["packed_on"], min(int(row["months_low"]) for row in rows))
        use = _later(each["packed_on"], min(int(row["months_high"]) for row in rows))
        days = [int(row["days_low"]) for row in rows if row["days_low"]]
        if (each["best_by"], each["use_by"]) != (best, use):
            yield f"{each['code']} says {each['best_by']}, {each['use_by']}, not {best}, {use}"
        waited = dt.date.fromisoformat(each.get("frozen_on") or each["packed_on"])
        waited_days = (waited - dt.date.fromisoformat(each["packed_on"])).days
        if each["keeps_thawed_days"] != max(0, min(days) - waited_days):
            yield f"{each['code']} keeps {each['keeps_thawed_days']} days once thawed"
        if (each["cook_to_degF"] is not None) != (each["state"] == "raw-kit"):
            yield f"{each['code']} is told wrongly to be cooked or reheated"


def containers(plan: Plan) -> Iterator[str]:
    """Containers are numbered through, and hold every portion that was cooked."""
    codes = [each["code"] for each in plan["containers"]]
    if len(set(codes)) != len(codes):
        yield "two containers have one code"
    for dish in plan["dishes"]:
        mine = [each for each in plan["containers"] if each["dish"] == dish["id"]]
        if [(each["number"], each["of"]) for each in mine] != [
            (number, len(mine)) for number in range(1, len(mine) + 1)
        ]:
            yield f"the containers of {dish['id']} are numbered wrongly"
        if sum(each["portions"] for each in mine) != dish["servings"]:
            yield f"the containers of {dish['id']} hold {sum(each['portions'] for each in mine)}"
