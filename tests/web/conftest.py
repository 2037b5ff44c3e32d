"""A bench without anything, and one with everything."""

from __future__ import annotations

import pytest

from ready_store import demo_bench, empty_bench


@pytest.fixture
def empty_world(tmp_path):
    return empty_bench(tmp_path)


@pytest.fixture
def full_world(tmp_path):
    folder = tmp_path / "full"
    folder.mkdir()
    return demo_bench(folder)
