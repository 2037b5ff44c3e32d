"""Mesh files: read and repaired in a process of their own, behind limits."""

from __future__ import annotations

import os
import subprocess
import sys
import threading

from pourwright.base.mesh import Mesh
from pourwright.intake.mesh_reply import unpacked
from pourwright.intake.mesh_soup import check_size, refused

MOST_S = 10.0
# One thread each: the libraries otherwise set room aside for every core there is.
_ONE_THREAD = {"OPENBLAS_NUM_THREADS": "1", "OMP_NUM_THREADS": "1"}
_COMMAND = (sys.executable, "-P", "-m", "pourwright.intake.mesh_child")
# Each file may take its own memory; this many at a time, and the others wait their turn.
_TURNS = threading.BoundedSemaphore(2)


def mesh(data: bytes) -> Mesh:
    """The body an STL, 3MF or OBJ file holds: closed, right side out, overlaps counted once.

    What the child process may take is in `mesh_child.limited`; here only its time is held.
    Raises: BadInput saying what is wrong with the file.
    """
    check_size(data)
    held = f"{len(data):,} bytes"
    try:
        with _TURNS:
            ended = subprocess.run(  # noqa: S603  our own module, no words of the person's
                _COMMAND, input=data, capture_output=True, timeout=MOST_S, check=False,
                env=os.environ | _ONE_THREAD,
            )  # fmt: skip
    except subprocess.TimeoutExpired as error:
        raise refused(held, f"takes more than {MOST_S:g} s to read; make it simpler") from error
    if ended.returncode < 0 or b"MemoryError" in ended.stderr:
        raise refused(held, "takes more memory or time than a mesh may; make it simpler")
    if ended.returncode:
        raise RuntimeError(ended.stderr.decode("utf-8", "replace"))
    return unpacked(ended.stdout)
