"""The process that reads a mesh, run with an eye on its memory."""

from __future__ import annotations

import os
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

import pytest

from pourwright.base.errors import BadInput
from pourwright.base.mesh import Mesh
from pourwright.intake.mesh_reply import unpacked

# Peak memory of a process from its own mouth: what the system says of a child that has ended
# counts its parent's memory at the moment of the fork.
_WATCHED = """
import atexit, runpy, sys, time
def told():
    for line in open("/proc/self/status"):
        if line.startswith("VmHWM"):
            sys.stderr.write(f"peak {line.split()[1]} {time.process_time()}")
atexit.register(told)
runpy.run_module("pourwright.intake.mesh_child", run_name="__main__")
"""
PROC = Path("/proc/self/status")


@dataclass(frozen=True)
class Read:
    """What came of a file, and what it took."""

    mesh: Mesh | None
    refusal: str
    peak_mb: float
    seconds: float


def read(data: bytes) -> Read:
    """Read a file in a child; seconds are those of the processor, from the start of Python on."""
    if not PROC.exists():
        pytest.skip("this system does not tell the peak memory of a process")
    ended = subprocess.run(
        [sys.executable, "-c", _WATCHED], input=data, capture_output=True, check=True,
        env=os.environ | {"OPENBLAS_NUM_THREADS": "1"},
    )  # fmt: skip
    peak_kb, seconds_text = ended.stderr.split(b"peak ")[-1].split()
    peak_mb, seconds = int(peak_kb) / 1000, float(seconds_text)
    try:
        return Read(unpacked(ended.stdout), "", peak_mb, seconds)
    except BadInput as error:
        return Read(None, str(error), peak_mb, seconds)
