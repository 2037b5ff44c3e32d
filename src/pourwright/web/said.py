"""A refusal as a page says it: by the label of the field, not by its name."""

from __future__ import annotations

from pourwright.base.errors import BadInput, PourwrightError
from pourwright.base.field import fields_of


def said(error: PourwrightError, *records: type[object]) -> str:
    """The words of an error; `records` are those whose fields it may name."""
    if not isinstance(error, BadInput):
        return str(error)
    name = error.field.rpartition(".")[2].partition("[")[0]
    labels = {f.name: f.label for record in records for f in fields_of(record)}
    return f"{labels.get(name, name.replace('_', ' ').capitalize())}: {error.why}"
