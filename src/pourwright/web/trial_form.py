"""What the color page sends, read: a recipe, how it is looked at, a target, a drip."""

from __future__ import annotations

from collections.abc import Mapping

from pourwright.actions.color_look import Trial
from pourwright.actions.port import Bench
from pourwright.base.errors import BadInput, PourwrightError
from pourwright.color.calibrate.entry import CardRead, Read
from pourwright.color.correct.question import Drip
from pourwright.color.lab import Lab
from pourwright.shop.card import Card
from pourwright.shop.look import Dose, Measure
from pourwright.spectrum.light import Light

SHED = "shed"
TARGET = ("target_l", "target_a", "target_b")
_MOST_ROWS = 40
_LAB_ENDS = ((0, 100), (-150, 150), (-150, 150))
_LABELS = {
    "target_l": "Target L*", "target_a": "Target a*", "target_b": "Target b*",
    "thick_mm": "Thickness (mm)", "cup_g": "Cup (g of plastic)", "drip": "Drip",
    "drip_mm": "Drip thickness (mm)", "light": "Light",
    **{
        f"drip_{side}_{axis}": f"Drip over {side}, {axis.upper() if axis == 'l' else axis}*"
        for side in ("white", "black") for axis in "lab"
    },
}  # fmt: skip


def trial_of(sent: Mapping[str, str]) -> Trial:
    """The recipe and the view that the sliders stand for.

    A target counts once all three of its numbers are there, since it is sent while being typed.
    Raises: BadInput.
    """
    light = sent.get("light", Light.D65.value)
    return Trial(
        doses=_doses(sent),
        plastic=sent.get("plastic", ""),
        light=Light.D65 if light == SHED else _light(light),
        shed=light == SHED,
        target=target_of(sent),
        thick_mm=_number(sent, "thick_mm", 10.0, 0.2, 60),
        cup_g=_number(sent, "cup_g", 170.0, 5, 20_000),
    )


def target_of(sent: Mapping[str, str]) -> Lab | None:
    """The target, where all three of its numbers are there. Raises: BadInput."""
    if not all(sent.get(k, "").strip() for k in TARGET):
        return None
    return _lab(sent, TARGET)


def drip_of(bench: Bench, sent: Mapping[str, str]) -> Drip:
    """The drip of a hot cup over one card or two. Raises: BadInput, NotFound."""
    readings = tuple(
        found
        for side in ("white", "black")
        if (found := _over(bench, sent, f"drip_{side}")) is not None
    )
    if not readings:
        raise BadInput("drip", None, "type L*, a* and b* of the drip over at least one card")
    return Drip(thick_mm=_number(sent, "drip_mm", 3.0, 0.3, 20), readings=readings)


def whole(sent: Mapping[str, str], name: str, most: int) -> int:
    """A whole number the form carries out of sight. Raises: BadInput."""
    text = sent.get(name, "")
    if not (text.isascii() and text.isdigit() and len(text) < 4 and int(text) <= most):
        raise BadInput(name, text, f"must be a whole number up to {most}")
    return int(text)


def said(error: PourwrightError) -> str:
    """A refusal with the label that stands at its box."""
    if not isinstance(error, BadInput):
        return str(error)
    head, _, row = error.field.partition("-")
    label = f"Dose {int(row) + 1}" if row.isdigit() else _LABELS.get(head, head)
    return f"{label}: {error.why}"


def _doses(sent: Mapping[str, str]) -> tuple[Dose, ...]:
    found = []
    for row in range(whole(sent, "rows", _MOST_ROWS)):
        amount = _number(sent, f"amount-{row}", 0.0, 0, 400)
        if amount > 0:
            measure = _measure(sent, f"measure-{row}")
            material = sent.get(f"material-{row}", "")
            found.append(Dose(material=material, per_100g=amount, measure=measure))
    return tuple(found)


def _measure(sent: Mapping[str, str], name: str) -> Measure:
    words = sent.get(name, "")
    if words not in {x.value for x in Measure}:
        raise BadInput(name, words, f"must be one of {', '.join(Measure)}")
    return Measure(words)


def _light(words: str) -> Light:
    if words not in {x.value for x in Light}:
        raise BadInput("light", words, f"must be one of {', '.join(Light)} or {SHED}")
    return Light(words)


def _over(bench: Bench, sent: Mapping[str, str], side: str) -> CardRead | None:
    """The drip over one card; none where nothing was typed."""
    keys = tuple(f"{side}_{axis}" for axis in "lab")
    if not any(sent.get(k, "").strip() for k in keys):
        return None
    noun = bench.records.get(Card.key, sent.get(f"{side}_card", "")).noun
    if not isinstance(noun, Card):
        raise BadInput("drip", noun.name, "is no card")
    return CardRead(over=noun.bare, read=Read(lab=_lab(sent, keys)))


def _lab(sent: Mapping[str, str], keys: tuple[str, ...]) -> Lab:
    missing = next((k for k in keys if not sent.get(k, "").strip()), None)
    if missing:
        raise BadInput(missing, "", "is missing; all three numbers are needed")
    light, a, b = (_number(sent, k, 0.0, *end) for k, end in zip(keys, _LAB_ENDS, strict=True))
    return Lab(lightness=light, a=a, b=b)


def _number(sent: Mapping[str, str], name: str, usual: float, low: float, high: float) -> float:
    text = sent.get(name, "").strip()
    if not text:
        return usual
    try:
        value = float(text)
    except ValueError:
        raise BadInput(name, text, "must be a number") from None
    if not low <= value <= high:
        raise BadInput(name, value, f"must lie between {low:g} and {high:g}")
    return value
