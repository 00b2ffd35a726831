"""The household's own pace: how its hands-on times compare with the table's.

Each technique has one factor, fitted to the logarithms of real over planned times: Huber's
location estimate (Annals of Mathematical Statistics 35 (1964) 73-101; from memory), so that one
evening with the telephone ringing counts for little, with a prior that pulls a factor from few
times gently to 1.
"""

from __future__ import annotations

import datetime as dt
import json
import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from statistics import median
from typing import Final

from pydantic import BaseModel, ConfigDict, Field, ValidationError

from batchcook.complaints import Complaint, InputFault
from batchcook.folder import write_file
from batchcook.shapewords import fault_words
from batchcook.tomlfiles import read_text

__all__ = [
    "Observation",
    "Pace",
    "fit_paces",
    "huber_location",
    "read_observations",
    "without",
    "write_observations",
]

# Common practice, no source: times of one person at one kind of work scatter by about a quarter.
_SCATTER: Final = 0.25
_PRIOR_TIMES: Final = 3.0  # the table's own value counts as so many times observed
_CORNER: Final = 1.345 * _SCATTER  # 95 % efficient where the scatter is normal
_NORMAL_MAD: Final = 1.4826  # deviation of a normal distribution over its median deviation
_STEPS: Final = 200


class Observation(BaseModel):
    """How long a hands-on task really took.

    Attributes:
        date: The day.
        technique: As the plan names it.
        food: What it was done to, or an empty string.
        planned: Minutes that the plan had for it.
        real: Minutes that it took.
        pace: The factor already in the planned minutes, so that no factor is counted twice.
    """

    model_config = ConfigDict(frozen=True, extra="forbid")

    date: dt.date
    technique: str = Field(min_length=1)
    food: str = ""
    planned: float = Field(gt=0, allow_inf_nan=False)
    real: float = Field(gt=0, allow_inf_nan=False)
    pace: float = Field(default=1.0, gt=0, allow_inf_nan=False)

    @property
    def ratio(self) -> float:
        """The real time over the table's."""
        return self.real * self.pace / self.planned


@dataclass(frozen=True)
class Pace:
    """A household's pace at one technique.

    Attributes:
        technique: Its name.
        factor: Real over table minutes: above 1 is slower.
        scatter: Deviation of the logarithm of single times about that.
        history: What it was fitted to, oldest first.
    """

    technique: str
    factor: float
    scatter: float
    history: tuple[Observation, ...]

    def minutes(self, by_table: int) -> int:
        """Whole minutes at this pace, at least one, for what the table gives."""
        return max(1, math.floor(by_table * self.factor + 0.5))


def fit_paces(observations: Iterable[Observation]) -> dict[str, Pace]:
    """The pace of every technique that was observed."""
    by_technique: dict[str, list[Observation]] = {}
    for each in sorted(observations, key=lambda each: each.date):
        by_technique.setdefault(each.technique, []).append(each)
    return {
        technique: _fitted(technique, tuple(history))
        for technique, history in sorted(by_technique.items())
    }


def _fitted(technique: str, history: tuple[Observation, ...]) -> Pace:
    logs = [math.log(each.ratio) for each in history]
    centre = huber_location(logs, corner=_CORNER, prior_times=_PRIOR_TIMES)
    deviation = _NORMAL_MAD * median(abs(each - centre) for each in logs)
    pooled = (_PRIOR_TIMES * _SCATTER**2 + len(logs) * deviation**2) / (_PRIOR_TIMES + len(logs))
    return Pace(technique, math.exp(centre), math.sqrt(pooled), history)


def huber_location(values: Sequence[float], *, corner: float, prior_times: float) -> float:
    """The location m that minimizes sum(rho(v - m)) + prior_times * m**2 / 2.

    rho(r) is r**2 / 2 within ``corner`` of 0 and grows in a straight line beyond. The slope of the
    sum never falls, so its zero is bracketed and halved down to the last bit.

    Args:
        values: What was observed, about 0 where all is as expected.
        corner: Residual beyond which a value pulls no harder.
        prior_times: How many values of 0 the prior is worth, at full pull.
    """

    def slope(location: float) -> float:
        pulls = (min(max(location - value, -corner), corner) for value in values)
        return math.fsum(pulls) + prior_times * location

    low, high = min([0.0, *values]), max([0.0, *values])
    for _ in range(_STEPS):
        middle = (low + high) / 2
        if middle in (low, high):
            break
        if slope(middle) > 0:
            high = middle
        else:
            low = middle
    return (low + high) / 2


def without(
    observations: Iterable[Observation], technique: str | None = None
) -> tuple[Observation, ...]:
    """What is left once a technique's times are forgotten; None forgets everything."""
    if technique is None:
        return ()
    return tuple(each for each in observations if each.technique != technique)


def read_observations(path: Path) -> tuple[Observation, ...]:
    """The observations in a file of JSON lines, none where there is no such file yet.

    Raises:
        InputFault: It cannot be read, with a complaint for every line that is none.
    """
    if not path.exists():
        return ()
    text = read_text(path, "a file that 'batchcook pace learn' has written")
    found = []
    complaints = []
    for number, line in enumerate(text.splitlines(), 1):
        if not line.strip():
            continue
        try:
            found.append(Observation.model_validate_json(line))
        except ValidationError as fault:
            complaints += _complaints(f"{path}, line {number}", fault)
    if complaints:
        raise InputFault(complaints)
    return tuple(found)


def _complaints(where: str, fault: ValidationError) -> list[Complaint]:
    found = []
    for each in fault.errors():
        what, expected = fault_words(each)
        place = ": ".join([where, *map(str, each["loc"])])
        found.append(Complaint(place, what, expected or "one observed time a line"))
    return found


def write_observations(path: Path, observations: Iterable[Observation]) -> None:
    """Write the file whole, or not at all.

    Raises:
        InputFault: It cannot be written.
    """
    lines = [_line(each.model_dump(mode="json")) for each in observations]
    write_file(path, "".join(lines).encode())


def _line(entry: Mapping[str, object]) -> str:
    return json.dumps(entry, ensure_ascii=False) + "\n"
