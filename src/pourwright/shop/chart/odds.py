"""What chance alone does with a count: exact tails, limits and ranges, by share or by rate."""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Callable
from dataclasses import dataclass

from scipy import special

from pourwright.base.errors import BadInput

# One side of three standard deviations of a normal value: 1 in 741.
RARE = float(special.ndtr(-3.0))
# So many standard deviations out, every count is rarer: Cantelli, 1 / (1 + k²).
_FAR = 28


@dataclass(frozen=True, slots=True)
class Chance:
    """A count that chance deals: what it is on average, its spread, and its lower tail.

    `most` is the highest count there can be, or none.
    """

    mean: float
    sigma: float
    at_most: Callable[[int], float]
    most: int | None

    def at_least(self, count: int) -> float:
        """Chance of that count or more."""
        return 1.0 if count <= 0 else 1.0 - self.at_most(count - 1)


def of_share(n: int, share: float) -> Chance:
    """Bad ones among n, each bad with the same chance.

    Source: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.3.2.
    """

    def at_most(count: int) -> float:
        return 1.0 if count >= n else float(special.bdtr(count, n, share))

    return Chance(n * share, math.sqrt(n * share * (1 - share)), at_most, n)


def of_rate(mean: float) -> Chance:
    """Flaws on a sample whose usual number is `mean`.

    Source: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.3.1.
    """

    def at_most(count: int) -> float:
        return float(special.pdtr(count, mean))

    return Chance(mean, math.sqrt(mean), at_most, None)


def tail(chance: Chance, count: int) -> float:
    """Chance of a count at least as far out, on the side where this one lies."""
    if count >= chance.mean:
        return chance.at_least(count)
    return chance.at_most(count)


def most_likely(chance: Chance) -> int | None:
    """The highest count that is not too rare for chance; none where every count is likely enough.

    >>> most_likely(of_rate(16))
    29
    """
    first = math.floor(chance.mean)
    counts = range(first, first + math.ceil(_FAR * chance.sigma) + 2)
    count = first + bisect_left(counts, True, key=lambda n: chance.at_least(n + 1) < RARE)
    return None if count == chance.most else count


def fewest_likely(chance: Chance) -> int | None:
    """The lowest count that is not too rare for chance; none where not even 0 is rare."""
    counts = range(math.floor(chance.mean) + 2)
    return bisect_left(counts, RARE, key=chance.at_most) or None


def share_range(bad: int, n: int, sure: float = 0.95) -> tuple[float, float]:
    """The shares that a count leaves possible.

    Source: Clopper and Pearson, Biometrika 26 (1934) 404, by quantiles of the beta law.

    >>> share_range(0, 20)[1].__round__(3)
    0.168
    """
    each = (1 - sure) / 2
    low = float(special.betaincinv(bad, n - bad + 1, each)) if bad else 0.0
    high = float(special.betaincinv(bad + 1, n - bad, 1 - each)) if bad < n else 1.0
    return low, high


def none_bad_needed(share: float, sure: float = 0.95) -> int:
    """Baits that must all be good to show, this surely, that fewer than `share` are bad.

    Raises: BadInput for a share that is not between 0 and 1.

    >>> none_bad_needed(0.05), none_bad_needed(0.02), none_bad_needed(0.01)
    (59, 149, 299)
    """
    if not 0 < share < 1:
        raise BadInput("share", share, "must lie between 0 and 1")
    return math.ceil(math.log(1 - sure) / math.log1p(-share))
