"""Color of a look's layer: sliders with live swatches, a target, recipes for it, the hot cup."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from starlette.responses import JSONResponse

from pourwright.actions.color_look import (
    MEASURE_MOST,
    MEASURE_STEP,
    Moved,
    Shown,
    Trial,
    moved,
    thick_baits,
    try_color,
)
from pourwright.actions.keep_record import change_record
from pourwright.actions.meet_target import correct_cup, match_color, prove_match, screen_lab
from pourwright.actions.port import Bench, Stored
from pourwright.actions.shelf_color import color_shelf, usual_measure
from pourwright.base.errors import BadInput, PourwrightError
from pourwright.base.record import to_json
from pourwright.body.division import Place
from pourwright.color.correct.answer import CorrectAnswer
from pourwright.color.match.answer import MatchAnswer
from pourwright.shop.card import Card
from pourwright.shop.look import Dose, Look
from pourwright.spectrum.light import Light
from pourwright.web.drift_chart import DriftChart, drift_of
from pourwright.web.look_bait import usual_bait
from pourwright.web.look_form import baits_with_shape
from pourwright.web.look_picture import FULL_PX, picture_address, rows_of
from pourwright.web.page import Go, Page, Show, Visit
from pourwright.web.trial_form import SHED, drip_of, said, target_of, trial_of, whole
from pourwright.web.widget import Choice

GONE = "no longer on the shelf"


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
    can_echo: bool
    pictured: tuple[Choice, ...]
    picture: str
    picture_size: tuple[int, int] = (FULL_PX, rows_of(FULL_PX))


@dataclass(frozen=True, slots=True)
class FragmentContext:
    """A piece of the page."""

    title: str = "Color"
    refused: str = ""
    shown: Shown | None = None
    moved: tuple[Moved, ...] = ()
    answer: MatchAnswer | None = None
    cured: CorrectAnswer | None = None
    materials: Mapping[str, str] = dataclasses.field(default_factory=dict)
    job: str = ""


def color_page(visit: Visit) -> Show | Go:
    """One layer of a look, in color."""
    with visit.world.reading() as bench:
        stored = bench.records.get(Look.key, visit.part("id"))
        look = stored.noun
        if not isinstance(look, Look):
            raise BadInput("id", stored.id, "is no look")
        if not visit.posted:
            layer = _layer(visit, look)
            sent = dict(visit.request.query_params)
            trial = Trial(doses=look.layers[layer].doses, target=target_of(sent))
            return _page(bench, stored, layer, trial)
    sent = dict(visit.sent)
    return _kept(visit, stored, look, whole(sent, "layer", _last(look)), trial_of(sent))


def _kept(visit: Visit, stored: Stored, look: Look, layer: int, trial: Trial) -> Show | Go:
    layers = list(look.layers)
    layers[layer] = dataclasses.replace(layers[layer], doses=trial.doses)
    changed = dataclasses.replace(look, layers=tuple(layers))
    kept = change_record(
        visit.world, changed, id=stored.id, expected_version=visit.whole("@version")
    )
    return Go(f"/looks/{kept.id}/color?layer={layer}")


def preview(visit: Visit) -> Show:
    """Swatches of what the sliders say."""

    def seen(trial: Trial) -> FragmentContext:
        with visit.world.reading() as bench:
            return FragmentContext(shown=try_color(bench, trial), moved=moved(bench, trial))

    return _fragment(visit, "look/swatches.html", seen)


def recipes(visit: Visit) -> Show:
    """Recipes for the target."""

    def found(trial: Trial) -> FragmentContext:
        answer, materials = match_color(visit.world, trial)
        return FragmentContext(answer=answer, materials=materials)

    return _fragment(visit, "look/recipes.html", found)


def proof(visit: Visit) -> Show:
    """Begin the proof of the best recipe, as a job."""
    return _fragment(
        visit,
        "look/proof.html",
        lambda trial: FragmentContext(job=prove_match(visit.world, trial).key),
    )


def cure(visit: Visit) -> Show:
    """What to add to the hot cup."""

    def found(trial: Trial) -> FragmentContext:
        with visit.world.reading() as bench:
            drip = drip_of(bench, dict(visit.sent))
        return FragmentContext(cured=correct_cup(visit.world, trial, drip))

    return _fragment(visit, "look/cure.html", found)


def target(visit: Visit) -> JSONResponse:
    """L*a*b* in daylight of a screen color."""
    found = screen_lab(visit.request.query_params.get("hex", ""))
    return JSONResponse({k: round(v, 1) for k, v in to_json(found).items()})


def _fragment(visit: Visit, template: str, work: Callable[[Trial], FragmentContext]) -> Show:
    try:
        return Show(template, work(trial_of(dict(visit.sent))))
    except PourwrightError as error:
        return Show(template, FragmentContext(refused=said(error)), error.http_status)


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
        refused = said(error)
    pictured = baits_with_shape(bench)
    usual = usual_bait(bench, (look,), pictured)
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
            Option(_addable(s), s.noun.name, False)
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
        pictured=pictured,
        picture=picture_address(stored.id, {"bait": usual.value}, FULL_PX) if usual else "",
        can_echo={Place.VEIN, Place.BELLY} <= {one.place for one in look.layers},
    )
    return Show("look/color.html", context)


def _addable(stored: Stored) -> str:
    """What a script needs to add a slider: id, measure, step and most."""
    measure = usual_measure(stored.noun)
    return f"{stored.id}|{measure.value}|{MEASURE_STEP[measure]:g}|{MEASURE_MOST[measure]:g}"


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


def _layer(visit: Visit, look: Look) -> int:
    return whole({"layer": visit.request.query_params.get("layer", "0")}, "layer", _last(look))


def _last(look: Look) -> int:
    return len(look.layers) - 1


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
