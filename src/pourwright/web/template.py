"""Templates: escaped by default, and loud about any name they do not know."""

from __future__ import annotations

import functools
from collections.abc import Mapping
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined

import pourwright
from pourwright.web import show

FOLDER = Path(__file__).with_name("templates")


@functools.cache
def environment() -> Environment:
    """The one template environment, with the filters of `show`."""
    found = Environment(
        loader=FileSystemLoader(FOLDER),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    found.filters.update(show.FILTERS)
    found.globals["version"] = pourwright.__version__
    return found


def rendered(name: str, values: Mapping[str, object]) -> str:
    """A template filled in."""
    return environment().get_template(name).render(values)
