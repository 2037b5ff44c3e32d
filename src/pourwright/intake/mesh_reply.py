"""What the reading process hands back: a line of JSON, then the bare numbers."""

from __future__ import annotations

import json
from typing import Any

import numpy as np

from pourwright.base.errors import BadInput
from pourwright.base.mesh import LengthUnit, Mesh

_POINT, _CORNER = np.dtype("<f8"), np.dtype("<i8")


def packed(mesh: Mesh) -> bytes:
    """A mesh as bytes."""
    head = {
        "points": len(mesh.points),
        "triangles": len(mesh.triangles),
        "unit": mesh.unit,
        "notes": mesh.notes,
    }
    points, triangles = mesh.points.astype(_POINT), mesh.triangles.astype(_CORNER)
    return json.dumps(head).encode() + b"\n" + points.tobytes() + triangles.tobytes()


def packed_refusal(error: BadInput) -> bytes:
    """A refusal as bytes."""
    said = {"field": error.field, "value": error.value, "why": error.why}
    return json.dumps({"refused": said}).encode() + b"\n"


def unpacked(reply: bytes) -> Mesh:
    """The mesh of a reply.

    Raises: BadInput where the reply is a refusal, ValueError or KeyError where it is no reply.
    """
    line, _, body = reply.partition(b"\n")
    head: dict[str, Any] = json.loads(line)
    if "refused" in head:
        said = head["refused"]
        raise BadInput(said["field"], said["value"], said["why"])
    split = 3 * head["points"] * _POINT.itemsize
    return Mesh(
        np.frombuffer(body[:split], _POINT).reshape(-1, 3),
        np.frombuffer(body[split:], _CORNER).reshape(-1, 3),
        LengthUnit(head["unit"]) if head["unit"] else None,
        tuple(head["notes"]),
    )
