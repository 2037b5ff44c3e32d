"""A record as it stood at a moment, and the look and the bait of a lot as they were poured."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.keep_record import history_of
from pourwright.actions.port import Bench
from pourwright.actions.shape_of import body_of
from pourwright.base.errors import NoAnswer
from pourwright.base.record import from_json
from pourwright.body.division import Place
from pourwright.body.split import Split
from pourwright.color.plastic import RawPlastic
from pourwright.forecast.picture.picture_input import LookInput, PictureLayer
from pourwright.forecast.request import LayerPart, PlasticPart
from pourwright.plan.layer import PLAIN, dose_of
from pourwright.shop.look import Look
from pourwright.shop.mold import Bait, Mold
from pourwright.shop.sheet import Sheet


@dataclass(frozen=True, slots=True)
class Was:
    """A version of a record, counted from 1, and when it was saved."""

    version: int
    at: str
    noun: object


class Past:
    """The bench's records as they stood at a moment; each record's history is read once."""

    def __init__(self, bench: Bench) -> None:
        self.bench = bench
        self._read: dict[tuple[str, str], tuple[Was, ...]] = {}

    def was(self, sort: str, id: str, at: str) -> Was | None:
        """The version that stood then, the first one where it was entered later; none if never."""
        saved = self._saved(sort, id) if id else ()
        by_then = [it for it in saved if it.at <= at]
        return by_then[-1] if by_then else next(iter(saved), None)

    def _saved(self, sort: str, id: str) -> tuple[Was, ...]:
        if (sort, id) not in self._read:
            self._read[sort, id] = tuple(
                Was(number, change.at, change.after)
                for number, change in enumerate(history_of(self.bench, sort, id), start=1)
                if not change.retired
            )
        return self._read[sort, id]


def poured_bait(past: Past, sheet: Sheet) -> Bait | None:
    """The bait that a sheet was frozen for; none where only its weight was typed."""
    mold = past.was(Mold.key, str(sheet.draft.get("mold") or ""), sheet.frozen_at)
    if mold is None or not isinstance(mold.noun, Mold):
        return None
    bait = past.was(Bait.key, mold.noun.bait, sheet.frozen_at)
    return bait.noun if bait and isinstance(bait.noun, Bait) else None


def poured_look(past: Past, sheet: Sheet) -> Was | None:
    """The look that a sheet was frozen with; none where it was poured without one."""
    return past.was(Look.key, str(sheet.draft.get("look") or ""), sheet.frozen_at)


def poured_layers(sheet: Sheet) -> tuple[LayerPart, ...]:
    """The layers with their doses and all that was known of their color when it was frozen."""
    kept = tuple(from_json(LayerPart, layer) for layer in sheet.request["layers"])
    return kept or (PLAIN,)


def poured_plastic(sheet: Sheet) -> RawPlastic:
    """The plastic without color, as it was known when the sheet was frozen."""
    return RawPlastic(constants=from_json(PlasticPart, sheet.request["plastic"]).constants)


def look_of_lot(past: Past, sheet: Sheet) -> LookInput:
    """A lot's look in its bait, as both were poured; no later change of a record changes it.

    Raises: NoAnswer where no bait or no shape is known.
    """
    bait = poured_bait(past, sheet)
    body = body_of(past.bench, bait) if bait else None
    if body is None:
        raise NoAnswer(f"lot {sheet.code} has no bait with a shape, and a picture needs one")
    look = poured_look(past, sheet)
    return LookInput(
        family=body.family,
        file=body.file,
        placing=body.placing,
        layers=tuple(
            PictureLayer(
                place=Place(part.name),
                share=part.share,
                doses=tuple(dose_of(dose) for dose in part.doses),
            )
            for part in poured_layers(sheet)
        ),
        split=look.noun.split if look and isinstance(look.noun, Look) else Split(),
        plastic=poured_plastic(sheet),
    )
