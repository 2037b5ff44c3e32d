"""3MF: a package with a model of placed objects that says its own unit."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from pourwright.intake.mesh_model import Matrix, Model, Placed, model_of
from pourwright.intake.mesh_soup import Soup, check_count, refused
from pourwright.intake.mesh_zip import model_chunks

Skin = tuple[NDArray[np.float64], NDArray[np.int64]]


def threemf(data: bytes) -> Soup:
    """Triangles of everything the model builds, each where the model puts it. Raises: BadInput."""
    model = model_of(model_chunks(data))
    if not model.build:
        raise refused("a 3MF model", "builds nothing")
    built = [item for item in model.build if model.things[item.object].sort == "model"]
    check_count(sum(model.things[item.object].count for item in built))
    skins = [skin for item in built for skin in _skins(model, item, np.eye(4))]
    if not skins:
        check_count(0)
    left_out = len(model.build) - len(built)
    notes = (f"Left out {left_out} supports or bare surfaces.",) if left_out else ()
    return Soup(*_joined(skins), model.unit, notes)


def _skins(model: Model, placed: Placed, outer: Matrix) -> Iterator[Skin]:
    """Points and triangles of an object and its parts; empty ones are not followed."""
    thing = model.things[placed.object]
    if not thing.count:
        return
    matrix = placed.matrix @ outer
    if thing.triangles:
        points = np.array(thing.points).reshape(-1, 3)
        yield points @ matrix[:3, :3] + matrix[3, :3], np.array(thing.triangles).reshape(-1, 3)
    for part in thing.parts:
        yield from _skins(model, part, matrix)


def _joined(skins: list[Skin]) -> Skin:
    starts = np.cumsum([0, *(len(points) for points, _ in skins)])
    points = np.vstack([points for points, _ in skins])
    return points, np.vstack([t + start for (_, t), start in zip(skins, starts, strict=False)])
