"""3MF: one solid in millimeters, packed as the core specification asks.

Source: 3MF Consortium, 3D Manufacturing Format, Core Specification 1.3, chapters 2 to 4 and
appendix C.
"""

from __future__ import annotations

import re

import numpy as np

from pourwright.body.mold.archive import member, zipped
from pourwright.body.mold.facet import Facets

_MODEL = "3D/3dmodel.model"
_XML = '<?xml version="1.0" encoding="UTF-8"?>\n'
_TYPES = (
    _XML + '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">'
    '<Default Extension="rels" '
    'ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
    '<Default Extension="model" '
    'ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/></Types>'
)
_RELATIONS = (
    _XML + '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">'
    f'<Relationship Target="/{_MODEL}" Id="rel0" '
    'Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/></Relationships>'
)
_HEAD = (
    _XML + '<model unit="millimeter" xml:lang="en-US" '
    'xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02"><resources>'
    '<object id="1" type="model" name="{name}"><mesh>'
)
_FOOT = '</mesh></object></resources><build><item objectid="1"/></build></model>'
# Nine digits bring every 32-bit float back to the last bit.
_VERTEX = '<vertex x="%.9g" y="%.9g" z="%.9g"/>'
_TRIANGLE = '<triangle v1="%d" v2="%d" v3="%d"/>'
_VERTEX_READ = re.compile(rb'<vertex x="([^"]+)" y="([^"]+)" z="([^"]+)"/>')
_TRIANGLE_READ = re.compile(rb'<triangle v1="([^"]+)" v2="([^"]+)" v3="([^"]+)"/>')


def threemf_bytes(facets: Facets, name: str) -> bytes:
    """The file of a skin; `name` is plain words without marks."""
    model = (
        _HEAD.format(name=name),
        "<vertices>",
        (_VERTEX * len(facets.points)) % tuple(facets.points.ravel().tolist()),
        "</vertices><triangles>",
        (_TRIANGLE * len(facets.corners)) % tuple(facets.corners.ravel().tolist()),
        "</triangles>",
        _FOOT,
    )
    return zipped(
        {
            "[Content_Types].xml": _TYPES.encode(),
            "_rels/.rels": _RELATIONS.encode(),
            _MODEL: "".join(model).encode(),
        }
    )


def threemf_facets(data: bytes) -> Facets:
    """The skin in a file that `threemf_bytes` made."""
    model = member(data, _MODEL)
    points = np.array(_VERTEX_READ.findall(model)).astype(np.float32).reshape(-1, 3)
    corners = np.array(_TRIANGLE_READ.findall(model)).astype(np.int64).reshape(-1, 3)
    return Facets(points, corners)
