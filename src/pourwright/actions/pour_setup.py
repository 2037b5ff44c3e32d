"""What a frozen sheet asks of its pour."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from pourwright.actions.port import Bench
from pourwright.base.errors import Conflict, NotFound
from pourwright.bench.pour_setup import CupTask, Part, PourSetup, WetThing
from pourwright.forecast.request import Sort
from pourwright.shop.mold import Mold
from pourwright.shop.sheet import Sheet
from pourwright.shop.tool import Cup

# Stirred into cold plastic; everything else tints it hot: common practice, no source.
_COLD = frozenset(
    {Sort.SOFTENER, Sort.HARDENER, Sort.STABILIZER, Sort.SALT, Sort.HOLLOW_GLASS}
)  # fmt: skip
_LEAST_G = 0.05


def pour_setup(bench: Bench, sheet: Sheet) -> PourSetup:
    """Cups, molds and wet tools of a sheet.

    Raises: Conflict for a sheet of a version whose plan this one cannot be guided by.
    """
    try:
        cups = tuple(_cup(sheet, cup) for cup in sheet.plan["cups"])
        molds, cavities = int(sheet.request["mold"]["owned"]), sheet.request["mold"]["cavities"]
        name, injector = sheet.request["mold"]["name"], sheet.request["injector"] is not None
    except (KeyError, TypeError, ValueError) as error:
        raise Conflict(
            f"sheet {sheet.number} was frozen by version {sheet.version}, whose plan this program "
            "cannot guide a pour by: pour by its paper. Everything entered is kept"
        ) from error
    return PourSetup(cups, (str(name),) * molds, int(cavities), injector, _wet(bench, sheet))


def _cup(sheet: Sheet, cup: Mapping[str, Any]) -> CupTask:
    shots, total_g = int(cup["shots"]), float(cup["total_g"])
    shot_g = cup.get("shot_g")
    lines = [(Sort(line["sort"]), _line(i, line)) for i, line in enumerate(cup["lines"])]
    remelt = _part("remelt", "Remelt, dry", cup["remelt_g"])
    parts = (_part("plastic", _plastic(sheet), cup["virgin_g"]), remelt)
    return CupTask(
        number=int(cup["number"]),
        layer=str(cup["layer"]),
        shots=shots,
        shot_g=float(total_g / max(shots, 1) if shot_g is None else shot_g),
        total_g=total_g,
        fill_ml=float(cup["fill_line_ml"]),
        weigh=(
            *(p for p in parts if p.grams > _LEAST_G),
            *(line for sort, line in lines if sort in _COLD),
        ),
        tint=tuple(line for sort, line in lines if sort not in _COLD),
    )


def _plastic(sheet: Sheet) -> str:
    name = str(sheet.request["plastic"]["name"])
    return f"{name[0].upper()}{name[1:]}"


def _part(key: str, name: str, grams: float) -> Part:
    return Part(key, name, float(grams), round(float(grams), 1))


def _line(index: int, line: Mapping[str, Any]) -> Part:
    grams, drops = float(line["grams"]), line["drops"]
    missed = 1 + float(line["error_share"])
    return Part(
        key=f"line-{index}",
        name=str(line["name"]),
        grams=grams,
        scale_g=float(line["scale_g"]),
        drops=drops,
        spoons=str(line["spoons"]),
        drop_g=grams * missed / drops if drops else None,
        note=str(line["note"]),
    )


def _wet(bench: Bench, sheet: Sheet) -> tuple[WetThing, ...]:
    """The tools of the sheet whose records say that they are wet."""
    found = []
    for sort in (Mold.key, Cup.key):
        key = str(sheet.draft.get(sort) or "")
        try:
            noun = bench.records.get(sort, key).noun if key else None
        except NotFound:
            continue
        if isinstance(noun, Mold | Cup) and noun.wet:
            found.append(WetThing(sort, key, noun.name))
    return tuple(found)
