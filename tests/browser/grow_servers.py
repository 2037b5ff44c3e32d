"""The program of the nursery: it loads everything, and then forks a server for each line it reads.

A line is JSON, the file to print to and the arguments of the command; the answer is the number of
the process.
"""

from __future__ import annotations

import json
import os
import signal
import sys
import traceback
from pathlib import Path
from typing import NoReturn

import pourwright.web.app
import pourwright.wire  # noqa: F401
from pourwright.cli.main import main as command


def main() -> None:
    """Let servers grow until nobody is left to ask."""
    signal.signal(signal.SIGCHLD, signal.SIG_IGN)
    for line in sys.stdin:
        printed, *arguments = json.loads(line)
        pid = os.fork()
        if not pid:
            _serve(Path(printed), arguments)
        sys.stdout.write(f"{pid}\n")
        sys.stdout.flush()


def _serve(printed: Path, arguments: list[str]) -> NoReturn:
    """Be a server until it ends, and never come back."""
    signal.signal(signal.SIGCHLD, signal.SIG_DFL)
    out = os.open(printed, os.O_WRONLY | os.O_CREAT | os.O_APPEND)
    for opened, end in ((os.open(os.devnull, os.O_RDONLY), 0), (out, 1), (out, 2)):
        os.dup2(opened, end)
    try:
        command(arguments, standalone_mode=False)
    except BaseException:  # noqa: BLE001
        traceback.print_exc()
    finally:
        sys.stdout.flush()
        sys.stderr.flush()
        os._exit(0)


if __name__ == "__main__":
    main()
