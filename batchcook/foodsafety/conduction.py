"""Heat conduction in a slab of food, cooled by convection on both faces.

The plane wall with convection, solved by separation of variables (Incropera and DeWitt,
Fundamentals of Heat and Mass Transfer, transient conduction), generalised to different media on the
two faces and to any starting profile, so that stages follow one another. Inside this module all is
in SI units as plain numbers: meters, seconds, W/m2K, W/mK, m2/s; temperatures in any one scale of
equal degrees.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache, cached_property

__all__ = ["NODES", "Face", "Slab", "brick_ratio", "seconds_until"]

NODES = 201
"""Points across a slab, both faces included; odd, as Simpson's rule wants."""
TERMS = 30
"""Terms of the series: enough from about a second on for the slabs of a kitchen."""
NEGLIGIBLE_EXPONENT = 40.0
PRECISION_SECONDS = 0.01


@dataclass(frozen=True)
class Face:
    """What one face of the slab meets.

    Attributes:
        coefficient: Heat transfer coefficient, W/m2K; 0 for an insulated face.
        temperature: The medium's temperature.
    """

    coefficient: float
    temperature: float


@cache
def _roots(biot_low: float, biot_high: float) -> tuple[float, ...]:
    """Roots of (m2 - B0 B1) sin m = m (B0 + B1) cos m: one in each interval of pi."""

    def residue(root: float) -> float:
        return (root * root - biot_low * biot_high) * math.sin(root) - root * (
            biot_low + biot_high
        ) * math.cos(root)

    found = []
    for number in range(TERMS):
        low, high = number * math.pi + 1e-12, (number + 1) * math.pi
        rising = residue(high) > 0
        for _ in range(60):
            middle = (low + high) / 2
            if (residue(middle) > 0) == rising:
                high = middle
            else:
                low = middle
        found.append((low + high) / 2)
    return tuple(found)


@dataclass(frozen=True)
class Slab:
    """A slab of food between two media.

    Attributes:
        thickness: In meters.
        conductivity: In W/mK.
        diffusivity: In m2/s.
        low: What the lower face meets.
        high: What the upper face meets.
    """

    thickness: float
    conductivity: float
    diffusivity: float
    low: Face
    high: Face

    def evolve(self, profile: Sequence[float], seconds: float) -> list[float]:
        """The profile so many seconds on.

        Args:
            profile: Temperatures at :data:`NODES` equally spaced points, lower face first.
            seconds: Time passed; 0 returns the profile as it is.

        Returns:
            Temperatures at the same points.
        """
        if seconds <= 0:
            return list(profile)
        return self._at(self._amplitudes(profile), seconds, range(NODES))

    def course(
        self, profile: Sequence[float], moments: Sequence[float]
    ) -> tuple[list[float], list[float]]:
        """The upper face at several moments, and the whole profile at the last of them.

        Args:
            profile: Temperatures at :data:`NODES` points.
            moments: Seconds from now, each more than 0, in order.
        """
        amplitudes = self._amplitudes(profile)
        face = range(NODES - 1, NODES)
        upper = [self._at(amplitudes, seconds, face)[0] for seconds in moments]
        return upper, self._at(amplitudes, moments[-1], range(NODES))

    def seconds_until_below(
        self, profile: Sequence[float], target: float, limit: float = 1e6
    ) -> float:
        """Seconds until no point of the slab is warmer than ``target``.

        Args:
            profile: Temperatures at :data:`NODES` points.
            target: The temperature to fall to.
            limit: Longest time looked at, in seconds.

        Returns:
            The seconds, or infinity when it takes longer than ``limit`` or never happens.
        """
        amplitudes = self._amplitudes(profile)
        points = range(0, NODES, 5)

        def warmest(seconds: float) -> float:
            if seconds <= 0:
                return max(profile)
            return max(self._at(amplitudes, seconds, points))

        return seconds_until(lambda seconds: warmest(seconds) <= target, limit)

    @cached_property
    def _biot(self) -> tuple[float, float]:
        over = self.thickness / self.conductivity
        return self.low.coefficient * over, self.high.coefficient * over

    @cached_property
    def _steady(self) -> tuple[float, float]:
        """Temperature at the lower face and rise across the slab, once nothing changes."""
        low, high = self._biot
        if low <= 0:
            return self.high.temperature, 0.0
        if high <= 0:
            return self.low.temperature, 0.0
        rise = (self.high.temperature - self.low.temperature) / (1 / low + 1 + 1 / high)
        return self.low.temperature + rise / low, rise

    @cached_property
    def _modes(self) -> tuple[tuple[float, tuple[float, ...], float], ...]:
        """Each term's root, its shape at the nodes, and the integral of the shape's square."""
        low, high = self._biot
        found = []
        for root in _roots(low, high):
            shape = tuple(
                math.cos(root * node / (NODES - 1))
                + low / root * math.sin(root * node / (NODES - 1))
                for node in range(NODES)
            )
            square = (root * root + low * low) * (1 + high / (root * root + high * high)) + low
            found.append((root, shape, square / (2 * root * root)))
        return tuple(found)

    def _amplitudes(self, profile: Sequence[float]) -> list[float]:
        """How much of each term the profile holds, by Simpson's rule."""
        base, rise = self._steady
        above = [value - base - rise * node / (NODES - 1) for node, value in enumerate(profile)]
        weights = [1.0, *([4.0, 2.0] * ((NODES - 3) // 2)), 4.0, 1.0]
        weighted = [w * value / (3 * (NODES - 1)) for w, value in zip(weights, above, strict=True)]
        return [
            sum(w * s for w, s in zip(weighted, shape, strict=True)) / square
            for _, shape, square in self._modes
        ]

    def _at(self, amplitudes: Sequence[float], seconds: float, points: range) -> list[float]:
        base, rise = self._steady
        fourier = self.diffusivity * seconds / self.thickness**2
        alive = [
            (amplitude * math.exp(-root * root * fourier), shape)
            for amplitude, (root, shape, _) in zip(amplitudes, self._modes, strict=True)
            if root * root * fourier < NEGLIGIBLE_EXPONENT
        ]
        return [
            base + rise * node / (NODES - 1) + sum(left * shape[node] for left, shape in alive)
            for node in points
        ]


def seconds_until(reached: Callable[[float], bool], limit: float = 1e6) -> float:
    """The first moment at which ``reached`` holds, to a hundredth of a second.

    Args:
        reached: Of a time in seconds; once true it stays true.
        limit: Longest time looked at.

    Returns:
        Seconds, or infinity when it does not hold at the limit.
    """
    if reached(0.0):
        return 0.0
    low, high = 0.0, 60.0
    while not reached(high):
        low, high = high, high * 2
        if low >= limit:
            return math.inf
    while high - low > PRECISION_SECONDS:
        middle = (low + high) / 2
        low, high = (low, middle) if reached(middle) else (middle, high)
    return high


@cache
def _uniform_terms(biot: float) -> tuple[tuple[float, float, float], ...]:
    """Root, share at the center and mean share of each term, for a uniform start."""
    found = []
    for root in (full / 2 for full in _roots(2 * biot, 2 * biot)[::2]):
        coefficient = 4 * math.sin(root) / (2 * root + math.sin(2 * root))
        found.append((root, coefficient, coefficient * math.sin(root) / root))
    return tuple(found)


def brick_ratio(
    edges: Sequence[float],
    coefficient: float,
    conductivity: float,
    diffusivity: float,
    seconds: float,
) -> tuple[float, float]:
    """What is left of a brick's excess over the medium: at its center, and on average.

    The product of the plane walls in each direction (Incropera and DeWitt, multidimensional
    effects); exact for a uniform start and one medium all round.

    Args:
        edges: Lengths of one, two or three edges, in meters; directions left out are endless.
        coefficient: Heat transfer coefficient all round, W/m2K.
        conductivity: In W/mK.
        diffusivity: In m2/s.
        seconds: Time passed.
    """
    center = mean = 1.0
    for edge in edges:
        half = edge / 2
        fourier = diffusivity * seconds / half**2
        terms = _uniform_terms(coefficient * half / conductivity)
        alive = [
            (math.exp(-root * root * fourier), at_center, on_average)
            for root, at_center, on_average in terms
            if root * root * fourier < NEGLIGIBLE_EXPONENT
        ]
        center *= min(1.0, sum(left * at_center for left, at_center, _ in alive))
        mean *= min(1.0, sum(left * on_average for left, _, on_average in alive))
    return center, mean
