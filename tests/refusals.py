"""Whether a refusal is right: what it says clashes does, and what it offers works."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

from plain_model import clash

from batchcook.complaints import Complaint, InputFault
from batchcook.cookbook import Cookbook
from batchcook.day.clash import Change, Clash
from batchcook.day.formulation import formulate
from batchcook.day.prepday import PrepDay
from batchcook.day.workday import day_work, ordered_dishes
from batchcook.scheduling.check import check
from batchcook.scheduling.relaxing import elements, loosened

__all__ = ["faults_confirmed", "unconfirmed"]

SECONDS = 10.0
_A_BATCH_LESS = re.compile(r"expected (\d+) of its batches instead of (\d+)")
_PANS = re.compile(r"too few (?:sheet pans|baking dishes) \((\d+) of .*?\): .*? on (\d+) of")
_SLOW = re.compile(r"in which ([\d /.]+) (quarts?|L) stands between half and two thirds full")


def unconfirmed(found: Clash | None, cookbook: Cookbook) -> list[str]:
    """What of a refusal could not be confirmed."""
    if found is None:
        return ["refused without a reason"]
    problem, conflict = found.formulation.problem, found.conflict
    limits = conflict.references if conflict.proved else tuple(elements(problem))
    verdict = clash(problem, limits, conflict.tasks, seconds=SECONDS)
    wrong = [] if verdict == "impossible" else [f"the limits named are {verdict}: {found.limits}"]
    if not found.limits or not all(found.limits):
        wrong.append("refused without a word")
    return wrong + [words for each in found.changes for words in _useless(each, found, cookbook)]


def _useless(change: Change, found: Clash, cookbook: Cookbook) -> Iterator[str]:
    """What is wrong with the schedule that shows that a change would do."""
    if change.day is not None:
        work = day_work(ordered_dishes(change.day, cookbook), change.day)
        problem = formulate(work, change.day).problem
    else:
        assert change.repair is not None
        repair = change.repair
        loose = loosened(found.formulation.problem, repair.reference, repair.amount)
        assert loose is not None
        problem = loose
    for breach in check(problem, change.schedule):
        yield f"{change.words!r} would not do: {breach}"


def faults_confirmed(day: PrepDay, fault: InputFault, cookbook: Cookbook) -> tuple[int, list[str]]:
    """How many complaints rest on arithmetic that was done again here; and those that are wrong."""
    again = [_again(day, each, cookbook) for each in fault.complaints]
    return sum(each is not None for each in again), [
        f"not so: {complaint}"
        for complaint, right in zip(fault.complaints, again, strict=True)
        if right is False
    ]


def _again(day: PrepDay, complaint: Complaint, cookbook: Cookbook) -> bool | None:
    """Whether a complaint is right; None where that is not looked into here."""
    said = str(complaint)
    dish = complaint.where.partition(",")[0]
    if "the kitchen has no oven" in said:
        return not day.kitchen.ovens
    if pans := _PANS.search(said):
        there = sum(each.count for each in (*day.kitchen.sheet_pans, *day.kitchen.baking_dishes))
        short = int(pans[1]) < int(pans[2]) and int(pans[1]) <= there
        return short and _would_do(day, dish, said, cookbook)
    if slow := _SLOW.search(said):
        quarts = _number(slow[1]) / (0.946353 if slow[2] == "L" else 1)
        (kind,) = day.kitchen.slow_cookers
        size = float(kind.size.to("quart").magnitude)
        return not any(
            each * size / 2 <= quarts <= each * size * 2 / 3 for each in range(1, kind.count + 1)
        )
    return None


def _would_do(day: PrepDay, dish: str, said: str, cookbook: Cookbook) -> bool:
    """Whether the batches offered instead raise no fault, the dish made by itself."""
    offered = _A_BATCH_LESS.search(said)
    if offered is None:
        return True
    fewer = replace(day, orders={dish: int(offered[1])})
    try:
        day_work(ordered_dishes(fewer, cookbook), fewer)
    except InputFault:
        return False
    return True


def _number(text: str) -> float:
    """``10 1/2`` as 10.5."""
    total = 0.0
    for part in text.split():
        above, _, below = part.partition("/")
        total += float(above) / float(below or 1)
    return total
