"""The colors of pucks in a photo, read against a printed target beside them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from pourwright.base.calc import calculation
from pourwright.base.draws import Array, Draws
from pourwright.base.errors import BadInput, NoAnswer
from pourwright.base.field import kind, number, parts, picture
from pourwright.base.picture import Picture
from pourwright.base.record import Record
from pourwright.base.source import estimate, memory, published
from pourwright.color.photo.answer import PatchCheck, PhotoAnswer
from pourwright.color.photo.calibrated import Calibrated, calibrated
from pourwright.color.photo.corner import quad
from pourwright.color.photo.example import EXAMPLE
from pourwright.color.photo.facing import MOST_CLIPPED, Seen, found
from pourwright.color.photo.lighting import Frame, frame_of
from pourwright.color.photo.puck import spot_color
from pourwright.color.photo.spot import Disk, Point, Spot, reading
from pourwright.color.photo.target import TARGETS, GrayStrip, Target
from pourwright.spectrum.light import WAVELENGTHS_NM

# Left-out misses, nine in ten within, by which a photo is called good or fair; estimates.
_GOOD, _FAIR = 3.5, 7.0
_ENOUGH_CARD = 3
# Light over the target, and color over the card, that is worth a word; estimates.
_STEEP = 1.5
_TINTED = 0.08
# How far, in logs, a place on the card may be misjudged by the others; estimate.
_CARD_ODD = 0.25


@dataclass(frozen=True, slots=True, kw_only=True)
class PhotoInput(Record):
    """A photo, the target in it, and the places to read."""

    photo: Picture = picture(
        "Photo as a PNG or JPEG file in base64, upright as its own note says; places are counted "
        "on it so turned"
    )
    target: Target = kind("The target beside the pucks", TARGETS)
    corners: tuple[Point, ...] = parts(
        "Outer corners of the target's four corner patches, in any order", least=4, most=4
    )
    spots: tuple[Spot, ...] = parts("Places to read", least=1, most=60)
    card: tuple[Disk, ...] = parts(
        "Places on the bare white card around pucks and target; three or more tell how light "
        "falls off",
        most=40,
    )
    seed: int = number("Seed of the draws", low=0, high=2**31 - 1, default=1)

    def check(self) -> None:
        """Refuse a strip without card, whose own step from light to dark hides the light's."""
        if isinstance(self.target, GrayStrip) and len(self.card) < _ENOUGH_CARD:
            why = f"must have at least {_ENOUGH_CARD} places beside a strip of grays"
            raise BadInput(
                "card", len(self.card), f"{why}: it alone cannot tell how light falls off"
            )


@calculation(
    "color.photo",
    purpose="color of a puck in a photo",
    sources=(
        published("ISO 17321-1:2012, reflectances of the 24 patches"),
        published("IEC 61966-2-1:1999, curve and primaries of sRGB"),
        published(
            "Finlayson, Mackiewicz and Hurlbert, IEEE Trans. Image Process. 24 (2015) 1460: "
            "root-polynomial color correction"
        ),
        memory("Haneishi et al., Appl. Opt. 39 (2000) 6621: Wiener estimate of reflectance"),
        estimate("fall-off of light, print tolerance, camera curves; tried on generated photos"),
    ),
    example=EXAMPLE,
)
def photo(inputs: PhotoInput) -> PhotoAnswer:
    """Find the patches, fit camera and light together, read each place, and say how far off.

    The miss stated is that of patches left out of the fit, one at a time.
    Raises: BadInput for corners or places that cannot be, NoAnswer where the photo cannot tell.
    """
    seen = _seen(inputs)
    _check_places(frame_of(seen.corners), inputs)
    card_linear, card_at = _card(inputs)
    known = calibrated(inputs.target, seen, card_linear, card_at)
    draws = Draws(seed=inputs.seed)
    spots = tuple(
        spot_color(draws, known, spot, reading(spot.codes(inputs.photo))) for spot in inputs.spots
    )
    misses = known.left_out_de00
    used = misses[~np.isnan(misses)]
    return PhotoAnswer(
        tuple(float(w) for w in WAVELENGTHS_NM),
        spots,
        _patches(inputs.target, seen, misses),
        float(np.median(used)),
        float(np.quantile(used, 0.9)),
        known.light_ratio(np.concatenate([seen.at, seen.corners])),
        float(np.exp(known.fit.log_bend)),
        90 * seen.turns,
        _verdict(inputs.target, used),
        tuple(_notes(inputs, known, card_linear)),
    )


def _seen(inputs: PhotoInput) -> Seen:
    for i, corner in enumerate(inputs.corners):
        sides = ((corner.x_px, inputs.photo.width_px, "x_px"),
                 (corner.y_px, inputs.photo.height_px, "y_px"))  # fmt: skip
        for value, side, name in sides:
            if value >= side:
                why = f"lies out of the picture, which has {side} pixels that way"
                raise BadInput(f"corners[{i}].{name}", value, why)
    target = inputs.target
    corners = quad(
        _taps(inputs),
        patches_long=max(target.rows, target.columns),
        patches=target.rows * target.columns,
    )
    return found(inputs.photo, target, corners)


def _check_places(frame: Frame, inputs: PhotoInput) -> None:
    places = (("spots", inputs.spots), ("card", inputs.card))
    for name, some in places:
        for i, place in enumerate(some):
            place.check_inside(inputs.photo, f"{name}[{i}]")
            if frame.out_of_reach(place.array()[None])[0]:
                why = "lies too far from the target to know its light; lay them closer together"
                raise BadInput(f"{name}[{i}]", [place.x_px, place.y_px], why)


def _card(inputs: PhotoInput) -> tuple[Array, Array]:
    """Linear color (m, 3) and place (m, 2) of the bare card where it is not clipped."""
    read = [(reading(disk.codes(inputs.photo)), disk.array()) for disk in inputs.card]
    used = [(r.linear, at) for r, at in read if r.full_share <= MOST_CLIPPED]
    if isinstance(inputs.target, GrayStrip) and len(used) < _ENOUGH_CARD:
        raise NoAnswer(
            f"the card is too bright: {len(read) - len(used)} of {len(read)} places are at the end "
            "of a channel; take the photo again with exposure turned down"
        )
    linear, at = (np.array([pair[i] for pair in used]) for i in (0, 1))
    return linear.reshape(-1, 3), at.reshape(-1, 2)


def _patches(target: Target, seen: Seen, misses: Array) -> tuple[PatchCheck, ...]:
    return tuple(
        PatchCheck(name, float(x), float(y), None if np.isnan(miss) else float(miss))
        for name, (x, y), miss in zip(target.names, seen.at, misses, strict=True)
    )


def _verdict(target: Target, misses: Array) -> str:
    if isinstance(target, GrayStrip):
        return "rough: grays show the light, not how the camera sees colors; a first guess"
    worst = float(np.quantile(misses, 0.9))
    steps = ((_GOOD, "good: as near as a photo comes"), (_FAIR, "fair: check it with a drip"))
    return next(
        (words for limit, words in steps if worst < limit),
        "rough: a first guess; take the photo again in even daylight shade",
    )


def _notes(inputs: PhotoInput, known: Calibrated, card_linear: Array) -> Iterable[str]:
    clipped = int(np.isnan(known.left_out_de00).sum())
    if clipped:
        yield f"{clipped} patches were too bright and were left out; turn the exposure down"
    if len(card_linear) < len(inputs.card):
        count = len(inputs.card) - len(card_linear)
        yield f"{count} places on the card were too bright and were left out; turn exposure down"
    if known.card_miss > _CARD_ODD:
        yield (
            "the places on the card do not go together: one may lie on something else or in a "
            "shadow; tap bare card only"
        )
    if len(card_linear) < _ENOUGH_CARD:
        yield (
            "fall-off of light is carried from the target to the pucks; three or more taps on "
            "bare white card around them narrow it"
        )
    elif _two_lights(card_linear):
        yield (
            "the card changes color from place to place: two different lights, or a card that is "
            "not white all over; switch one off"
        )
    if known.light_ratio(_taps(inputs)) > _STEEP:
        yield "light falls off steeply across the target; move the lamp away or turn the table"
    if isinstance(inputs.target, GrayStrip):
        yield (
            "only grays: colors are taken as the camera gives them, which misses strong ones by "
            "5 dE00 and more (estimate); 24 color patches would narrow it"
        )
        if inputs.photo.profile and "srgb" not in inputs.photo.profile.lower():
            yield f"the photo is marked {inputs.photo.profile}, but is read as sRGB"
    yield (
        "patches are taken as published; one print differs from another by about 1 dE00, and "
        "plastic is not ink: a drip read both ways would show by how much"
    )


def _taps(inputs: PhotoInput) -> Array:
    return np.array([c.array() for c in inputs.corners])


def _two_lights(card_linear: Array) -> bool:
    tint = np.log(np.maximum(card_linear, 1e-4))
    tint = tint[:, [0, 2]] - tint[:, [1]]
    return float(np.ptp(tint, axis=0).max()) > _TINTED
