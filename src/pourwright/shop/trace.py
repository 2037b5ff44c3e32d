"""Where a lot came from and where it went, and what was lost on the way."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from pourwright.base.calc import calculation
from pourwright.base.errors import BadInput
from pourwright.base.field import number, out, parts, text
from pourwright.base.record import Record
from pourwright.base.source import PRACTICE

SHARED = (
    "A lot that was made of several carries all of them: in a melt nobody can tell afterwards "
    "which part went where."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class MassMove(Record):
    """Mass that went from one lot to another; an end that is no lot is left empty."""

    source: str = text("From lot", most=40, default="")
    target: str = text("To lot", most=40, default="")
    mass_mg: int = number("Milligrams moved", low=0, high=10**12)

    def check(self) -> None:
        """Refuse a move from nowhere to nowhere, or of a lot to itself."""
        if self.source == self.target:
            raise BadInput("target", self.target, "must be another lot than where it came from")


@dataclass(frozen=True, slots=True, kw_only=True)
class LotMass(Record):
    """What lies in a lot now."""

    lot: str = text("Lot", most=40)
    mass_mg: int = number("Milligrams in it", low=0, high=10**12)


@dataclass(frozen=True, slots=True, kw_only=True)
class TraceInput(Record):
    """A lot, and all moves that are known."""

    lot: str = text("Lot to trace", most=40)
    moves: tuple[MassMove, ...] = parts("Moves between lots", least=1, most=50_000)
    there: tuple[LotMass, ...] = parts(
        "What was weighed in lots now; a lot left out counts as empty", most=5000
    )

    def check(self) -> None:
        """Refuse a lot that was weighed twice: nobody can tell which holds."""
        for lot, times in Counter(it.lot for it in self.there).items():
            if times > 1:
                raise BadInput("there", lot, f"is named {times} times: say once what lies in it")


@dataclass(frozen=True, slots=True)
class Reached:
    """A lot on the way; `steps` counts the moves to it by the shortest way."""

    lot: str = out("Lot")
    steps: int = out("Moves away")


@dataclass(frozen=True, slots=True)
class LotLoss:
    """What came into a lot, went on, lies there, and is gone."""

    lot: str = out("Lot")
    in_mg: int = out("Came in")
    out_mg: int = out("Went on")
    there_mg: int = out("Lies there")
    loss_mg: int = out("Gone; below 0 more came out than in")


@dataclass(frozen=True, slots=True)
class TraceAnswer:
    """The lots before and after, and the loss of each."""

    up: tuple[Reached, ...] = out("Lots it came from, the nearest first")
    down: tuple[Reached, ...] = out("Lots it went into, the nearest first")
    loss: tuple[LotLoss, ...] = out("The traced lot and every lot before and after it")
    loops: bool = out("Whether a lot is its own ancestor: then a move is entered wrongly")
    notes: tuple[str, ...] = out("What to know")


@calculation(
    "shop.trace",
    purpose="where a lot came from and where it went, with the loss of every lot on the way",
    sources=(PRACTICE,),
    example={
        "lot": "R1",
        "moves": [
            {"source": "M1", "target": "P1", "mass_mg": 500_000},
            {"source": "M1", "target": "P2", "mass_mg": 300_000},
            {"source": "P1", "target": "R1", "mass_mg": 90_000},
            {"source": "P2", "target": "R1", "mass_mg": 60_000},
            {"source": "R1", "target": "P3", "mass_mg": 140_000},
            {"source": "P3", "target": "B1", "mass_mg": 120_000},
        ],
        "there": [{"lot": "R1", "mass_mg": 8000}],
    },
)
def trace(inputs: TraceInput) -> TraceAnswer:
    """Every lot that reaches the lot or is reached from it, each once, by the moves between them.

    Loss = what came in - what went on - what lies there. A lot into which nothing was booked, such
    as one bought, has no loss to speak of and is left out of the losses.
    Raises: BadInput for a lot that no move names.
    """
    ends = [(m.source, m.target) for m in inputs.moves if m.source and m.target]
    if all(inputs.lot not in (m.source, m.target) for m in inputs.moves):
        raise BadInput("lot", inputs.lot, "is named by none of the moves")
    up = reached(inputs.lot, [(target, source) for source, target in ends])
    down = reached(inputs.lot, ends)
    family = {inputs.lot, *up, *down}
    return TraceAnswer(
        _listed(up, inputs.lot),
        _listed(down, inputs.lot),
        _losses(inputs, family),
        inputs.lot in up,
        (SHARED,),
    )


def reached(start: str, steps: Iterable[tuple[str, str]]) -> dict[str, int]:
    """Lots by the least number of steps from the start; the start itself where a loop leads back.

    >>> reached("a", [("a", "b"), ("b", "c"), ("a", "c"), ("x", "a")])
    {'b': 1, 'c': 1}
    """
    onward: dict[str, list[str]] = {}
    for near, far in steps:
        onward.setdefault(near, []).append(far)
    found: dict[str, int] = {}
    edge, away = [start], 0
    while edge:
        away += 1
        fresh = [far for lot in edge for far in onward.get(lot, []) if far not in found]
        edge = list(dict.fromkeys(fresh))
        found |= dict.fromkeys(edge, away)
    return found


def _listed(found: dict[str, int], lot: str) -> tuple[Reached, ...]:
    return tuple(Reached(code, steps) for code, steps in found.items() if code != lot)


def _losses(inputs: TraceInput, family: set[str]) -> tuple[LotLoss, ...]:
    came: Counter[str] = Counter()
    went: Counter[str] = Counter()
    for move in inputs.moves:
        came[move.target] += move.mass_mg
        went[move.source] += move.mass_mg
    there = Counter({it.lot: it.mass_mg for it in inputs.there})
    return tuple(
        LotLoss(lot, came[lot], went[lot], there[lot], came[lot] - went[lot] - there[lot])
        for lot in sorted(family)
        if came[lot]
    )
