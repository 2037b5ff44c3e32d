"""Read the export of a bench row by row, so that a large one need not be held twice."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any, NoReturn

from pourwright.actions.port import ExchangeHead, ExchangeRow
from pourwright.base.errors import BadInput

FIELD = "file"
_BLANK = " \t\r\n"


def exchange_file(data: bytes) -> tuple[ExchangeHead, Iterator[ExchangeRow]]:
    """What the file says of itself, and its rows as they are asked for.

    The rows raise too. Raises: BadInput for what is no export, or a broken one.
    """
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise BadInput(FIELD, f"{len(data)} bytes", "is no JSON text in UTF-8") from error
    reader = _Reader(text)
    head = _head(reader)
    return head, _rows(reader)


class _Reader:
    """A place in a JSON text."""

    def __init__(self, text: str) -> None:
        self._text, self._at = text, 0
        self._decode = json.JSONDecoder(parse_constant=self._constant).raw_decode

    def ahead(self, sign: str) -> bool:
        """Pass that sign if it comes next."""
        self._skip()
        found = self._text.startswith(sign, self._at)
        self._at += found
        return found

    def must(self, sign: str) -> None:
        """Pass that sign."""
        if not self.ahead(sign):
            self.broken()

    def value(self) -> Any:
        """Pass a whole value."""
        self._skip()
        try:
            value, self._at = self._decode(self._text, self._at)
        except (ValueError, RecursionError):  # a number of thousands of digits is no decode error
            self.broken()
        return value

    def key(self) -> str:
        """Pass a name and its colon."""
        name = self.value()
        if not isinstance(name, str):
            self.broken()
        self.must(":")
        return name

    def end(self) -> None:
        """Nothing but blanks may follow."""
        self._skip()
        if self._at < len(self._text):
            self.broken()

    def broken(self) -> NoReturn:
        """Refuse the file from here on."""
        if self._at >= len(self._text):
            raise BadInput(FIELD, f"{len(self._text)} characters", "ends in the middle: cut off?")
        found = self._text[self._at : self._at + 20]
        raise BadInput(FIELD, found, f"is no export of a bench, at character {self._at}")

    def _constant(self, name: str) -> NoReturn:
        raise BadInput(FIELD, name, "holds a number that is not finite")

    def _skip(self) -> None:
        while self._at < len(self._text) and self._text[self._at] in _BLANK:
            self._at += 1


def _head(reader: _Reader) -> ExchangeHead:
    """Everything before the tables."""
    said: dict[str, Any] = {}
    reader.must("{")
    while (name := reader.key()) != "tables":
        said[name] = reader.value()
        reader.must(",")
    application, form, schema = (said.get(n) for n in ("application", "format", "schema"))
    if not isinstance(application, str) or type(form) is not int or not isinstance(schema, str):
        raise BadInput(FIELD, said, "is no export of a Pourwright bench")
    return ExchangeHead(application, form, schema)


def _rows(reader: _Reader) -> Iterator[ExchangeRow]:
    reader.must("{")
    while not reader.ahead("}"):
        table = reader.key()
        reader.must("[")
        while not reader.ahead("]"):
            yield ExchangeRow(table, reader.value())
            if not reader.ahead(","):
                reader.must("]")
                break
        if not reader.ahead(","):
            reader.must("}")
            break
    reader.must("}")
    reader.end()
