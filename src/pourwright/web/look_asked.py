"""Which picture an address or a form asks for: of a look as kept, or as sliders would have it."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping

from pourwright.actions.color_look import Trial
from pourwright.actions.look_version import look_at
from pourwright.actions.port import Bench
from pourwright.actions.see_look import look_of, picture_input
from pourwright.base.errors import BadInput
from pourwright.body.split import Split
from pourwright.forecast.picture.picture_input import PictureInput
from pourwright.shop.look import Look
from pourwright.shop.mold import Bait
from pourwright.web.field_label import label_of, rounded_limits
from pourwright.web.look_bait import usual_bait
from pourwright.web.look_form import SPLIT, baits_with_shape, split_sent
from pourwright.web.look_glance import LAMPS, glance_of
from pourwright.web.look_picture import pixels_asked
from pourwright.web.look_wish import Lamp, LookWish, wish_of
from pourwright.web.page import Visit, number_in_address
from pourwright.web.show import Settings
from pourwright.web.trial_form import trial_of, whole


@dataclasses.dataclass(frozen=True, slots=True)
class Asked:
    """A picture, and the bait in it."""

    picture: PictureInput
    bait_id: str
    bait: Bait


# What a form of doses carries, and no other does.
_ROWS = "rows"


def picture_asked(visit: Visit) -> Asked:
    """The picture of an address or a form; the bench is closed again before it is reckoned.

    Raises: BadInput, NotFound, NoAnswer for a look, a bait or a light that there is not.
    """
    asked = dict(visit.sent) if visit.posted else dict(visit.request.query_params)
    trial = trial_of(asked) if _ROWS in asked else None
    if trial is not None:
        asked["lamp"] = _lamp(trial).value
    found = wish_of(asked, visit.settings)
    if found.problems:
        field, why = next(iter(found.problems.items()))
        label = label_of(LookWish, field)
        raise BadInput(field, asked.get(field), rounded_limits(why), label=label)
    version = asked.get("version", "")
    number = number_in_address(version, "version", "a version") if version else 0
    with visit.world.reading() as bench:
        kept = look_at(bench, visit.part("id"), number)
        look = _lined(kept if trial is None else _dosed(kept, asked, trial), asked, visit.settings)
        bait_id, bait = _bait(bench, found.record.bait, look)
        glance = glance_of(bench, found.record, pixels_asked(asked.get("px", "")))
        plastic = trial.plastic if trial else ""
        shown = picture_input(look_of(bench, look, bait, plastic=plastic), glance)
        return Asked(shown, bait_id, bait)


def _lamp(trial: Trial) -> Lamp:
    return Lamp.SHED if trial.shed else LAMPS[trial.light]


def _dosed(look: Look, sent: Mapping[str, str], trial: Trial) -> Look:
    """The look with one layer's doses as its sliders stand."""
    layer = whole(sent, "layer", len(look.layers) - 1)
    layers = list(look.layers)
    layers[layer] = dataclasses.replace(layers[layer], doses=trial.doses)
    return dataclasses.replace(look, layers=tuple(layers))


def _lined(look: Look, sent: Mapping[str, str], settings: Settings) -> Look:
    """The look with its lines where their sliders stand, if any were sent."""
    lines = split_sent(sent, settings)
    if lines is None:
        return look
    if lines.problems:
        field, why = next(iter(lines.problems.items()))
        label, path = label_of(Split, field), SPLIT + field
        raise BadInput(path, sent.get(path), rounded_limits(why), label=label)
    return dataclasses.replace(look, split=lines.record)


def _bait(bench: Bench, picked: str, look: Look) -> tuple[str, Bait]:
    """The bait that was picked, or else the usual one of the look."""
    if not picked:
        usual = usual_bait(bench, (look,), baits_with_shape(bench))
        if usual is None:
            raise BadInput("bait", None, "must have a shape, and none on this bench has one")
        picked = usual.value
    stored = bench.records.get(Bait.key, picked)
    if not isinstance(stored.noun, Bait):
        raise BadInput("bait", picked, "is no bait")
    return stored.id, stored.noun
