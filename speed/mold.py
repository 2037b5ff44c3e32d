"""Molds of every family: time against a plain cut, closed or not, and an independent slicer.

    python3 run.py speed mold

The peer is the least that any maker of molds must do: a box less the bait, twice, by the same
solid library in the same run. What ours takes beyond it goes into feed, vents, pins, bolts and
their layout, and into writing both files and reading them back. Where a slicer is on the path it
opens every STL and writes its tool path; where none is, that is said.
"""

from __future__ import annotations

import base64
import io
import shutil
import statistics
import subprocess
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

import trimesh

from pourwright.body.families import FAMILIES
from pourwright.body.family import Family
from pourwright.body.mold.answer import MoldAnswer, MoldPart
from pourwright.body.mold.make import mold_make
from pourwright.body.mold.request import MoldInput
from pourwright.body.mold.rod import box

T = TypeVar("T")

RUNS = 3
# Slicers that Debian packages, and how each is asked for a tool path.
SLICERS = {"slic3r": ("--output",), "prusa-slicer": ("--export-gcode", "--output")}


def main() -> None:
    """A row to a family."""
    slicer = next((name for name in SLICERS if shutil.which(name)), None)
    if slicer is None:
        print(f"slicing skipped: none of {', '.join(SLICERS)} is on the path")
    print(f"{'family':20} {'mold s':>7} {'box s':>7} {'ratio':>6} {'anew':>5}  triangles")
    for key, family in FAMILIES.items():
        row(key, family(), slicer)


def row(key: str, bait: Family, slicer: str | None) -> None:
    """Our time beside the peer's, and what others say of the files."""
    ours, answer = timed(lambda: mold_make(MoldInput(family=bait)))
    peer, _ = timed(lambda: plain_cut(bait))
    figures = f"{ours:7.2f} {peer:7.3f} {ours / peer:6.0f} {answer.cut_again or 0:5d}"
    print(f"{key:20} {figures}  {told(answer)}", flush=True)
    if slicer:
        print(f"{'':20} {sliced(slicer, answer)}", flush=True)


def timed(act: Callable[[], T]) -> tuple[float, T]:
    """Median seconds of a few runs, and what the first of them gave."""
    start = time.perf_counter()
    given = act()
    seconds = [time.perf_counter() - start]
    for _ in range(RUNS - 1):
        start = time.perf_counter()
        act()
        seconds.append(time.perf_counter() - start)
    return statistics.median(seconds), given


def plain_cut(bait: Family) -> int:
    """Two boxes less the bait, one on either side of z = 0; their triangles."""
    solid = bait.solid()
    x0, y0, z0, x1, y1, z1 = solid.bounding_box()
    lower = box((x0 - 10, y0 - 10, z0 - 8), (x1 + 10, y1 + 10, 0.0)) - solid
    upper = box((x0 - 10, y0 - 10, 0.0), (x1 + 10, y1 + 10, z1 + 8)) - solid
    return int(lower.num_tri() + upper.num_tri())


def told(answer: MoldAnswer) -> str:
    """Triangles of each part, and whether an independent reader finds it closed."""
    words = []
    for part in answer.parts:
        read = trimesh.load_mesh(io.BytesIO(base64.b64decode(part.stl_base64)), file_type="stl")
        words.append(f"{part.triangles} {'closed' if read.is_watertight else 'OPEN'}")
    return ", ".join(words)


def sliced(slicer: str, answer: MoldAnswer) -> str:
    """What a slicer makes of every part."""
    with tempfile.TemporaryDirectory() as folder:
        said = [one_sliced(slicer, Path(folder), part) for part in answer.parts]
    return f"{slicer}: {'; '.join(said)}"


def one_sliced(slicer: str, folder: Path, part: MoldPart) -> str:
    """Whether a slicer finds both files of a part closed, and the size of the tool path."""
    stl, threemf, path = (folder / f"part.{end}" for end in ("stl", "3mf", "gcode"))
    stl.write_bytes(base64.b64decode(part.stl_base64))
    threemf.write_bytes(base64.b64decode(part.threemf_base64))
    seen = [asked(slicer, "--info", str(file)).stdout for file in (stl, threemf)]
    good = all("manifold = yes" in words and "repaired" not in words for words in seen)
    done = asked(slicer, *SLICERS[slicer], str(path), str(stl))
    if done.returncode or not path.exists():
        return f"REFUSED: {(done.stderr or done.stdout).strip()[-160:]}"
    size = path.stat().st_size / 1e6
    path.unlink()
    return f"{'both closed' if good else 'COMPLAINED'}, {size:.1f} MB of tool path"


def asked(*words: str) -> subprocess.CompletedProcess[str]:
    """A command, its words and how it ended."""
    return subprocess.run(words, capture_output=True, text=True, check=False, timeout=600)
