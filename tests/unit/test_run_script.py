"""The first command: it sets itself up once, mends itself, and says plainly what is wrong."""

from __future__ import annotations

import ast
import base64
import hashlib
import importlib.util
import os
import subprocess
import sys
import zipfile
from pathlib import Path
from types import SimpleNamespace

import pytest

ROOT = Path(__file__).parents[2]
SCRIPT = ROOT / "run.py"
PYPROJECT = """
[project]
name = "pourwright"
version = "0.0.7"
scripts = {pourwright = "pourwright.cli.main:main"}
"""
MAIN = """
import sys

def main():
    import brick
    print(brick.__doc__, *sys.argv[1:])

if __name__ == "__main__":
    main()
"""


@pytest.fixture
def run():
    spec = importlib.util.spec_from_file_location("run_script", SCRIPT)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_an_old_python_can_read_the_script():
    tree = ast.parse(SCRIPT.read_text(encoding="utf-8"), feature_version=(3, 6))
    futures = [
        node
        for node in ast.walk(tree)
        if isinstance(node, ast.ImportFrom) and node.module == "__future__"
    ]
    assert futures == []


def test_an_old_python_is_told_so(run, monkeypatch):
    old = SimpleNamespace(version_info=(3, 9, 2), exit=sys.exit)
    monkeypatch.setattr(run, "sys", old)
    with pytest.raises(SystemExit, match=r"needs Python 3\.11 or newer and this is Python 3\.9:"):
        run.main([])


def test_help_needs_no_set_up(run, monkeypatch, capsys):
    monkeypatch.setattr(run, "settle", None)
    assert run.main(["--help"]) == 0
    assert "run.py tests" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("typed", "lock", "handed"),
    [
        ([], "runtime.lock", ["-m", "pourwright.cli.main", "start"]),
        (["--demo"], "runtime.lock", ["-m", "pourwright.cli.main", "start", "--demo"]),
        (["calc", "--list"], "runtime.lock", ["-m", "pourwright.cli.main", "calc", "--list"]),
        (["speed"], "dev.lock", [str(ROOT / "speed" / "run.py")]),
    ],
)
def test_what_is_typed_goes_to_the_right_program(run, monkeypatch, typed, lock, handed):
    settled = []
    monkeypatch.setattr(run, "settle", lambda _root, lock: settled.append(lock))
    monkeypatch.setattr(run, "hand_over", lambda command: command)
    assert run.main(typed) == [run.python(ROOT), *handed]
    assert settled == [lock]


def test_one_failed_check_fails_the_run_and_the_others_still_run(run, monkeypatch, capsys):
    ran = []

    def call(command, cwd):
        assert cwd == str(ROOT)
        ran.append(Path(command[0]).name)
        return int(ran[-1] == "mypy")

    monkeypatch.setattr(run.subprocess, "call", call)
    assert run.check(ROOT) == 1
    assert ran == ["ruff", "ruff", "mypy", "lint-imports", "codespell", "pytest", "pytest"]
    assert capsys.readouterr().out.endswith("Failed: mypy\n")


def test_a_missing_venv_module_names_the_package(run, monkeypatch, tmp_path):
    monkeypatch.setitem(sys.modules, "ensurepip", None)
    house(tmp_path)
    with pytest.raises(SystemExit, match=r"sudo apt install python3\.\d+-venv$"):
        run.settle(tmp_path, "runtime.lock")
    assert not (tmp_path / ".venv").exists()


def test_an_environment_of_someone_else_is_left_alone(run, tmp_path):
    house(tmp_path)
    (tmp_path / ".venv").mkdir()
    (tmp_path / ".venv" / "pyvenv.cfg").write_text("home = elsewhere")
    with pytest.raises(SystemExit, match=r"\.venv here was not made by run\.py"):
        run.settle(tmp_path, "runtime.lock")
    assert (tmp_path / ".venv" / "pyvenv.cfg").read_text() == "home = elsewhere"


def test_the_set_up_from_nothing_to_mended(tmp_path):
    """One story, since each environment takes seconds: no network, real venv, real pip."""
    root = tmp_path / "a house with spaces, é"
    root.mkdir()
    house(root)
    assert said(root, "hello") == "brick 1.0 hello"
    laid = str(laid_command(root))
    assert subprocess.check_output([laid, "direct"], text=True).strip() == "brick 1.0 direct"

    mark = root / ".venv" / "set-up.txt"
    first = mark.stat().st_mtime_ns
    assert said(root, "again") == "brick 1.0 again"
    assert mark.stat().st_mtime_ns == first

    whole = mark.read_text(encoding="utf-8")
    lock(root, "2.0", digest="0" * 64)
    assert "not the one the lock file names" in refused(root)
    lock(root, "3.0", digest="0" * 64, made="2.0")
    assert "could not be installed" in refused(root)
    assert mark.read_text(encoding="utf-8") == whole
    lock(root, "1.0")
    assert said(root, "kept") == "brick 1.0 kept"
    lock(root, "2.0")
    assert said(root, "renewed") == "brick 2.0 renewed"

    mark.write_text(mark.read_text(encoding="utf-8").splitlines(keepends=True)[0], encoding="utf-8")
    (root / ".venv" / "half-done").touch()
    assert said(root, "mended") == "brick 2.0 mended"
    assert not (root / ".venv" / "half-done").exists()


def test_the_test_environment_serves_the_bench_too(run, tmp_path, monkeypatch):
    house(tmp_path)
    command = Path(run.python(tmp_path))
    command.parent.mkdir(parents=True)
    command.touch()
    made = []

    def pip(_root: Path, *what: str) -> str:
        made.append(what[-1])
        return ""

    monkeypatch.setattr(run, "_pip", pip)
    mark = tmp_path / ".venv" / "set-up.txt"
    mark.write_text(
        f"{sys.implementation.cache_tag} {mark.parent}\nan older lock", encoding="utf-8"
    )
    run.settle(tmp_path, "dev.lock")
    run.settle(tmp_path, "runtime.lock")
    assert made == [
        str(tmp_path / "lock" / "dev.lock"),
        str(mark.with_name("pourwright-0.0.7-py3-none-any.whl")),
    ]


def test_no_network_is_told_so(tmp_path):
    house(tmp_path)
    nowhere = {"PIP_NO_INDEX": "0", "PIP_INDEX_URL": "http://127.0.0.1:9", "PIP_FIND_LINKS": ""}
    assert "could not be fetched" in refused(tmp_path, **nowhere)


def test_the_test_environment_holds_every_pin_of_the_runtime():
    runtime, dev = (
        {row for row in (ROOT / "lock" / name).read_text().splitlines() if not row.startswith(" ")}
        for name in ("runtime.lock", "dev.lock")
    )
    assert any(row.startswith("numpy==") for row in runtime)
    assert runtime <= dev


@pytest.mark.parametrize("name", ["runtime.lock", "dev.lock"])
def test_a_lock_file_has_checksums_and_names_no_address(name):
    text = (ROOT / "lock" / name).read_text(encoding="utf-8")
    assert "://" not in text
    for pin in text.split("\n")[0:-1]:
        assert pin.startswith("    ") or pin.endswith(" \\")
    assert text.count(" \\\n    --hash=sha256:") >= text.count("==")


def house(root: Path) -> None:
    """The least that run.py can set up: one package to install, one command to hand over to."""
    (root / "run.py").write_bytes(SCRIPT.read_bytes())
    (root / "pyproject.toml").write_text(PYPROJECT, encoding="utf-8")
    cli = root / "src" / "pourwright" / "cli"
    cli.mkdir(parents=True)
    (cli / "main.py").write_text(MAIN, encoding="utf-8")
    (root / "lock").mkdir()
    lock(root, "1.0")
    (root / "lock" / "dev.lock").write_text("# nothing more\n", encoding="utf-8")


def lock(root: Path, version: str, *, made: str | None = None, digest: str | None = None) -> None:
    """Lay a wheel of the package `brick` beside the lock file that pins it."""
    file = root / f"brick-{made or version}-py3-none-any.whl"
    info = f"brick-{made or version}.dist-info"
    files = {
        "brick.py": f'"brick {made or version}"\n',
        f"{info}/METADATA": f"Metadata-Version: 2.1\nName: brick\nVersion: {made or version}\n",
        f"{info}/WHEEL": "Wheel-Version: 1.0\nRoot-Is-Purelib: true\nTag: py3-none-any\n",
    }
    rows = [
        f"{name},sha256={base64.urlsafe_b64encode(hashlib.sha256(text.encode()).digest()).decode()}"
        f",{len(text)}"
        for name, text in files.items()
    ]
    with zipfile.ZipFile(file, "w") as wheel:
        for name, text in files.items():
            wheel.writestr(zipfile.ZipInfo(name), text)
        wheel.writestr(zipfile.ZipInfo(f"{info}/RECORD"), "\n".join([*rows, f"{info}/RECORD,,"]))
    digest = digest or hashlib.sha256(file.read_bytes()).hexdigest()
    pin = f"brick=={version} \\\n    --hash=sha256:{digest}\n"
    (root / "lock" / "runtime.lock").write_text(pin, encoding="utf-8")


def laid_command(root: Path) -> Path:
    folder, file = ("Scripts", "pourwright.exe") if os.name == "nt" else ("bin", "pourwright")
    return root / ".venv" / folder / file


def started(root: Path, *words: str, **settings: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, root / "run.py", *words],
        env=os.environ
        | {"PYTHONUTF8": "1", "PIP_NO_INDEX": "1", "PIP_FIND_LINKS": root.as_uri()}
        | settings,
        capture_output=True,
        encoding="utf-8",
        check=False,
    )


def said(root: Path, *words: str) -> str:
    told = started(root, *words)
    assert told.returncode == 0, told.stdout + told.stderr
    return told.stdout.strip()


def refused(root: Path, **settings: str) -> str:
    """The one sentence of a failed set-up."""
    told = started(root, "hello", **settings)
    assert told.returncode == 1
    assert "Traceback" not in told.stderr
    return told.stderr.splitlines()[-1]
