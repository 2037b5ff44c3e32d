"""Invented cards, pucks and lot readings of the demo bench."""

from __future__ import annotations

from pourwright.color.calibrate.entry import Read, Source, Use
from pourwright.color.lab import Lab
from pourwright.color.slab import Placing
from pourwright.shop.card import Card
from pourwright.shop.look import Dose
from pourwright.shop.noun import Noun
from pourwright.shop.puck import OverCard, Puck

_NOTE = "Invented for the demo bench."
_WHITE, _BLACK = "demo-card-white", "demo-card-black"
_MOSS, _BROWN, _CHALK = "demo-color-moss", "demo-color-brown", "demo-color-white"
Three = tuple[float, float, float]

Row = tuple[str, dict[str, float], Three, Three]

_POURED: tuple[Row, ...] = (
    ("Plain", {}, (85.2, -0.4, 2.0), (14.9, 0.0, 0.5)),
    ("Chalk, 2 drops", {_CHALK: 2}, (84.9, -0.4, 1.8), (59.6, -0.4, 0.5)),
    ("Moss, 2 drops", {_MOSS: 2}, (73.0, -23.0, 33.2), (13.6, -5.6, 7.8)),
    ("Moss, 8 drops", {_MOSS: 8}, (53.7, -38.7, 57.5), (10.4, -11.6, 14.0)),
    ("Moss, 4 with 2 chalk", {_MOSS: 4, _CHALK: 2}, (64.0, -31.6, 42.8), (50.5, -19.1, 27.4)),
    ("Bog, 2 drops", {_BROWN: 2}, (64.0, 6.4, 21.0), (12.5, 1.3, 4.9)),
    ("Bog, 8 drops", {_BROWN: 8}, (38.4, 13.2, 34.1), (7.8, 3.6, 7.6)),
)
_CHECK: Row = (
    "Check: moss 5, bog 1",
    {_MOSS: 5, _BROWN: 1},
    (55.7, -26.9, 48.9),
    (11.2, -7.9, 12.4),
)
_LOTS: tuple[tuple[str, str, Three], ...] = (
    ("26H14A", "2026-08-14", (40.3, -32.9, 57.9)),
    ("26I20A", "2026-09-20", (40.5, -31.9, 57.5)),
    ("26J25A", "2026-10-25", (34.8, -30.2, 51.6)),
)


def demo_pucks() -> dict[str, Noun]:
    """Two cards, a first round of pucks, one that only tests, and three lots of the marsh look."""
    cards: dict[str, Noun] = {
        _WHITE: Card(name="White card", bare=_read((94.7, 0.0, 0.0))),
        _BLACK: Card(name="Black card", bare=_read((25.3, 0.0, 0.0))),
    }
    teach = {f"demo-puck-{i}": _puck(*row, Use.FIT) for i, row in enumerate(_POURED, start=1)}
    return cards | teach | {"demo-puck-check": _puck(*_CHECK, Use.CHECK)} | _lots()


def _puck(name: str, drops: dict[str, float], white: Three, black: Three, use: Use) -> Puck:
    return Puck(
        name=name,
        plastic="demo-plastic-medium",
        doses=tuple(Dose(material=m, per_100g=n) for m, n in drops.items()),
        thick_mm=5,
        wide_mm=40,
        use=use,
        read_on="2026-07-11",
        readings=(
            OverCard(card=_WHITE, read=_read(white)),
            OverCard(card=_BLACK, read=_read(black)),
        ),
        note=_NOTE,
    )


def _lots() -> dict[str, Noun]:
    doses = (Dose(material=_MOSS, per_100g=6), Dose(material=_BROWN, per_100g=1))
    return {
        f"demo-lot-{code}": Puck(
            name=f"Bait of lot {code}",
            plastic="demo-plastic-medium",
            doses=doses,
            thick_mm=12.5,
            placing=Placing.AIR_GAP,
            source=Source.LOT,
            look="demo-look-marsh",
            lot=code,
            read_on=day,
            readings=(OverCard(card=_WHITE, read=_read(lab)),),
            note=_NOTE,
        )
        for code, day, lab in _LOTS
    }


def _read(lab: Three) -> Read:
    return Read(lab=Lab(lightness=lab[0], a=lab[1], b=lab[2]))
