"""A mold for a bait, as files that read back closed."""

from __future__ import annotations

import base64
from collections.abc import Iterable
from dataclasses import dataclass

from pourwright.base.assume import drawn, left_out, width_notes
from pourwright.base.calc import calculation
from pourwright.base.draws import Array, Draws
from pourwright.base.source import PRACTICE, estimate, memory, published
from pourwright.body.mold import words
from pourwright.body.mold.answer import (
    Casting,
    Check,
    MoldAnswer,
    MoldPart,
    OneMore,
    Unvented,
    VentLine,
)
from pourwright.body.mold.build import builder
from pourwright.body.mold.guard import Guarded, guarded
from pourwright.body.mold.layout import Layout
from pourwright.body.mold.mold import Mold
from pourwright.body.mold.more import one_more
from pourwright.body.mold.request import MOST_CAVITIES, MoldInput
from pourwright.body.mold.written import Written


@dataclass(frozen=True, slots=True)
class _Plastic:
    """Volumes of a shot, mL."""

    cavity_ml: float
    feed_ml: float
    shot_ml: float

    @property
    def waste_share(self) -> float:
        """Share that is feed."""
        return self.feed_ml / self.shot_ml


@calculation(
    "mold.make",
    purpose="two mold halves, an open mold, or masters to cast from, for a bait",
    sources=(
        published("3MF Consortium, 3D Manufacturing Format, Core Specification: 3MF files"),
        memory("ISO 273 and ISO 4032, ASME B18.2.2 and B18.2.8: holes and nuts"),
        published(
            "White, Viscous Fluid Flow, 3rd ed.: where filling ends, by way over gap squared"
        ),
        PRACTICE,
        estimate("shrink 0.7 to 3.4 % in length until a bait is measured"),
    ),
    example={
        "family": {"kind": "curl_tail_grub", "body_length_mm": 38, "body_mm": 11},
        "route": "two halves",
        "material": "aluminum",
        "cavities": 2,
    },
)
def mold_make(inputs: MoldInput) -> MoldAnswer:
    """Parts of a mold as STL and 3MF, read back and found closed, with its figures.

    Cavities lie side by side, noses to a runner; a sprue leads from the edge; vents run straight
    from where filling ends. Every length may be set; what is left out is named in the notes.
    Raises: BadInput for measures that do not go together; NoAnswer for a bait without a nose on
    the parting plane, or if no mold comes out that can be made.
    """
    draws = Draws(seed=inputs.seed)
    shrink = drawn(draws, inputs)["shrink_share"]
    done = guarded(builder(inputs))
    mold, layout = done.mold, done.mold.layout
    plastic = _plastic(inputs, mold)
    more = _one_more(inputs, layout, plastic)
    bait_length = mold.cavity_length_mm * (1 - shrink)
    length, width, height = mold.size_mm
    return MoldAnswer(
        parts=tuple(_part(file) for file in done.files),
        castings=tuple(Casting(n, float(s.volume()) / 1000) for n, s in mold.castings),
        cavity_ml=plastic.cavity_ml,
        feed_ml=plastic.feed_ml,
        shot_ml=plastic.shot_ml,
        waste_share=plastic.waste_share,
        one_more=more,
        shadow_cm2=mold.shadow_cm2,
        bait_length_mm=draws.band(bait_length),
        gate_mm=layout.size.gate_mm if layout else None,
        pitch_mm=layout.nest.step_mm if layout and inputs.cavities > 1 else None,
        feed=layout.feed.slices if layout else (),
        block_length_mm=length,
        block_width_mm=width,
        block_height_mm=height,
        vents=_vents(layout) if layout else (),
        unvented=_unvented(layout) if layout else (),
        checks=tuple(Check(f.name, f.of, f.found) for f in done.findings),
        cut_again=done.tries - 1 or None,
        notes=tuple(_notes(inputs, done, plastic, more, draws, bait_length)),
    )


def _plastic(inputs: MoldInput, mold: Mold) -> _Plastic:
    cavities, shot = (float(solid.volume()) / 1000 for solid in (mold.plastic, mold.shot))
    return _Plastic(cavities / inputs.cavities, shot - cavities, shot)


def _one_more(inputs: MoldInput, layout: Layout | None, plastic: _Plastic) -> OneMore | None:
    if layout is None or inputs.cavities == MOST_CAVITIES:
        return None
    return one_more(layout, cavity_ml=plastic.cavity_ml, feed_ml=plastic.feed_ml)


def _part(file: Written) -> MoldPart:
    length, width, height = file.size_mm
    return MoldPart(
        name=file.name,
        copies=file.copies,
        volume_ml=file.volume_ml,
        triangles=file.triangles,
        length_mm=length,
        width_mm=width,
        height_mm=height,
        stl_base64=base64.b64encode(file.stl).decode(),
        threemf_base64=base64.b64encode(file.threemf).decode(),
    )


def _vents(layout: Layout) -> tuple[VentLine, ...]:
    return tuple(VentLine(*v.start, *v.end, v.length_mm) for v in layout.outlets.vents)


def _unvented(layout: Layout) -> tuple[Unvented, ...]:
    return tuple(
        Unvented(shut.end.x_mm, shut.end.y_mm, shut.end.thick_mm, shut.cure)
        for shut in layout.outlets.shut
    )


def _notes(
    inputs: MoldInput,
    done: Guarded,
    plastic: _Plastic,
    more: OneMore | None,
    draws: Draws,
    bait_length: Array,
) -> Iterable[str]:
    mold = done.mold
    yield from inputs.body_notes()
    yield from left_out(inputs)
    yield from width_notes(draws, {"bait_length_mm": bait_length})
    yield words.lying()
    if mold.layout:
        yield from words.gate(inputs, mold.layout)
        yield from words.waste(inputs, plastic.waste_share, more)
        yield from words.balance(mold.layout)
        yield from words.vents(inputs, mold.layout)
    else:
        yield words.opened(plastic.cavity_ml, mold.bait_ml)
    yield from words.caught(inputs)
    yield from words.wall(inputs, mold.plastic)
    yield from words.material(inputs)
    yield words.caution(inputs)
