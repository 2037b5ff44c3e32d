"""A calculation, declared once: from here come its Python, command-line and HTTP faces."""

from __future__ import annotations

import inspect
import typing
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, Generic, TypeVar

from pourwright.base.file import NO_READERS, Readers
from pourwright.base.record import from_json, to_json
from pourwright.base.schema import input_schema, output_schema
from pourwright.base.source import Source

I = TypeVar("I")  # noqa: E741
O = TypeVar("O")  # noqa: E741


@dataclass(frozen=True, slots=True)
class Calculation(Generic[I, O]):
    """A named question with its typed input, typed answer, sources and a worked example."""

    name: str
    purpose: str
    takes: type[I]
    gives: type[O]
    function: Callable[[I], O]
    sources: tuple[Source, ...]
    example: Mapping[str, Any]

    def __call__(self, inputs: I) -> O:
        """The answer to a typed input."""
        return self.function(inputs)

    def answer(self, data: object, readers: Readers = NO_READERS) -> dict[str, Any]:
        """The answer to plain JSON values, as plain JSON values; `readers` open files in them.

        Raises: BadInput for an input that does not fit, NoAnswer where no solution exists.
        """
        inputs = from_json(self.takes, data, readers=readers)
        return typing.cast("dict[str, Any]", to_json(self.function(inputs)))

    def schema(self) -> dict[str, Any]:
        """JSON Schema of input and answer."""
        return {
            "name": self.name,
            "purpose": self.purpose,
            "sources": [str(s) for s in self.sources],
            "input": input_schema(self.takes),
            "output": output_schema(self.gives),
        }


def calculation(
    name: str, *, purpose: str, sources: tuple[Source, ...], example: Mapping[str, Any]
) -> Callable[[Callable[[I], O]], Calculation[I, O]]:
    """Declare the function below as a calculation; its docstring is the long form of `purpose`."""

    def declare(function: Callable[[I], O]) -> Calculation[I, O]:
        hints = typing.get_type_hints(function)
        parameter = next(iter(inspect.signature(function).parameters))
        return Calculation(
            name, purpose, hints[parameter], hints["return"], function, sources, dict(example)
        )

    return declare
