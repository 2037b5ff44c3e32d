"""A bait is one piece without a hollow: what a mold can shape of the body of a file."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.base.errors import BadInput
from pourwright.body.loft import Solid

# Hollows that together take no more of the body than this are filled, far under what a ruler
# reads; estimate.
FILLED_SHARE = 0.005
# Less is left where the faces of two parts nearly meet, and not worth a word.
SPOKEN_SHARE = 1e-6
APART = (
    "must hold one bait in one piece, since plastic flows from one gate; join pieces that do not "
    "touch, or delete all but one, where the file was made"
)
HOLLOW = (
    "must be solid: no mold shapes a hollow that is closed all around; fill it, or open it to the "
    "outside, where the file was made"
)


def one_bait(solid: Solid) -> tuple[Solid, tuple[str, ...]]:
    """The body in one piece, its small hollows filled, and what that took in words.

    Raises: BadInput for a body in several pieces, or around a hollow that counts.
    """
    shells = solid.decompose()
    whole = _only_piece([shell for shell in shells if shell.volume() > 0])
    share = 1 - solid.volume() / whole.volume()
    if share > FILLED_SHARE:
        raise BadInput("file", f"a hollow of {share:.1%} of the body", HOLLOW)
    return (whole if len(shells) > 1 else solid), tuple(_filled_note(share))


def _only_piece(pieces: list[Solid]) -> Solid:
    volumes = [piece.volume() for piece in pieces]
    if not volumes:
        raise BadInput("file", "a skin around nothing", "must enclose a body")
    if len(volumes) > 1:
        what = f"{len(volumes)} pieces, the smallest {min(volumes) / sum(volumes):.2%} of it"
        raise BadInput("file", what, APART)
    return pieces[0]


def _filled_note(share: float) -> Iterator[str]:
    if share > SPOKEN_SHARE:
        yield f"Filled what was hollow inside, {share:.2%} of the body: no mold can shape that."
