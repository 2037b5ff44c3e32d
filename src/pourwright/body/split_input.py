"""The question of how a bait parts into its layers."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.errors import BadInput
from pourwright.base.field import flag, number, part, parts, pick
from pourwright.base.record import Record
from pourwright.body.body_input import BodyInput
from pourwright.body.division import Place, stack_of
from pourwright.body.layering import SHARE_SLACK, refuse_odd_sum, refuse_same_places
from pourwright.body.split import Split


@dataclass(frozen=True, slots=True, kw_only=True)
class SplitLayer(Record):
    """A layer, and its share where no line, vein or core tells it."""

    place: Place = pick("Layer")
    share: float | None = number(
        "Share of the bait's volume, 0 to 1; left out: from the line, the vein or the core, or "
        "what the others leave",
        low=0.01, high=0.99, default=None,
    )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class SplitInput(BodyInput):
    """A bait, its layers, and where they part: by height and size, or by share."""

    layers: tuple[SplitLayer, ...] = parts("Layers", least=1, most=5)
    split: Split = part("Where they part", default=Split())
    back_first: bool = flag("The cavity holds the bait back down, so that the back is poured first")
    seed: int = number("Seed of the draws and of the waves", low=0, high=2**31 - 1, default=1)

    @property
    def places(self) -> tuple[str, ...]:
        """The layers by name."""
        return tuple(layer.place.value for layer in self.layers)

    @property
    def shares(self) -> tuple[float | None, ...]:
        """Their shares as entered."""
        return tuple(layer.share for layer in self.layers)

    def check(self) -> None:
        """Refuse layers that do not go together, and one told twice or not at all."""
        BodyInput.check(self)
        refuse_same_places(self.places)
        self.split.refuse_odd_places(self.places)
        self._refuse_twice_told()
        self._refuse_untold()

    def _refuse_twice_told(self) -> None:
        split, stack = self.split, stack_of(self.places)
        told = {
            Place.VEIN: ("vein_thick_mm", split.vein_thick_mm),
            Place.CORE: ("core_share", split.core_share),
            stack[-1]: ("line_height", split.line_height),
        }
        if len(stack) > 1:
            told[stack[0]] = (
                ("line_height", split.line_height) if len(stack) == 2
                else ("belly_height", split.belly_height)
            )  # fmt: skip
        for layer in self.layers:
            name, given = told.get(layer.place, ("", None))
            if layer.share is not None and given is not None:
                why = f"the share of the {layer.place} is given too; give one of the two"
                raise BadInput(f"split.{name}", given, why)

    def _refuse_untold(self) -> None:
        split, shares, stack = self.split, self._by_place(), stack_of(self.places)
        given = [share for share in self.shares if share is not None]
        if sum(given) > 1 + SHARE_SLACK:
            raise BadInput("layers", round(sum(given), 4), "the shares add up to more than 1")
        if len(given) == len(shares):
            refuse_odd_sum(given)
        sized = {Place.VEIN: split.vein_thick_mm, Place.CORE: split.core_share}
        for place, size in sized.items():
            if place in shares and place not in stack and shares[place] is None and size is None:
                raise BadInput("layers", str(place), "needs a share or a size")
        if len(stack) == 2 and split.line_height is None and not any(shares[p] for p in stack):
            raise BadInput("layers", list(stack), "needs a share, or the height of a line")
        if len(stack) == 3:
            self._refuse_untold_of_three(stack)

    def _refuse_untold_of_three(self, stack: tuple[str, ...]) -> None:
        """Of three layers one over the other both ends are told; the middle is what they leave."""
        shares, split = self._by_place(), self.split
        ends = {stack[0]: split.belly_height, stack[-1]: split.line_height}
        for place, height in ends.items():
            if shares[place] is None and height is None:
                raise BadInput("layers", place, "needs a share, or the height of its line")
        if shares[stack[1]] is not None and None in {shares[place] for place in ends}:
            why = "lies between two lines: give its share only beside those of both others"
            raise BadInput("layers", stack[1], why)

    def _by_place(self) -> dict[str, float | None]:
        return dict(zip(self.places, self.shares, strict=True))
