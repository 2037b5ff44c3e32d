#!/usr/bin/env python3
"""Set Pourwright up beside this file, then start it. Needs Python 3.11 or newer, nothing else.

python3 run.py [--demo] [--port N] [--store FILE] [--no-browser]   start the bench
python3 run.py tests                                               everything the check runs
python3 run.py speed                                               timings
python3 run.py calc --list                                         any pourwright command
"""

# Written in the grammar of Python 3.6, so that an old Python can say that it is too old.

import base64
import hashlib
import os
import shutil
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent
OLDEST = (3, 11)
RUNTIME = "runtime.lock"
DEV = "dev.lock"  # holds every line of runtime.lock as well
MARK = "set-up.txt"
LOG = "set-up.log"
CHECKS = (
    ("ruff", "format", "--check", "."),
    ("ruff", "check", "."),
    ("mypy",),
    ("lint-imports",),
    ("codespell", "."),
    ("pytest",),
)


def main(arguments: "list[str]") -> int:
    """Set up what is missing, then hand over."""
    if sys.version_info < OLDEST:
        found = "{}.{}".format(*sys.version_info[:2])
        sys.exit(
            f"Pourwright needs Python 3.11 or newer and this is Python {found}: install a newer "
            "one and start run.py with that."
        )
    word = arguments[0] if arguments else ""
    if word in ("-h", "--help"):
        print(__doc__.strip())
        return 0
    if word == "tests":
        settle(ROOT, DEV)
        return check(ROOT)
    if word == "speed":
        settle(ROOT, DEV)
        return hand_over([python(ROOT), str(ROOT / "speed" / "run.py"), *arguments[1:]])
    settle(ROOT, RUNTIME)
    if not word or word.startswith("-"):
        arguments = ["start", *arguments]
    return hand_over([python(ROOT), "-m", "pourwright.cli.main", *arguments])


def scripts(root: Path) -> Path:
    """The folder of the environment's commands."""
    return root / ".venv" / ("Scripts" if os.name == "nt" else "bin")


def python(root: Path) -> str:
    """The environment's interpreter."""
    return str(scripts(root) / ("python.exe" if os.name == "nt" else "python"))


def check(root: Path) -> int:
    """Run every check and say which of them failed; the tests come last."""
    failed = []
    for command, *more in CHECKS:
        line = " ".join([command, *more])
        print(f"\n== {line}", flush=True)
        if subprocess.call([str(scripts(root) / command), *more], cwd=str(root)):
            failed.append(line)
    if failed:
        print(f"\nFailed: {'; '.join(failed)}")
    return 1 if failed else 0


def hand_over(command: "list[str]") -> int:
    """Become that command; Windows cannot, so there it is waited for."""
    if os.name != "nt":
        os.execv(command[0], command)
    with subprocess.Popen(command) as child:
        while True:
            try:
                return child.wait()
            except KeyboardInterrupt:  # the child got it too and is saying goodbye
                continue


def settle(root: Path, lock: str) -> None:
    """Make the environment hold what the lock file names, if it does not already.

    The mark is written last and names the Python, the place and the lock file, so a set-up
    that was cut short, a moved folder, another Python or a changed lock are all put right.
    """
    folder = root / ".venv"
    place = f"{sys.implementation.cache_tag} {folder}\n"
    held = _held(folder)
    if Path(python(root)).exists():
        if held in (place + _digest(root, lock), place + _digest(root, DEV)):
            return
        whole = held.startswith(place) and held != place
    else:
        whole = False
    print("Setting Pourwright up in .venv; this happens once and takes a minute at most.", flush=True)
    try:
        _begin(folder, place, whole=whole)
        _install(root, lock, whole=whole)
        _write(folder / MARK, place + _digest(root, lock))
    except KeyboardInterrupt:
        sys.exit("The set-up was stopped; the next start does it again.")
    except OSError as error:
        sys.exit(
            f"The set-up could not write its files ({error}): end any Pourwright that is still "
            "running, see that the disk has room, and start again."
        )


def _held(folder: Path) -> str:
    if not folder.exists() or not any(folder.iterdir()):
        return ""
    try:
        return (folder / MARK).read_text(encoding="utf-8")
    except FileNotFoundError:
        sys.exit(
            "The folder .venv here was not made by run.py: move it away or delete it, "
            "then start again."
        )


def _digest(root: Path, lock: str) -> str:
    return hashlib.sha256((root / "lock" / lock).read_bytes()).hexdigest()


def _write(file: Path, text: str) -> None:
    new = file.with_name(file.name + ".new")
    new.write_text(text, encoding="utf-8")
    new.replace(file)


def _begin(folder: Path, place: str, *, whole: bool) -> None:
    """Lay an empty environment, or keep a whole one, under a mark that says `unfinished`."""
    if whole:
        _write(folder / MARK, place)
        return
    try:
        import ensurepip  # noqa: F401, PLC0415  Debian ships venv without its better half
        import venv  # noqa: PLC0415  slow to import, and needed once
    except ImportError:
        sys.exit(
            "This Python has no venv module; on Debian or Ubuntu run: sudo apt install "
            "python{}.{}-venv".format(*sys.version_info[:2])
        )
    if folder.exists():
        shutil.rmtree(str(folder))
    folder.mkdir()
    _write(folder / MARK, place)
    venv.create(str(folder), with_pip=True, symlinks=os.name != "nt")


def _install(root: Path, lock: str, *, whole: bool) -> None:
    folder = root / ".venv"
    before = (folder / MARK).read_text(encoding="utf-8")
    lines = ("--require-hashes", "--only-binary", ":all:", "-r", str(root / "lock" / lock))
    for what in (lines, ("--no-deps", "--no-index", str(_signpost(root)))):
        said = _pip(root, what)
        if said is not None:
            sys.exit(_why(said))
