"""What others made and we ship is still what they made, with its license beside it."""

from __future__ import annotations

import hashlib
import json
from pathlib import Path

import pytest
from reportlab.pdfbase.ttfonts import TTFontFile

STATIC = Path(__file__).parents[2] / "src" / "pourwright" / "web" / "static"
LISTS = sorted(STATIC.rglob("vendored.json"))
TYPE = STATIC / "type"
# What the pages and the sheet write beyond ASCII.
SIGNS = "°±×÷−–—½¼¾⅛⅜⅝⅞→←↑↓≤≥≈≠²³₂µμΔΩ·•…“”‘’′″✓€£¥√"


def faults(folder: Path) -> list[str]:
    """What differs between a vendored folder and the list in it."""
    listed = json.loads((folder / "vendored.json").read_text(encoding="utf-8"))
    wanted = {name: file["sha256"] for name, file in listed["files"].items()}
    found = {
        file.relative_to(folder).as_posix(): hashlib.sha256(file.read_bytes()).hexdigest()
        for file in folder.rglob("*")
        if file.is_file() and file.name != "vendored.json"
    }
    told = [f"{key} is missing" for key in ("name", "version", "license") if not listed.get(key)]
    if not any(name.startswith("LICENSE") for name in wanted):
        told.append("no license file is listed")
    return told + [
        f"{name}: listed {wanted.get(name)}, found {found.get(name)}"
        for name in sorted(wanted.keys() | found.keys())
        if wanted.get(name) != found.get(name)
    ]


@pytest.mark.parametrize("folder", [file.parent for file in LISTS], ids=lambda f: f.name)
def test_every_vendored_file_is_unchanged_and_listed(folder):
    assert faults(folder) == []


def test_type_scripts_and_styles_of_others_are_in_a_listed_folder():
    foreign = {".ttf", ".otf", ".woff", ".woff2"}
    folders = [file.parent for file in LISTS]
    loose = [
        file.name
        for file in STATIC.parent.parent.rglob("*")
        if (file.suffix in foreign or file.name.endswith((".min.js", ".min.css")))
        and not any(folder in file.parents for folder in folders)
    ]
    assert TYPE in folders
    assert loose == []


@pytest.mark.parametrize("change", ["one byte", "stray file", "lost file", "lost license"])
def test_a_change_is_noticed(tmp_path, change):
    digest = hashlib.sha256(b"whole").hexdigest()
    files = {"a.js": {"sha256": digest}, "LICENSE.txt": {"sha256": digest}}
    for name in files:
        (tmp_path / name).write_bytes(b"whole")
    match change:
        case "one byte":
            (tmp_path / "a.js").write_bytes(b"hole")
        case "stray file":
            (tmp_path / "b.js").write_bytes(b"whole")
        case "lost file":
            (tmp_path / "a.js").unlink()
        case "lost license":
            (tmp_path / "LICENSE.txt").unlink()
            del files["LICENSE.txt"]
    listed = {"name": "A", "version": "1", "license": "MIT", "files": files}
    (tmp_path / "vendored.json").write_text(json.dumps(listed), encoding="utf-8")
    assert len(faults(tmp_path)) == 1


@pytest.mark.parametrize("weight", ["regular", "bold"])
def test_figures_stand_in_columns_and_no_sign_is_an_empty_box(weight):
    face = TTFontFile(str(TYPE / f"{weight}.ttf"))
    assert len({face.charWidths[ord(digit)] for digit in "0123456789"}) == 1
    assert [sign for sign in SIGNS if ord(sign) not in face.charToGlyph] == []
