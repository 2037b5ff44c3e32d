"""One cup told to the next burst step by step, for the tests of what it says."""

from __future__ import annotations

from typing import Any

from pourwright.heat.next_burst import next_burst

CUP = {"plastic_g": 498, "cup_g": 420, "cup_diameter_mm": 89, "start_c": 22, "ambient_c": 22,
       "label_w": 700, "flash_point_c": 213}  # fmt: skip


def heated(seconds: float) -> dict[str, Any]:
    return {"did": "heated", "for_s": seconds}


def stirred_and_read(read_c: float, **more: Any) -> list[dict[str, Any]]:
    return [{"did": "rested", "for_s": 15}, {"did": "stirred"},
            {"did": "read", "read_c": read_c, "while_stirring": True} | more]  # fmt: skip


def asked(*history: Any, **about: Any) -> dict[str, Any]:
    steps = [s for part in history for s in (part if isinstance(part, list) else [part])]
    return next_burst.answer(CUP | about | {"history": steps})


FIRST = [heated(75), *stirred_and_read(66), {"did": "read", "read_c": 65.4, "while_stirring": True}]
SECOND = [*FIRST, heated(185), *stirred_and_read(152)]
