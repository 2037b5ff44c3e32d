"""A look, laid out for its page."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from urllib.parse import urlencode

from pourwright.actions.can_picture import no_picture_of
from pourwright.actions.look_lines import look_lines
from pourwright.actions.look_to_fish import plastics, thick_of
from pourwright.actions.port import Bench, Stored
from pourwright.actions.see_look import look_of
from pourwright.base.errors import BadInput, NoAnswer, NotFound
from pourwright.shop.look import Look
from pourwright.shop.mold import Bait
from pourwright.web.form import Typed
from pourwright.web.look_bait import usual_bait
from pourwright.web.look_fish import FishView, fish_view
from pourwright.web.look_form import (
    SplitForm,
    WishForm,
    baits_with_shape,
    split_form,
    split_texts,
    wish_form,
)
from pourwright.web.look_glance import glance_of
from pourwright.web.look_layers import LayerCard, layer_cards
from pourwright.web.look_picture import (
    FULL_PX,
    MOST_PX,
    SMALL_PX,
    picture_address,
    picture_words,
    rows_of,
)
from pourwright.web.look_versions import VersionView, version_views
from pourwright.web.look_wish import LookWish, query, wish_of, wish_texts
from pourwright.web.show import Settings

# Versions shown at once; the others are folded.
NEWEST = 4


@dataclass(frozen=True, slots=True)
class PictureView:
    """The picture, its size, and what it shows in words."""

    address: str
    optics: str
    fine: str
    wide: int
    high: int
    words: str
    fine_wide: int = MOST_PX
    fine_high: int = rows_of(MOST_PX)


@dataclass(frozen=True, slots=True)
class LookContext:
    """A look and how it is looked at."""

    title: str
    look_id: str
    version: int
    note: str
    wish: WishForm
    split: SplitForm | None
    picture: PictureView | None
    refused: str
    layers: tuple[LayerCard, ...]
    fish: FishView | None
    versions: tuple[VersionView, ...]
    older: tuple[VersionView, ...]
    compare: str
    address: str


@dataclass(frozen=True, slots=True)
class _Seen:
    picture: PictureView | None = None
    fish: FishView | None = None
    laid: Mapping[str, float] = field(default_factory=dict)
    refused: str = ""


def look_context(
    bench: Bench,
    stored: Stored,
    look: Look,
    sent: Mapping[str, str],
    settings: Settings,
    *,
    lines: Typed | None = None,
    lines_problem: str = "",
) -> LookContext:
    """The page; `lines` are those typed, where they could not be kept."""
    baits = baits_with_shape(bench)
    typed = dict(wish_texts(sent, settings))
    if not typed.get("bait"):
        usual = usual_bait(bench, (look,), baits)
        typed["bait"] = usual.value if usual else ""
    found = wish_of(typed, settings)
    seen = _Seen()
    if not found.problems and typed["bait"]:
        seen = _seen(bench, stored, look, typed, found.record, settings)
    small = picture_address(stored.id, typed, SMALL_PX) if seen.picture else ""
    versions = version_views(bench, stored, small, settings)
    return LookContext(
        title=look.name,
        look_id=stored.id,
        version=stored.version,
        note=look.note,
        wish=wish_form(typed, found.problems, baits, settings),
        split=split_form(
            look, lines or split_texts(look, settings.system), seen.laid, lines_problem, settings
        ),
        picture=seen.picture,
        refused=seen.refused,
        layers=layer_cards(bench, stored.id, look, settings),
        fish=seen.fish,
        versions=versions[:NEWEST],
        older=versions[NEWEST:],
        compare=f"/looks/compare?{urlencode({'look': stored.id})}",
        address=f"/looks/{stored.id}",
    )


def _seen(
    bench: Bench, stored: Stored, look: Look, typed: Typed, wish: LookWish, settings: Settings
) -> _Seen:
    try:
        bait = bench.records.get(Bait.key, wish.bait).noun
        if not isinstance(bait, Bait):
            return _Seen(refused="That is no bait: pick another.")
        pieces = plastics(bench, look, thick_of(bench, bait))
        refused = refused_picture(bench, look, bait, wish)
    except (BadInput, NoAnswer, NotFound) as error:
        return _Seen(refused=f"No picture: {error}.")
    laid, fish = look_lines(bench, look, bait), fish_view(bench, wish, pieces, settings)
    if refused:
        return _Seen(None, fish, laid, f"No picture: {refused}.")
    shown = PictureView(
        address=picture_address(stored.id, typed, FULL_PX),
        optics=f"/looks/{stored.id}/optics?{query(typed)}",
        fine=picture_address(stored.id, typed, MOST_PX),
        wide=FULL_PX,
        high=rows_of(FULL_PX),
        words=picture_words(look.name, bait.name, wish, settings),
    )
    return _Seen(shown, fish, laid)


def refused_picture(bench: Bench, look: Look, bait: Bait, wish: LookWish) -> str:
    """Why there is no such picture; empty where there is one."""
    why = no_picture_of(bench, look, bait)
    if why:
        return why
    try:
        look_of(bench, look, bait)
        glance_of(bench, wish, FULL_PX)
    except BadInput as error:
        return error.why
    except (NoAnswer, NotFound) as error:
        return str(error)
    return ""
