"""Pictures of looks: seconds beside a plain shaded picture, and the browser beside the bench.

    python3 run.py speed picture

The peer is the least that any picture of a solid must do: the same rays through the same bait,
and one painted color lit by where the skin faces. What ours takes beyond it goes into 31 bands,
layers, flakes, pearl and gloss. The laptop draws with one core; processor seconds are printed
beside those of the clock, since other programs slow the clock alone.
"""

from __future__ import annotations

import statistics
import time
from collections.abc import Callable

import numpy as np

from pourwright.base.pixels import Pixels
from pourwright.base.record import from_json
from pourwright.body.seen_skin import eye_at, seen_skin
from pourwright.forecast.picture import picture as reckoned
from pourwright.forecast.picture.picture import look_picture
from pourwright.forecast.picture.picture_input import PictureInput

RUNS = 5
WANTED_FLAKES = 1000
# A preview while a slider moves, a picture, a fine picture.
SIZES = (256, 640, 1280)


def main() -> None:
    """A row to a look and a size."""
    heads = ("pixels", 9), ("flakes", 6), ("cold s", 7), ("cpu s", 6), ("warm s", 7), ("plain s", 8)
    print(f"{'look':24} {' '.join(word.rjust(wide) for word, wide in heads)} {'ratio':>6}")
    for name, body in looks().items():
        for pixels in SIZES:
            row(name, from_json(PictureInput, body | {"pixels": pixels}))


def looks() -> dict[str, dict[str, object]]:
    """One layer and three, all with flake; more than a thousand flakes in each."""
    green, copper = dose("green", "dye", "#4f6b2a", 6), flake("#b0713a", 0.3)
    white = dose("white", "opaque", "#f2f0e8", 4)
    pearl = {
        "name": "pearl", "per_100g": 0.4, "measure": "grams",
        "colorant": {"kind": "pearl", "color_hex": "#aac4e8"},
    }  # fmt: skip
    return {
        "one layer": {"family": {"kind": "paddle_tail"}, "layers": [{"doses": [green, copper]}]},
        "back, belly, vein": {
            "family": {"kind": "paddle_tail"},
            "layers": [
                {"place": "back", "share": 0.45, "doses": [green, copper]},
                {"place": "belly", "share": 0.45, "doses": [white, flake("#c8c8c8", 0.2)]},
                {"place": "vein", "share": 0.1, "doses": [pearl]},
            ],
            "split": {"line": "poured by hand", "vein_wide_mm": 6},
            "sight": {"tilt_deg": 25},
        },
    }


def dose(name: str, kind: str, color_hex: str, drops: float) -> dict[str, object]:
    """Drops of a colorant to 100 g."""
    colorant = {"kind": kind, "color_hex": color_hex}
    return {"name": name, "per_100g": drops, "drop_mass_g": 0.036, "colorant": colorant}


def flake(color_hex: str, grams: float) -> dict[str, object]:
    """Grams of flake to 100 g."""
    colorant = {"kind": "flake", "color_hex": color_hex, "film_um": 25, "size_mm": 0.6}
    return {"name": "flake", "per_100g": grams, "measure": "grams", "colorant": colorant}


def row(name: str, asked: PictureInput) -> None:
    """Our time, with nothing kept and with the shape kept, beside the peer's."""
    answer = look_picture(asked)
    if answer.flakes < WANTED_FLAKES:
        raise SystemExit(f"{name}: {answer.flakes} flakes are fewer than {WANTED_FLAKES}")
    cold, cpu = timed(lambda: look_picture(asked), before=forgotten)
    warm, _ = timed(lambda: look_picture(asked))
    plain, _ = timed(lambda: shaded(asked))
    size = f"{answer.columns}x{answer.rows}"
    print(
        f"{name:24} {size:>9} {answer.flakes:6d} {cold:7.3f} {cpu:6.3f} {warm:7.3f} "
        f"{plain:8.3f} {cold / plain:6.1f}",
        flush=True,
    )


def forgotten() -> None:
    """Keep nothing of the shape."""
    for kept in (reckoned._solid, reckoned._build, reckoned._division, reckoned._skin):  # noqa: SLF001
        kept.cache_clear()


def timed(act: Callable[[], object], before: Callable[[], object] = int) -> tuple[float, float]:
    """Median seconds of the clock and of the processor."""
    clock, cpu = [], []
    for _ in range(RUNS):
        before()
        start, busy = time.perf_counter(), time.process_time()
        act()
        clock.append(time.perf_counter() - start)
        cpu.append(time.process_time() - busy)
    return statistics.median(clock), statistics.median(cpu)


def shaded(asked: PictureInput) -> bytes:
    """One color, lit by where the skin faces, as a PNG."""
    seen = seen_skin(asked.solid(), eye_at(asked.up()), columns=asked.pixels, rows=asked.rows())
    codes = np.full((seen.rows, seen.columns, 3), 230, np.uint8)
    lit = np.clip(seen.normal @ seen.eye.toward, 0, 1)[:, None]
    codes[seen.row, seen.column] = (lit * [90, 120, 50]).astype(np.uint8)
    return Pixels(codes).png()
