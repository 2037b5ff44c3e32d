"""Where this system keeps a person's data."""

from __future__ import annotations

import os
import sys
from collections.abc import Mapping
from pathlib import Path


def data_folder(platform: str = sys.platform, environment: Mapping[str, str] = os.environ) -> Path:
    """The folder of Pourwright's own files, made if it is not there.

    Windows: LOCALAPPDATA; macOS: Library/Application Support; elsewhere XDG_DATA_HOME or
    ~/.local/share (XDG Base Directory Specification 0.8, 2021).
    """
    home = Path.home()
    if platform == "win32":
        base = Path(environment.get("LOCALAPPDATA") or home / "AppData" / "Local")
        name = "Pourwright"
    elif platform == "darwin":
        base, name = home / "Library" / "Application Support", "Pourwright"
    else:
        base = Path(environment.get("XDG_DATA_HOME") or home / ".local" / "share")
        name = "pourwright"
    folder = base / name
    folder.mkdir(parents=True, exist_ok=True)
    return folder


def store_file(*, demo: bool) -> Path:
    """The store a person gets who names none; the demo bench has one of its own."""
    return data_folder() / ("demo.db" if demo else "bench.db")
