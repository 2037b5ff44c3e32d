"""The loop of color, closed on a truth of its own: calibrate, match, drip, correct, pour.

    python3 run.py speed color

The truth solves transport its own way, with other colorants, drops that scatter, cups that are not
the recipe, cards and instruments (`speed/truth`). Beside it stand the plain single-puck method and
a careful eye that halves what it sees at every pour.
"""

from __future__ import annotations

import time
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.color.calibrate.answer import CalibrateInput, Unknown, calibrate
from pourwright.color.calibrate.entry import CardRead, PuckDose, PuckEntry, Read
from pourwright.color.constants import Constants
from pourwright.color.correct.answer import correct
from pourwright.color.correct.question import CorrectInput, Drip, InCup
from pourwright.color.fit.reading import Instrument as Kind
from pourwright.color.ground import Backing
from pourwright.color.kinds.measured import Measured
from pourwright.color.lab import Lab
from pourwright.color.match.answer import match as matched
from pourwright.color.match.bottle import Bottle
from pourwright.color.match.question import MatchInput
from pourwright.color.match.target import Target
from pourwright.color.plastic import RawPlastic
from pourwright.color.slab import Placing
from pourwright.spectrum.difference import delta_e00
from pourwright.spectrum.light import BANDS
from speed.truth.baseline import baseline_constants, baseline_reflectance
from speed.truth.bench import Cards, drip, poured_thick, random_cards, weighed_drop
from speed.truth.colorant import Shelf, light_ports
from speed.truth.eye import careful_eye
from speed.truth.instrument import Instrument, Spectro, as_lab, random_handheld, random_phone
from speed.truth.shelf import random_shelf
from speed.truth.target import random_targets

CUP_G = 170.0
BAIT_MM = 8.0
PUCK_MM = 5.0
DRIP_MM = 3.0
LOOKS = 3


@dataclass(frozen=True, slots=True, eq=False)
class Maker:
    """One bench: what is true, and what its maker believes and reads with."""

    shelf: Shelf
    cards: Cards
    believed_drop_g: Array
    instrument: Instrument
    kind: Kind
    contact: bool

    @property
    def names(self) -> list[str]:
        """Bottles by name."""
        return [f"{j} {c.name}" for j, c in enumerate(self.shelf.colorants)]

    @property
    def placing(self) -> Placing:
        """How everything lies on its card."""
        return Placing.CONTACT if self.contact else Placing.AIR_GAP


def maker(seed: int, kind: Kind, *, contact: bool, rng: np.random.Generator) -> Maker:
    """A random bench with one instrument."""
    shelf = random_shelf(seed)
    cards, believed = random_cards(rng), weighed_drop(rng, shelf.drop_g)
    return Maker(shelf, cards, believed, _instrument(kind, rng), kind, contact)


def _instrument(kind: Kind, rng: np.random.Generator) -> Instrument:
    match kind:
        case Kind.SPECTRUM:
            return Spectro()
        case Kind.METER:
            return random_handheld(rng)
        case Kind.PHOTO:
            return random_phone(rng)


def seen(who: Maker, grams_per_100g: Array, thick_mm: Array, card: Array) -> Array:
    """True reflectance of poured plastic over a card."""
    return light_ports(who.shelf, grams_per_100g, thick_mm, contact=who.contact).over(card)


def read_over_both(who: Maker, grams: Array, thick: Array, rng: np.random.Generator) -> list[Array]:
    """Readings over black and white of (samples), and of the bare cards last, one photo each."""
    ports = light_ports(who.shelf, grams, thick, contact=who.contact)
    return [
        who.instrument.read(np.concatenate([ports.over(card), card[None]]), rng)
        for card in (who.cards.black, who.cards.white)
    ]


def as_read(values: Array) -> Read:
    """A reading as a maker enters it."""
    if len(values) == BANDS:
        return Read(reflectance=tuple(float(np.clip(v, 0, 1.2)) for v in values))
    light, a, b = (float(v) for v in values)
    return Read(lab=Lab(lightness=min(max(light, 0), 100), a=a, b=b))


def default_pucks(who: Maker) -> Array:
    """Drops in 100 g: plain, and a low, a high and a whitened puck of each colorant."""
    n = len(who.shelf.colorants)
    rows = [np.zeros(n)]
    for j in range(n):
        one = np.eye(n)[j]
        mixed = 4 * one + 2 * np.eye(n)[0] if j else one
        rows += [2 * one, 8 * one, mixed]
    return np.stack(rows)


def calibrated(who: Maker, rng: np.random.Generator) -> tuple[Constants, list[Bottle]]:
    """What the default pucks teach through `color.calibrate`."""
    counts = default_pucks(who)
    grams = drip(counts, rng, who.shelf.drop_g)
    thick = poured_thick(np.full(len(counts), PUCK_MM), rng)
    readings = read_over_both(who, grams, thick, rng)
    cards = [as_read(r[-1]) for r in readings]
    entries = [
        PuckEntry(
            name=f"puck {i}", thick_mm=PUCK_MM, placing=who.placing, instrument=who.kind,
            doses=tuple(
                PuckDose(
                    colorant=who.names[j], drops=float(count[j]),
                    grams_per_100g=float(count[j] * who.believed_drop_g[j]),
                )
                for j in np.flatnonzero(count)
            ),
            readings=tuple(
                CardRead(over=card, read=as_read(r[i]))
                for card, r in zip(cards, readings, strict=True)
            ),
        )
        for i, count in enumerate(counts)
    ]  # fmt: skip
    answer = calibrate(
        CalibrateInput(colorants=tuple(Unknown(name=n) for n in who.names), pucks=tuple(entries))
    )
    bottles = [
        Bottle(name=c.name, drop_mass_g=float(drop), colorant=Measured(constants=c.constants))
        for c, drop in zip(answer.colorants, who.believed_drop_g, strict=True)
    ]
    return answer.plastic, bottles


def looks(
    who: Maker,
    plastic: Constants,
    bottles: Sequence[Bottle],
    target: Array,
    rng: np.random.Generator,
) -> list[float]:
    """True differences of the bait poured first, after one drip and after two."""  # fmt: skip
    white_share = float(who.cards.white.mean())
    wanted = MatchInput(
        target=Target(lab=_lab(target)), shelf=tuple(bottles), plastic_g=CUP_G,
        plastic=RawPlastic(constants=plastic), thick_mm=BAIT_MM, backing=Backing.OTHER,
        ground_share=white_share, placing=who.placing,
    )  # fmt: skip
    counts = np.zeros(len(bottles))
    for dose in matched(wanted).closest[0].doses:
        counts[who.names.index(dose.name)] += dose.steps
    true_g = drip(counts, rng, who.shelf.drop_g) * 100 / CUP_G
    misses = [miss(who, true_g, target)]
    for _ in range(LOOKS - 1):
        added = _added(who, wanted, counts, true_g, rng)
        counts = counts + added
        true_g = true_g + drip(added, rng, who.shelf.drop_g) * 100 / CUP_G
        misses.append(miss(who, true_g, target))
    return misses


def _added(
    who: Maker, wanted: MatchInput, counts: Array, true_g: Array, rng: np.random.Generator
) -> Array:
    thick = poured_thick(np.array([DRIP_MM]), rng)
    readings = read_over_both(who, true_g[None], thick, rng)
    answer = correct(
        CorrectInput(
            match=wanted,
            in_cup=tuple(
                InCup(
                    name=who.names[j], drops=float(counts[j]),
                    grams=float(counts[j] * who.believed_drop_g[j]),
                )
                for j in np.flatnonzero(counts)
            ),
            drip=Drip(
                thick_mm=DRIP_MM, placing=who.placing, instrument=who.kind,
                readings=tuple(CardRead(over=as_read(r[1]), read=as_read(r[0])) for r in readings),
            ),
        )
    )  # fmt: skip
    added = np.zeros(len(counts))
    for extra in answer.additions:
        added[who.names.index(extra.name)] = extra.steps
    return added


def miss(who: Maker, grams: Array, target: Array) -> float:
    """True CIEDE2000 of a bait poured from a cup."""
    poured = seen(who, grams[None], np.array([BAIT_MM]), who.cards.white)
    return float(delta_e00(as_lab(poured)[0], target))


def _lab(values: Array) -> Lab:
    light, a, b = (float(v) for v in values)
    return Lab(lightness=min(max(light, 0), 100), a=a, b=b)


def baseline(who: Maker, targets: Array, rng: np.random.Generator) -> list[float]:
    """True differences of the single-puck method: 4-drop pucks, two-flux, best whole drops."""
    n = len(who.shelf.colorants)
    counts = np.concatenate([np.zeros((1, n)), 4 * np.eye(n)])
    grams = drip(counts, rng, who.shelf.drop_g)
    readings = read_over_both(who, grams, poured_thick(np.full(len(counts), PUCK_MM), rng), rng)
    black, white = readings
    constants = baseline_constants(
        black[:-1], white[:-1], black=black[-1], white=white[-1], thick_mm=PUCK_MM,
        grams=4 * who.believed_drop_g,
    )  # fmt: skip
    tried = _tried(n, rng)
    per_100g = tried * who.believed_drop_g * 100 / CUP_G
    promised = as_lab(
        baseline_reflectance(constants, per_100g, thick_mm=BAIT_MM, backing=white[-1])
    )
    found = []
    for target in targets:
        best = tried[int(delta_e00(promised, target).argmin())]
        found.append(miss(who, drip(best, rng, who.shelf.drop_g) * 100 / CUP_G, target))
    return found


def _tried(n: int, rng: np.random.Generator) -> Array:
    """A hundred thousand whole-drop recipes of one to four colorants."""
    rows = np.zeros((100_000, n))
    for size in (1, 2, 3, 4):
        part = rows[size - 1 :: 4]
        picks = rng.random(part.shape).argsort(axis=1)[:, :size]
        drops = np.rint(np.exp(rng.uniform(0, np.log(34), picks.shape)))
        np.put_along_axis(part, picks, drops, axis=1)
    return rows


def loop(kind: Kind, *, contact: bool, shelves: int, targets: int) -> None:
    """Print one instrument's line, its rivals' and the reading's own error."""
    ours: list[list[float]] = []
    plain: list[float] = []
    own: list[float] = []
    start = time.perf_counter()
    for seed in range(shelves):
        rng = np.random.default_rng([seed, list(Kind).index(kind), contact])
        who = maker(seed, kind, contact=contact, rng=rng)
        wanted = random_targets(
            who.shelf, rng, targets, thick_mm=BAIT_MM, backing=who.cards.white, contact=contact
        )
        own += delta_e00(as_lab(who.instrument.read(wanted.reflectance, rng)), wanted.lab).tolist()
        plastic, bottles = calibrated(who, rng)
        ours += [looks(who, plastic, bottles, t, rng) for t in wanted.lab]
        if kind is Kind.SPECTRUM:
            plain += baseline(who, wanted.lab, rng)
    _told(kind, contact, np.array(ours).T, time.perf_counter() - start)
    print(f"    the reading's own error {_pair(np.array(own))}")
    if plain:
        print(f"    single-puck two-flux method, first pour {_pair(np.array(plain))}")
        eye = careful_eye(np.array(plain), LOOKS)
        print("    a careful eye from there, pours 1 to 3: " + "  ".join(map(_pair, eye)))


def _told(kind: Kind, contact: bool, misses: Array, seconds: float) -> None:
    how = "contact card" if contact else "air gap"
    words = "  ".join(
        f"{name} {_pair(row)}"
        for name, row in zip(("first", "one drip", "two drips"), misses, strict=True)
    )
    print(
        f"{kind.value:12} {how:13} {words}   ({misses.shape[1]} pours, {seconds:.0f} s)", flush=True
    )


def _pair(values: Array) -> str:
    return f"{np.median(values):.2f}/{np.quantile(values, 0.9):.2f}"


def main(shelves: int = 12, targets: int = 8) -> None:
    """Every instrument; medians and 90th percentiles of CIEDE2000."""
    print("color, closed loop on an independent truth: CIEDE2000 median/90th percentile")
    loop(Kind.SPECTRUM, contact=True, shelves=shelves, targets=targets)
    loop(Kind.SPECTRUM, contact=False, shelves=shelves, targets=targets)
    loop(Kind.METER, contact=True, shelves=shelves, targets=targets)
    loop(Kind.PHOTO, contact=True, shelves=shelves, targets=targets)
