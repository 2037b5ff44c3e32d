"""Good baits out of those made: the share of rejects is uncertain, and so is each bait's luck."""

from __future__ import annotations

import numpy as np
from scipy.special import bdtr

from pourwright.base.draws import Array, Draws
from pourwright.fill.account import Account

# A drawn share may leave 0 to 1, since a band has no hard end; a count may not.
_LEAST_SHARE = 1e-6


def good_baits(draws: Draws, done: Account, cavities: int, reject_share: Array) -> Array:
    """Good baits, drawn, with a binomial spread about the drawn share."""
    made, keep = _made(done, cavities), _kept(reject_share)
    luck = draws.scores("luck of each bait") * np.sqrt(made * keep * (1 - keep))
    good = np.clip(np.round(made * keep + luck), 0, made)
    good[0] = done.good
    return good


def short_risk(done: Account, cavities: int, reject_share: Array, *, count: int) -> float:
    """Chance of fewer good baits than wanted: the binomial tail, averaged over the draws.

    Source: NIST/SEMATECH e-Handbook of Statistical Methods, sec. 1.3.6.6.18.
    """
    return float(np.mean(bdtr(count - 1, _made(done, cavities), _kept(reject_share[1:]))))


def _made(done: Account, cavities: int) -> int:
    return (done.shots - done.warmup_shots) * cavities


def _kept(reject_share: Array) -> Array:
    return np.clip(1 - reject_share, _LEAST_SHARE, 1)
