"""Color of a look's layer: sliders with live swatches, a target, recipes for it, the hot cup."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from starlette.responses import JSONResponse

from pourwright.actions.color_look import (
    MEASURE_MOST,
    MEASURE_STEP,
    Moved,
    Shown,
    Trial,
    correct_cup,
    match_color,
    match_input,
    material_named,
    moved,
    thick_baits,
    try_color,
)
from pourwright.actions.keep_record import change_record
from pourwright.actions.port import Bench, Stored
from pourwright.actions.run_job import start_job
from pourwright.actions.shelf_color import color_shelf, usual_measure
from pourwright.base.errors import BadInput, PourwrightError
from pourwright.base.record import to_json
from pourwright.color.calibrate.entry import CardRead, Read
from pourwright.color.correct.answer import CorrectAnswer, Drip
from pourwright.color.lab import Lab
from pourwright.color.match.answer import MatchAnswer
from pourwright.color.match.target import Target
from pourwright.shop.card import Card
from pourwright.shop.look import Dose, Look, Measure
from pourwright.spectrum.light import WEIGHTS, Light
from pourwright.web.drift_chart import DriftChart, drift_of
from pourwright.web.page import Go, Page, Show, Visit

SHED = "shed"
TARGET = ("target_l", "target_a", "target_b")
GONE = "no longer on the shelf"
_LAB_ENDS = ((0, 100), (-150, 150), (-150, 150))
_LABELS = {
    "target_l": "Target L*", "target_a": "Target a*", "target_b": "Target b*",
    "thick_mm": "Thickness (mm)", "cup_g": "Cup (g of plastic)", "drip": "Drip",
    "drip_mm": "Drip thickness (mm)",
    **{
        f"drip_{side}_{axis}": f"Drip over {side}, {axis.upper() if axis == 'l' else axis}*"
        for side in ("white", "black") for axis in "lab"
    },
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Slider:
    """One dose of the recipe."""

    row: int
    material: str
    name: str
    measure: str
    amount: str
    step: float
    most: float


@dataclass(frozen=True, slots=True)
class Option:
    """Something to pick."""

    key: str
    label: str
    chosen: bool


@dataclass(frozen=True, slots=True)
class ColorContext:
    """The page."""

    title: str
    look_id: str
    version: int
    layers: tuple[Option, ...]
    layer: int
    sliders: tuple[Slider, ...]
    additives: tuple[Option, ...]
    plastics: tuple[Option, ...]
    lights: tuple[Option, ...]
    cards: tuple[Option, ...]
    baits: tuple[Option, ...]
    target: tuple[str, str, str]
    thick_mm: str
    cup_g: str
    shown: Shown | None
    moved: tuple[Moved, ...]
    refused: str
    drift: DriftChart


@dataclass(frozen=True, slots=True)
class FragmentContext:
    """A piece of the page."""

    title: str
    refused: str = ""
    shown: Shown | None = None
    moved: tuple[Moved, ...] = ()
    answer: MatchAnswer | None = None
    cured: CorrectAnswer | None = None
    materials: Mapping[str, str] = dataclasses.field(default_factory=dict)
    job: str = ""


def color_page(visit: Visit) -> Show | Go:
    """One layer of a look, in color."""
    with visit.world.bench() as bench:
        stored = bench.records.get(Look.key, visit.part("id"))
        look = stored.noun
        if not isinstance(look, Look):
            raise BadInput("id", stored.id, "is no look")
        if not visit.posted:
            layer = _layer(visit, look)
            sent = dict(visit.request.query_params)
            trial = Trial(doses=look.layers[layer].doses, target=_target(sent))
            return _page(bench, stored, layer, trial)
        sent = dict(visit.sent)
        trial = _trial(sent)
    return _kept(visit, stored, look, _whole(sent, "layer"), trial)


def _kept(visit: Visit, stored: Stored, look: Look, layer: int, trial: Trial) -> Show | Go:
    layers = list(look.layers)
    if not 0 <= layer < len(layers):
        raise BadInput("layer", layer, f"must be 0 to {len(layers) - 1}")
    layers[layer] = dataclasses.replace(layers[layer], doses=trial.doses)
    changed = dataclasses.replace(look, layers=tuple(layers))
    kept = change_record(
        visit.world, changed, id=stored.id, expected_version=visit.whole("@version")
    )
    return Go(f"/looks/{kept.id}/color?layer={layer}")


def preview(visit: Visit) -> Show:
    """Swatches of what the sliders say."""
    return _fragment(
        visit,
        "look/swatches.html",
        lambda bench, trial: {"shown": try_color(bench, trial), "moved": moved(bench, trial)},
    )


def recipes(visit: Visit) -> Show:
    """Recipes for the target."""

    def found(bench: Bench, trial: Trial) -> dict[str, Any]:
        return {"answer": match_color(bench, trial), "materials": material_named(bench)}

    return _fragment(visit, "look/recipes.html", found)


def proof(visit: Visit) -> Show:
    """Begin the proof of the best recipe, as a job."""
    try:
        with visit.world.bench() as bench:
            wanted = match_input(bench, _trial(dict(visit.sent)))
        sure = to_json(dataclasses.replace(wanted, lights=(), proof=True))
        job = start_job(visit.world, "color.match", sure)
    except PourwrightError as error:
        page = FragmentContext("Color", refused=_said(error))
        return Show("look/proof.html", page, error.http_status)
    return Show("look/proof.html", FragmentContext("Color", job=job.key))


def cure(visit: Visit) -> Show:
    """What to add to the hot cup."""

    def found(bench: Bench, trial: Trial) -> dict[str, Any]:
        return {"cured": correct_cup(bench, trial, _drip(bench, dict(visit.sent)))}

    return _fragment(visit, "look/cure.html", found)


def target(visit: Visit) -> JSONResponse:
    """L*a*b* in daylight of a screen color."""
    wanted = Target(color_hex=visit.request.query_params.get("hex", ""))
    names = ("lightness", "a", "b")
    lab = wanted.labs([WEIGHTS[Light.D65]])[0]
    return JSONResponse(dict(zip(names, (round(float(v), 1) for v in lab), strict=True)))


def _fragment(visit: Visit, template: str, work: Any) -> Show:
    try:
        trial = _trial(dict(visit.sent))
        with visit.world.bench() as bench:
            return Show(template, FragmentContext("Color", **work(bench, trial)))
    except PourwrightError as error:
        return Show(template, FragmentContext("Color", refused=_said(error)), error.http_status)


def _said(error: PourwrightError) -> str:
    if not isinstance(error, BadInput):
        return str(error)
    head, _, row = error.field.partition("-")
    label = f"Dose {int(row) + 1}" if row.isdigit() else _LABELS.get(head, head)
    return f"{label}: {error.why}"


def _page(bench: Bench, stored: Stored, layer: int, trial: Trial) -> Show:
    look = stored.noun
    if not isinstance(look, Look):
        raise BadInput("id", stored.id, "is no look")
    shelf = color_shelf(bench)
    shown: Shown | None = None
    shifts: tuple[Moved, ...] = ()
    refused = ""
    try:
        shown, shifts = try_color(bench, trial), moved(bench, trial)
    except PourwrightError as error:
        refused = _said(error)
    light, a, b = ("", "", "") if trial.target is None else map(_short, trial.target.array())
    context = ColorContext(
        title=f"Color of {look.name}",
        look_id=stored.id,
        version=stored.version,
        layers=tuple(
            Option(str(i), layer_.place.value, i == layer) for i, layer_ in enumerate(look.layers)
        ),
        layer=layer,
        sliders=tuple(
            _slider(i, d, s.noun.name if (s := shelf.additives.get(d.material)) else GONE)
            for i, d in enumerate(trial.doses)
        ),
        additives=tuple(
            Option(f"{s.id}|{usual_measure(s.noun).value}", s.noun.name, False)
            for s in shelf.additives.values()
            if not s.retired
        ),
        plastics=tuple(Option(s.id, s.noun.name, False) for s in bench.records.all("plastic")),
        lights=(
            *(Option(x.value, _light_words(x), x is trial.light) for x in Light),
            Option(SHED, "my shed light", trial.shed),
        ),
        cards=tuple(Option(s.id, s.noun.name, False) for s in bench.records.all(Card.key)),
        baits=tuple(Option(f"{mm:.2f}", name, False) for name, mm in thick_baits(bench)),
        target=(light, a, b),
        thick_mm=_short(trial.thick_mm),
        cup_g=_short(trial.cup_g),
        shown=shown,
        moved=shifts,
        refused=refused,
        drift=drift_of(bench, stored.id),
    )
    return Show("look/color.html", context)


def _slider(row: int, dose: Dose, name: str) -> Slider:
    most = max(MEASURE_MOST[dose.measure], dose.per_100g * 2)
    return Slider(
        row,
        dose.material,
        name,
        dose.measure.value,
        _short(dose.per_100g),
        MEASURE_STEP[dose.measure],
        most,
    )


def _light_words(light: Light) -> str:
    return {Light.D65: "daylight", Light.A: "filament lamp"}.get(light, light.value)


def _trial(sent: Mapping[str, str]) -> Trial:
    doses = []
    for row in range(_whole(sent, "rows")):
        amount = _number(sent, f"amount-{row}", 0.0, 0, 400)
        if amount > 0 and sent.get(f"material-{row}"):
            doses.append(
                Dose(
                    material=sent[f"material-{row}"],
                    per_100g=amount,
                    measure=_measure(sent, f"measure-{row}"),
                )
            )
    return Trial(
        doses=tuple(doses),
        plastic=sent.get("plastic", ""),
        light=_light(sent.get("light", "")),
        shed=sent.get("light") == SHED,
        target=_target(sent),
        thick_mm=_number(sent, "thick_mm", 10.0, 0.2, 60),
        cup_g=_number(sent, "cup_g", 170.0, 5, 20_000),
    )


def _measure(sent: Mapping[str, str], name: str) -> Measure:
    words = sent.get(name, Measure.DROPS.value)
    if words not in {x.value for x in Measure}:
        raise BadInput(name, words, f"must be one of {', '.join(Measure)}")
    return Measure(words)


def _light(words: str) -> Light:
    return Light(words) if words in {x.value for x in Light} else Light.D65


def _target(sent: Mapping[str, str]) -> Lab | None:
    if not all(sent.get(k, "").strip() for k in TARGET):
        return None
    light, a, b = (
        _number(sent, key, 0.0, *end) for key, end in zip(TARGET, _LAB_ENDS, strict=True)
    )
    return Lab(lightness=light, a=a, b=b)


def _drip(bench: Bench, sent: Mapping[str, str]) -> Drip:
    readings = []
    for side in ("white", "black"):
        values = [sent.get(f"drip_{side}_{axis}", "").strip() for axis in "lab"]
        card = sent.get(f"drip_{side}_card", "")
        if all(values) and card:
            noun = bench.records.get(Card.key, card).noun
            if isinstance(noun, Card):
                light, a, b = (
                    _number(sent, f"drip_{side}_{axis}", 0.0, *end)
                    for axis, end in zip("lab", _LAB_ENDS, strict=True)
                )
                readings.append(
                    CardRead(over=noun.bare, read=Read(lab=Lab(lightness=light, a=a, b=b)))
                )
    if not readings:
        raise BadInput("drip", None, "type L*, a* and b* of the drip over at least one card")
    return Drip(thick_mm=_number(sent, "drip_mm", 3.0, 0.3, 20), readings=tuple(readings))


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


def _whole(sent: Mapping[str, str], name: str) -> int:
    text = sent.get(name, "0")
    return int(text) if text.isascii() and text.isdigit() and len(text) < 4 else 0


def _layer(visit: Visit, look: Look) -> int:
    asked = visit.request.query_params.get("layer", "0")
    index = int(asked) if asked.isascii() and asked.isdigit() and len(asked) < 3 else 0
    return min(index, len(look.layers) - 1)


def _short(value: Any) -> str:
    return f"{float(value):.4g}"


LOOK_COLOR_PAGES = (
    Page("/looks/{id}/color", color_page, ("GET", "POST")),
    Page("/looks/{id}/color/preview", preview, ("POST",)),
    Page("/looks/{id}/color/recipes", recipes, ("POST",)),
    Page("/looks/{id}/color/proof", proof, ("POST",)),
    Page("/looks/{id}/color/cure", cure, ("POST",)),
    Page("/looks/{id}/color/target", target),
)
