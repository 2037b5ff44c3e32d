"""Pearl powder known by its film: a pile of small mirrors whose color comes from interference."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.field import fields_of
from pourwright.color.colorant import Colorant, Stuff, tinting
from pourwright.color.film.pile import pile_scatter
from pourwright.color.film.powder import Powder
from pourwright.color.sheen import Sheen


@dataclass(frozen=True, slots=True, kw_only=True)
class PearlFilm(Powder, Colorant):
    """A powder of coated mica by its film or its grade: colored over black, pale over white."""

    key: ClassVar[str] = "pearl_film"
    label: ClassVar[str] = "Pearl powder by its film"
    limit: ClassVar[str] = (
        "pearl changes with the angle: this is its color met straight on, without the glint"
    )

    @classmethod
    def of(cls, powder: Powder) -> PearlFilm:
        """The colorant that a powder is."""
        return cls(**{f.name: getattr(powder, f.name) for f in fields_of(Powder)})

    def stuff(self, grams_per_100g: Array, values: Mapping[str, Array]) -> Stuff:
        """Scattering alone: what the flakes do not mirror they let through."""
        plates = self.plates(grams_per_100g, values["quality"])
        scatter = pile_scatter(plates, self.mirrors()[0])
        return tinting(np.zeros_like(scatter), scatter)

    def sheen(self, grams_per_100g: Array, values: Mapping[str, Array]) -> Sheen:
        """Its flakes, by the first draw."""
        return self.lays(float(grams_per_100g[0]), float(values["quality"][0]))
