"""Which container a code means.

A container keeps the code of its label. Each prep day begins again at A1, so the same code may
be in the freezer twice: then the code alone is refused, and the day of packing decides, as in
``A1@2027-01-16``. Containers that were not packed on a prep day are Z1, Z2, Z3 ... and
no number comes twice.
"""

from __future__ import annotations

import datetime as dt
import re
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from typing import Final

from batchcook.complaints import Complaint, InputFault, nearest
from batchcook.freezer.entries import BRINGS_IN, Entry
from batchcook.freezer.stock import Stock, Stored

__all__ = ["code_of_ones_own", "key_of", "next_codes", "pick", "same_key", "short_codes"]

_LETTER: Final = "Z"
"""The letter that a plan gives to its 26th dish, so as good as never."""
_NUMBERED: Final = re.compile(rf"{_LETTER}([0-9]+)@")
_LONGEST: Final = 12
"""Characters of a code of one's own: what a label has room for."""
_OWN: Final = re.compile(rf"[A-Z0-9][A-Z0-9-]{{0,{_LONGEST - 1}}}")


def key_of(code: str, packed_on: dt.date) -> str:
    """A container's own key."""
    return f"{code}@{packed_on.isoformat()}"


def same_key(key: str) -> str:
    """What two keys have in common that nobody could tell apart when they are typed."""
    return key.upper()


def code_of_ones_own(text: str) -> str:
    """A code as it is kept: in capitals, without blanks around it.

    Raises:
        InputFault: It could not be told from a list of codes, a day of packing or an option.
    """
    code = text.strip().upper()
    if not _OWN.fullmatch(code):
        raise InputFault(
            Complaint(
                "--code",
                f"{text!r} is no code",
                f"at most {_LONGEST} letters, digits and hyphens, the first no hyphen, as in S1",
            )
        )
    return code


def short_codes(stock: Stock) -> Mapping[str, str]:
    """Key to the shortest code that means only that container."""
    count = Counter(each.code for each in stock.here.values())
    return {key: each.code if count[each.code] == 1 else key for key, each in stock.here.items()}


def pick(stock: Stock, codes: Sequence[str]) -> tuple[Stored, ...]:
    """The containers that are meant, in the order named.

    Raises:
        InputFault: With a complaint for each code that means none, more than one, or the same
            container as another.
    """
    complaints: list[Complaint] = []
    found: dict[str, Stored] = {}
    for code in codes:
        meant = _meant(stock, code)
        if len(meant) != 1:
            complaints.append(_no_such(stock, code) if not meant else _several(code, meant))
        elif meant[0].key in found:
            complaints.append(Complaint(code, "is named twice", "each container once"))
        else:
            found[meant[0].key] = meant[0]
    if complaints:
        raise InputFault(complaints)
    return tuple(found.values())


def next_codes(entries: Iterable[Entry], count: int) -> tuple[str, ...]:
    """So many codes for what no plan made, after the last that was ever given.

    Those whose entry was undone count too: their labels may be written.
    """
    given = [_NUMBERED.match(entry.subject) for entry in entries if entry.change in BRINGS_IN]
    first = max((int(found[1]) for found in given if found), default=0) + 1
    return tuple(f"{_LETTER}{number}" for number in range(first, first + count))


def _meant(stock: Stock, code: str) -> list[Stored]:
    """Those in the freezer or the refrigerator whose code or key it is, in any case."""
    wanted = code.strip().upper()
    return [each for key, each in stock.here.items() if wanted in {each.code.upper(), key.upper()}]


def _several(code: str, meant: Iterable[Stored]) -> Complaint:
    each = "; ".join(f"{one.key} is {one.title}" for one in meant)
    return Complaint(code, f"stands on more than one container: {each}", "one of these")


def _no_such(stock: Stock, code: str) -> Complaint:
    wanted = code.strip().upper()
    gone = sorted(
        key for key in stock.gone if wanted in {key.upper(), key.partition("@")[0].upper()}
    )
    if gone:
        return Complaint(
            code,
            "is not in the freezer any more",
            f"a code from the list; `freezer history {gone[-1]}` says where it went",
        )
    return Complaint(
        code,
        "is no container in the freezer",
        "a code from the list",
        nearest(wanted.lower(), [each.code.lower() for each in stock.here.values()]).upper(),
    )
