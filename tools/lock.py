"""Write both lock files anew from pyproject.toml; needs `uv` on the path or beside this Python.

The index the packages come from is whatever this machine is set to; no address is written.
"""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
COMPILE = (
    "pip", "compile", "pyproject.toml", "--quiet", "--universal", "--python-version", "3.11",
    "--generate-hashes", "--no-emit-index-url", "--no-emit-find-links", "--no-header",
    "--upgrade",
)  # fmt: skip


def main() -> None:
    """The runtime first; the test environment then holds the very same pins and more."""
    beside = Path(sys.executable).with_name("uv")
    uv = shutil.which("uv") or str(beside)
    runtime, dev = "lock/runtime.lock", "lock/dev.lock"
    for lock, more in ((runtime, ()), (dev, ("--group", "dev", "--constraint", runtime))):
        subprocess.run([uv, *COMPILE, *more, "--output-file", lock], cwd=ROOT, check=True)
        text = (ROOT / lock).read_text(encoding="utf-8")
        if "://" in text:
            sys.exit(f"{lock} names an address: {text[text.index('://') - 40 :][:120]}")
        print(f"{lock}: {text.count('==')} pins")


if __name__ == "__main__":
    main()
