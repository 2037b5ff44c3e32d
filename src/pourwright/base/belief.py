"""What has been learned about a few parameters of one model, as a joint normal distribution."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array, Draws


@dataclass(frozen=True, slots=True)
class Belief:
    """Mean and covariance of named parameters, tied to one model and its version.

    A belief learned by one model is never handed to another: see `for_model`.
    """

    model: str
    version: int
    names: tuple[str, ...]
    mean: tuple[float, ...]
    covariance: tuple[tuple[float, ...], ...]
    observations: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        n = len(self.names)
        if len(self.mean) != n or [len(row) for row in self.covariance] != [n] * n:
            raise ValueError("a belief needs one mean and one covariance row for each name")

    def for_model(self, model: str, version: int) -> Belief:
        """The belief itself, if it was learned by that model."""
        if (self.model, self.version) != (model, version):
            raise ValueError(f"learned by {self.model} v{self.version}, not {model} v{version}")
        return self

    def draw(self, draws: Draws) -> dict[str, Array]:
        """Joint draws of every parameter, from the scores that carry their names."""
        root = np.linalg.cholesky(np.array(self.covariance))
        scores = np.stack([draws.scores(name) for name in self.names])
        values = np.array(self.mean)[:, None] + root @ scores
        return dict(zip(self.names, values, strict=True))
