"""A past prep day, copied and changed: three cottage pies instead of two, no curry."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from importlib import resources
from pathlib import Path

from batchcook.complaints import Complaint, InputFault, nearest
from batchcook.day.notes import Note, notes_text, read_notes
from batchcook.day.prepday import PrepDay, parse_orders
from batchcook.kitchens.kitchen import Kitchen, default_kitchen, load_kitchen
from batchcook.plan import Plan, read_plan
from batchcook.plans.dayfolder import KITCHEN_FILE, NOTES_FILE
from batchcook.tomlfiles import parse_toml, read_text

__all__ = ["Kept", "changed_orders", "copied_day", "kept"]

"""The kitchen of a plan, kept in its folder so that the day can be planned again.

No cook calls a kitchen file of their own so, and a plan may be written beside it.
"""


def copied_day(folder: Path, changes: Sequence[str]) -> PrepDay:
    """The prep day of a plan folder with other batches, still on its own date.

    Dishes, start, units, and the kitchen with the cooks of that day are copied; what was busy that
    day, and its dinner, are not.

    Args:
        folder: The plan folder.
        changes: Dishes with new batches, as ``"cottage-pie=3"``; ``=0`` leaves a dish out, and one
            that was not cooked then is added.

    Raises:
        InputFault: There is no plan, or a change makes no sense; with every complaint.
    """
    old = read_plan(folder)
    place = folder.parent if folder.is_file() else folder
    return PrepDay(
        date=old.date,
        start=old.start.time(),
        orders=changed_orders({dish.id: dish.batches for dish in old.dishes}, changes),
        kitchen=_kitchen(place, old),
        system=old.system,
    )


def changed_orders(orders: Mapping[str, int], changes: Sequence[str]) -> dict[str, int]:
    """Dishes with their batches, changed.

    Args:
        orders: Dish id to batches.
        changes: As for :func:`copied_day`.

    Raises:
        InputFault: With every change that cannot be read, that leaves out what is not there, or
            that leaves nothing to cook.
    """
    out = [word.removesuffix("=0") for word in changes if word.endswith("=0")]
    complaints = [
        Complaint(
            "dishes",
            f"{name!r} cannot be left out, it was not cooked that day",
            f"one of {', '.join(orders)}",
            nearest(name, orders),
        )
        for name in out
        if name not in orders
    ]
    changed: dict[str, int] = {}
    try:
        changed = parse_orders([word for word in changes if not word.endswith("=0")], "dishes")
    except InputFault as fault:
        complaints += fault.complaints
    complaints += [
        Complaint("dishes", f"{name!r} is both left out and cooked", "one of the two")
        for name in out
        if name in changed
    ]
    found = {name: batches for name, batches in {**orders, **changed}.items() if name not in out}
    if not found and not complaints:
        complaints.append(Complaint("dishes", "nothing is left to cook", "at least one dish"))
    if complaints:
        raise InputFault(complaints)
    return found


@dataclass(frozen=True)
class Kept:
    """What a plan folder keeps besides its plan, so that the day can be planned again.

    Attributes:
        kitchen: The kitchen file.
        notes: Every note that came along, those of dishes left out this time too.
    """

    kitchen: bytes
    notes: tuple[Note, ...]

    def files_for(self, folder: Path) -> Mapping[str, bytes]:
        """File name to content, with the notes that were written there meanwhile.

        Args:
            folder: The folder to be written.

        Raises:
            InputFault: Its notes cannot be read.
        """
        files = {KITCHEN_FILE: self.kitchen}
        notes = (*read_notes(folder), *self.notes)
        if notes:
            files[NOTES_FILE] = notes_text(notes).encode()
        return files


def kept(words: Sequence[str], kitchen: Path | None, like: Path | None, out: Path) -> Kept:
    """What is kept with a plan.

    Args:
        words: What was ordered; the first may be a prep-day file.
        kitchen: The kitchen file that the cook named, or None.
        like: The plan folder that is copied, or None.
        out: The folder to be written; notes that are there already stay.

    Raises:
        InputFault: A file cannot be read.
    """
    past = like.parent if like is not None and like.is_file() else like
    notes = (*read_notes(out), *(read_notes(past) if past else ()))
    return Kept(_kitchen_copy(words, kitchen, past), tuple(dict.fromkeys(notes)))


def _kitchen_copy(words: Sequence[str], kitchen: Path | None, past: Path | None) -> bytes:
    """The kitchen file named, or that of the prep-day file, of the past day, or the default."""
    file = kitchen
    if file is None and past is not None and (past / KITCHEN_FILE).is_file():
        file = past / KITCHEN_FILE
    elif file is None and past is None and words and words[0].endswith(".toml"):
        prep_day = Path(words[0])
        tables = parse_toml(read_text(prep_day, "a prep-day file"), str(prep_day))
        named = tables.get("day", {}).get("kitchen")
        file = prep_day.parent / named if named else None
    if file is None:
        return resources.files("batchcook.data").joinpath("kitchen.toml").read_bytes()
    return _read(file)


def _kitchen(place: Path, old: Plan) -> Kitchen:
    """The kitchen kept with the plan, with those cooks who were there."""
    file = place / KITCHEN_FILE
    kitchen = load_kitchen(file) if file.is_file() else default_kitchen()
    names = {cook.id for cook in old.cooks}
    there = tuple(cook for cook in kitchen.cooks if cook.id in names)
    return replace(kitchen, cooks=there or kitchen.cooks)


def _read(file: Path) -> bytes:
    try:
        return file.read_bytes()
    except OSError as fault:
        what = f"cannot be read ({fault.strerror})"
        raise InputFault(Complaint(str(file), what, "a file")) from None
