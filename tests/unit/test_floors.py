"""The floor plan of the house holds, and the guard over it is awake."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
LINT = Path(sys.executable).with_name("lint-imports")


def lint(root: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [LINT, "--no-cache", "--config", root / "pyproject.toml"],
        cwd=root,
        env=os.environ | {"PYTHONPATH": str(root / "src"), "COLUMNS": "200"},
        capture_output=True,
        encoding="utf-8",
        check=False,
    )


def test_every_contract_is_kept():
    told = lint(ROOT)
    assert told.returncode == 0, told.stdout + told.stderr
    assert "5 kept, 0 broken" in told.stdout


@pytest.fixture(scope="module")
def copied_house(tmp_path_factory):
    root = tmp_path_factory.mktemp("house")
    shutil.copy(ROOT / "pyproject.toml", root)
    shutil.copytree(ROOT / "src", root / "src", ignore=shutil.ignore_patterns("__pycache__"))
    return root


@pytest.mark.parametrize(
    ("file", "line", "contract", "named"),
    [
        ("base/units.py", "import pourwright.shop.money", "One-way floors", "base.units"),
        ("heat/cup.py", "import pourwright.fill.shot", "One-way floors", "heat.cup"),
        ("attic/__init__.py", "", "One-way floors", "attic"),
        ("shop/money.py", "import sqlite3", "Kernels, nouns and use-cases", "shop.money"),
        ("web/app.py", "import pourwright.store", "Only wire", "web.app"),
    ],
    ids=["upward", "sideways", "undeclared room", "database below", "adapter from a page"],
)
def test_a_planted_import_is_refused(copied_house, file, line, contract, named):
    planted = copied_house / "src" / "pourwright" / file
    before = planted.read_text(encoding="utf-8") if planted.exists() else None
    planted.parent.mkdir(exist_ok=True)
    planted.write_text(f"{before or ''}\n{line}\n", encoding="utf-8")
    told = lint(copied_house)
    if before is None:
        shutil.rmtree(planted.parent)
    else:
        planted.write_text(before, encoding="utf-8")
    assert told.returncode == 1, told.stdout + told.stderr
    kept_or_broken, _, reasons = told.stdout.partition("Broken contracts")
    broken = [row for row in kept_or_broken.splitlines() if row.endswith("BROKEN")]
    assert any(row.startswith(contract) for row in broken)
    assert named in reasons
