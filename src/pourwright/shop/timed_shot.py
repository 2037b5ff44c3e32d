"""A full shot by the stopwatch: what it tells of a plastic is worked out anew from all of them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from pourwright.base.errors import BadInput
from pourwright.base.field import number, pick, reference
from pourwright.fill.push import Push
from pourwright.shop.noun import Noun


@dataclass(frozen=True, slots=True, kw_only=True)
class TimedShot(Noun):
    """One full shot, as it was pushed."""

    key: ClassVar[str] = "timed_shot"
    label: ClassVar[str] = "Timed shot"
    plural: ClassVar[str] = "Timed shots"

    mold: str = reference("Mold", refers="mold")
    plastic: str = reference("Plastic", refers="plastic")
    injector: str = reference("Injector", refers="injector", default="")
    push: Push = pick("Who or what pushed", default=Push.ONE_HAND)
    push_n: float | None = number("Push on the plunger", low=5, high=5000, default=None)
    melt_c: float = number("Plastic when the push began", low=100, high=220)
    mold_c: float | None = number("Mold before it", low=0, high=120, default=None)
    fill_s: float = number("From the first push until the mold was full", low=0.1, high=60)

    def check(self) -> None:
        """Refuse a mold as hot as the plastic, and a ram without its force."""
        if self.mold_c is not None and self.mold_c >= self.melt_c:
            raise BadInput("mold_c", self.mold_c, "must be below the plastic's temperature")
        if self.push is Push.RAM and self.push_n is None:
            raise BadInput("push_n", None, "is required for a lever or ram")
