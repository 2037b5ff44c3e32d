"""The process that reads one mesh file: bytes in, a repaired mesh or a refusal out.

It runs alone, so that a file made to exhaust memory or time ends this process and not the bench.
"""

from __future__ import annotations

import sys

MOST_DATA_BYTES = 280_000_000
MOST_CPU_S = 10


def limited() -> bool:
    """Whether the system keeps this process to its memory and its time.

    Linux holds both; macOS holds the time and only asks for the memory; Windows holds neither,
    and only the clock of whoever waits ends a reading there.
    """
    try:
        import resource  # noqa: PLC0415  not on every system
    except ImportError:
        return False
    try:
        resource.setrlimit(resource.RLIMIT_CPU, (MOST_CPU_S, MOST_CPU_S))
        resource.setrlimit(resource.RLIMIT_DATA, (MOST_DATA_BYTES, MOST_DATA_BYTES))
    except (ValueError, OSError):
        return False
    return True


def reply(data: bytes) -> bytes:
    """The answer to one file."""
    # Loaded once the limits stand, so that they hold the libraries too.
    from pourwright.base.errors import BadInput  # noqa: PLC0415
    from pourwright.body.repair import repaired  # noqa: PLC0415
    from pourwright.intake.mesh_kind import soup  # noqa: PLC0415
    from pourwright.intake.mesh_reply import packed, packed_refusal  # noqa: PLC0415

    try:
        found = soup(data)
        return packed(repaired(found.points, found.triangles, found.unit, found.notes))
    except BadInput as error:
        return packed_refusal(error)
    except MemoryError:
        return packed_refusal(BadInput("file", f"{len(data):,} bytes", "needs too much memory"))


if __name__ == "__main__":
    limited()
    sys.stdout.buffer.write(reply(sys.stdin.buffer.read()))
