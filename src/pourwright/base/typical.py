"""The typical value of a declared field, where nobody measured."""

from __future__ import annotations

from typing import Any

from pourwright.base.draws import Doubt
from pourwright.base.field import fields_of


def doubt_of(record: type[Any], name: str) -> Doubt:
    """What stands in for a field left out. Raises: TypeError for one that must be given."""
    doubt = next(f.spec.doubt for f in fields_of(record) if f.name == name)
    if doubt is None:
        raise TypeError(f"{name} has no typical value")
    return doubt


def given_or_typical(record: object, name: str) -> float:
    """A field as it was entered, else its typical value. Raises: as `doubt_of`."""
    given = getattr(record, name)
    return float(doubt_of(type(record), name).band.typical if given is None else given)


def all_typical(record: object) -> dict[str, float]:
    """Every field of a record that may go unmeasured, as entered or typical, by name."""
    return {
        f.name: given_or_typical(record, f.name) for f in fields_of(type(record)) if f.spec.doubt
    }
