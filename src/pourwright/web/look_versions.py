"""The versions of a look, laid out for its page."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.look_version import LookVersion, look_versions
from pourwright.actions.port import Bench, Stored
from pourwright.web.difference import Difference, differences
from pourwright.web.local_time import day_of
from pourwright.web.look_picture import SMALL_PX, rows_of
from pourwright.web.names import Names
from pourwright.web.show import Settings


@dataclass(frozen=True, slots=True)
class VersionView:
    """One version; `picture` is the address of its small picture, empty where none is drawn."""

    number: int
    at: str
    when: str
    newest: bool
    altered: tuple[Difference, ...]
    picture: str
    wide: int = SMALL_PX
    high: int = rows_of(SMALL_PX)


def version_views(
    bench: Bench, stored: Stored, picture: str, settings: Settings
) -> tuple[VersionView, ...]:
    """Newest first; `picture` is the address of the look's picture with room for a version."""
    names = Names(bench)
    newest = stored.version
    return tuple(
        _view(it, newest, picture, settings, names)
        for it in reversed(look_versions(bench, stored.id))
    )


def _view(
    it: LookVersion, newest: int, picture: str, settings: Settings, names: Names
) -> VersionView:
    altered = () if it.before is None else differences(it.before, it.look, settings, names.name_of)
    address = f"{picture}&version={it.number}" if picture else ""
    when = day_of(it.at)
    return VersionView(it.number, it.at, when, it.number == newest, altered, address)
