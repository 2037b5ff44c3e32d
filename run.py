#!/usr/bin/env python3
"""Set Pourwright up beside this file, then start it. Needs Python 3.11 or newer, nothing else.

python3 run.py [--demo] [--port N] [--store FILE] [--no-browser]   start the bench
python3 run.py --phone [--phone-port N] [--plain]                  start it for phones as well
python3 run.py tests                                               everything CI runs
python3 run.py speed                                               timings
python3 run.py calc --list                                         any pourwright command
"""

# Kept to what Python 3.6 can read and run up to the first check, so that an old one can say so.

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
    # Browser tests measure clocks and mostly wait, so they run apart from what reckons, and more
    # of them at once than there are cores.
    ("pytest", "-n", "auto", "-m", "not browser"),
    # Their folder is named so that none of them gathers every other test first.
    ("pytest", "-n", "5", "--dist", "loadfile", "--no-loadscope-reorder", "tests/browser"),
)


def main(arguments: "list[str]") -> int:
    """Set up what is missing, then hand over."""
    if sys.version_info < OLDEST:
        sys.exit(
            "Pourwright needs Python 3.11 or newer and this is Python {}.{}: install a newer one "
            "and start run.py with that.".format(*sys.version_info[:2])
        )
    word = arguments[0] if arguments else ""
    if word in ("-h", "--help"):
        print((__doc__ or "").strip())
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
    """Run every check, the tests last, and say which of them failed."""
    failed = []
    for command, *more in CHECKS:
        line = " ".join([command, *more])
        print(f"\n== {line}", flush=True)
        if subprocess.call([str(scripts(root) / command), *more], cwd=str(root)):
            failed.append(line)
    if failed:
        print(f"\nFailed: {', '.join(failed)}")
    return 1 if failed else 0


def hand_over(command: "list[str]") -> int:
    """Become that command; Windows has no such thing, so there it is waited for."""
    if os.name != "nt":
        os.execv(command[0], command)
    with subprocess.Popen(command) as child:
        while True:
            try:
                return child.wait()
            except KeyboardInterrupt:  # the child heard it too, and is putting things away
                continue


def settle(root: Path, lock: str) -> None:
    """Make .venv hold what the lock file names, unless it already does.

    Its mark names the Python, the place and the lock file's digest. A set-up cut short leaves
    a mark without a digest, so that it is begun afresh, as after a move or with another Python.
    """
    folder = root / ".venv"
    place = f"{sys.implementation.cache_tag} {folder}\n"
    held = _held(folder)
    whole = held.startswith(place) and held != place and Path(python(root)).exists()
    done = place + _digest(root, lock)
    if whole and held in (done, place + _digest(root, DEV)):
        return
    print("Setting up .venv: once, and a minute at most ...", file=sys.stderr, flush=True)
    try:
        if whole:
            _write(folder / MARK, place)
        else:
            _lay_empty(folder, place)
        trouble = _install(root, lock)
        if trouble:
            if whole:
                _write(folder / MARK, held)  # pip takes back what it could not finish
            sys.exit(f"{trouble} What pip said is in {folder / LOG}.")
        _write(folder / MARK, done)
    except KeyboardInterrupt:
        sys.exit("The set-up was stopped; the next start begins it again.")
    except OSError as error:
        sys.exit(
            f"The set-up could not write its files ({error}): see that the disk has room and "
            "that no other Pourwright is running, then start again."
        )


def _held(folder: Path) -> str:
    if not folder.exists() or not any(folder.iterdir()):
        return ""
    try:
        return (folder / MARK).read_text(encoding="utf-8")
    except FileNotFoundError:
        sys.exit(
            "The folder .venv here was not made by run.py: move it away or delete it, and "
            "start again."
        )


def _digest(root: Path, lock: str) -> str:
    return hashlib.sha256((root / "lock" / lock).read_bytes()).hexdigest()


def _write(file: Path, text: str) -> None:
    new = file.with_name(file.name + ".new")
    new.write_text(text, encoding="utf-8")
    new.replace(file)


def _lay_empty(folder: Path, mark: str) -> None:
    try:
        # Debian splits ensurepip off, and venv without it makes an environment that has no pip.
        import ensurepip  # noqa: F401, PLC0415
        import venv  # noqa: PLC0415
    except ImportError:
        sys.exit(
            "This Python lacks its venv module; on Debian or Ubuntu: sudo apt install "
            "python{}.{}-venv".format(*sys.version_info[:2])
        )
    if folder.exists():
        shutil.rmtree(str(folder))
    folder.mkdir()
    _write(folder / MARK, mark)
    try:
        venv.create(str(folder), with_pip=True, symlinks=os.name != "nt")
    except subprocess.CalledProcessError as error:
        sys.exit(f"Python's venv module could not make an environment: {error}")


def _install(root: Path, lock: str) -> str:
    """Install the lock file and the house itself; the answer says what went wrong, if anything."""
    said = _pip(
        root, "--require-hashes", "--only-binary", ":all:", "-r", str(root / "lock" / lock)
    ) or _pip(root, "--no-deps", "--no-index", str(_signpost(root)))
    if "DO NOT MATCH THE HASHES" in said:
        return (
            "A package that came is not the one the lock file names, so nothing was installed: "
            "something between here and the package index changes what passes."
        )
    if "Retrying" in said or "Connection" in said:
        return "The packages could not be fetched: the first start needs the network, later not."
    return said and "A package could not be installed on this Python and system."


def _pip(root: Path, *what: str) -> str:
    """What pip said if it failed, otherwise nothing."""
    command = [python(root), "-m", "pip", "install", "--disable-pip-version-check", "--no-input"]
    ran = subprocess.run(
        [*command, "--retries", "2", *what],
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        check=False,
    )
    said = ran.stdout.decode("utf-8", "replace")
    (root / ".venv" / LOG).write_text(said, encoding="utf-8")
    return said if ran.returncode else ""


def _signpost(root: Path) -> Path:
    """A wheel that only points at src, from which pip lays the commands as this system needs.

    Wheel and entry-point formats: Python Packaging User Guide, "Binary distribution format"
    and "Entry points specification".
    """
    import sysconfig  # noqa: PLC0415
    import tomllib  # noqa: PLC0415
    import zipfile  # noqa: PLC0415

    about = tomllib.loads((root / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    title = f"{about['name']}-{about['version']}"
    info = f"{title}.dist-info"
    site = sysconfig.get_path("purelib", "venv", {"base": str(root / ".venv")})
    # A .pth file is read in the locale's encoding, so it must not hold the name of a home folder.
    files = {
        f"{about['name']}.pth": os.path.relpath(str(root / "src"), site) + "\n",
        f"{info}/METADATA": "Metadata-Version: 2.1\nName: {name}\nVersion: {version}\n".format(
            **about
        ),
        f"{info}/WHEEL": "Wheel-Version: 1.0\nRoot-Is-Purelib: true\nTag: py3-none-any\n",
        f"{info}/entry_points.txt": "[console_scripts]\n"
        + "".join(f"{command} = {target}\n" for command, target in about["scripts"].items()),
    }
    files[f"{info}/RECORD"] = "".join(f"{name},,\n" for name in (*files, f"{info}/RECORD"))
    wheel = root / ".venv" / f"{title}-py3-none-any.whl"
    with zipfile.ZipFile(str(wheel), "w") as archive:
        for name, text in files.items():
            archive.writestr(name, text)
    return wheel


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
