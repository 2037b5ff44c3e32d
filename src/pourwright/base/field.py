"""One description of an entered value, shared by check, form, JSON, command line and docs."""

from __future__ import annotations

import dataclasses
import functools
import math
import types
import typing
from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum
from typing import Any, Literal

from pourwright.base.band import Band
from pourwright.base.draws import Doubt
from pourwright.base.kind import Kinds
from pourwright.base.mesh import Mesh
from pourwright.base.picture import Picture
from pourwright.base.units import Unit, unit_of

Shape = Literal[
    "number", "whole", "text", "flag", "pick", "record", "kind", "list", "band", "file"
]  # fmt: skip


@dataclass(frozen=True, slots=True)
class Spec:
    """What a value means and which values make sense."""

    help: str
    label: str = ""
    low: float = -math.inf
    high: float = math.inf
    least: int = 0
    most: int = 200
    doubt: Doubt | None = None
    kinds: Kinds[Any] | None = None
    refers: str = ""
    pattern: str = ""
    share: bool = False


@dataclass(frozen=True, slots=True)
class Field:
    """A declared field of a record: its name, shape and what is known of it."""

    name: str
    shape: Shape
    type: Any
    optional: bool
    spec: Spec
    default: object

    @property
    def required(self) -> bool:
        """Whether leaving the field out is refused."""
        return self.default is dataclasses.MISSING

    @property
    def unit(self) -> Unit | None:
        """The unit its name ends in."""
        return unit_of(self.name) if self.shape in {"number", "whole", "band"} else None

    @property
    def label(self) -> str:
        """Words for a form: given, or made from the name without its unit."""
        if self.spec.label:
            return self.spec.label
        bare = self.name.removesuffix(f"_{self.unit.key}") if self.unit else self.name
        return bare.replace("_", " ").capitalize()


def _declare(spec: Spec, default: object, factory: Callable[[], object] | None = None) -> Any:
    if factory is not None:
        return dataclasses.field(default_factory=factory, metadata={"spec": spec})
    return dataclasses.field(default=default, metadata={"spec": spec})


def number(
    help: str, *, low: float, high: float, default: Any = dataclasses.MISSING, label: str = ""
) -> Any:
    """A number between two limits; the unit is the ending of the field's name."""
    return _declare(Spec(help, label=label, low=low, high=high), default)


def share(
    help: str, *, low: float, high: float, default: Any = dataclasses.MISSING, label: str = ""
) -> Any:
    """A number kept from 0 to 1, which people read and type in percent."""
    return _declare(Spec(help, label=label, low=low, high=high, share=True), default)


def unmeasured(
    help: str,
    *,
    low: float,
    high: float,
    typical: tuple[float, float, float],
    measure: str = "",
    label: str = "",
    logarithmic: bool = False,
) -> Any:
    """A number that may be left out: its typical band (5 %, middle, 95 %) then stands in.

    `measure` says, as an order, which cheap bench measurement would replace the guess.
    """
    doubt = Doubt(label or help, Band(*typical), measure, logarithmic)
    return _declare(Spec(help, label=label, low=low, high=high, doubt=doubt), None)


def text(
    help: str,
    *,
    most: int = 80,
    default: Any = dataclasses.MISSING,
    label: str = "",
    pattern: str = "",
) -> Any:
    """A line of words."""
    least = 1 if default is dataclasses.MISSING else 0
    return _declare(Spec(help, label=label, least=least, most=most, pattern=pattern), default)


def pick(help: str, *, default: Any = dataclasses.MISSING, label: str = "") -> Any:
    """One of an enumeration's words."""
    return _declare(Spec(help, label=label), default)


def flag(help: str, *, default: bool = False, label: str = "") -> Any:
    """Yes or no."""
    return _declare(Spec(help, label=label), default)


def reference(
    help: str, *, refers: str, default: Any = dataclasses.MISSING, label: str = ""
) -> Any:
    """The id of a stored record of the named sort; empty where that is allowed."""
    least = 1 if default is dataclasses.MISSING else 0
    return _declare(Spec(help, label=label, least=least, most=64, refers=refers), default)


def part(help: str, *, default: Any = dataclasses.MISSING, label: str = "") -> Any:
    """A record within a record."""
    return _declare(Spec(help, label=label), default)


def kind(
    help: str, kinds: Kinds[Any], *, default: Any = dataclasses.MISSING, label: str = ""
) -> Any:
    """A record of one of several kinds, told apart by its `kind` key."""
    return _declare(Spec(help, label=label, kinds=kinds), default)


def parts(
    help: str,
    *,
    least: int = 0,
    most: int = 200,
    label: str = "",
    low: float = -math.inf,
    high: float = math.inf,
) -> Any:
    """A list of records or numbers; empty unless `least` says otherwise."""
    default: Any = dataclasses.MISSING if least else ()
    return _declare(Spec(help, label=label, least=least, most=most, low=low, high=high), default)


def band(
    help: str, *, low: float, high: float, default: Any = dataclasses.MISSING, label: str = ""
) -> Any:
    """A number or a `{low, typical, high}` object, both ends within the limits."""
    return _declare(Spec(help, label=label, low=low, high=high), default)


def picture(help: str, *, label: str = "") -> Any:
    """A photo; in JSON its PNG or JPEG file as base64."""
    return _declare(Spec(help, label=label), dataclasses.MISSING)


def mesh(help: str, *, default: Any = dataclasses.MISSING, label: str = "") -> Any:
    """A body's skin; in JSON its STL, 3MF or OBJ file as base64."""
    return _declare(Spec(help, label=label), default)


def out(help: str) -> Any:
    """A field of an answer."""
    return dataclasses.field(metadata={"spec": Spec(help)})


def fields_of(record: type[Any]) -> tuple[Field, ...]:
    """Every declared field of a record class, in order."""
    hashable: Any = record
    return _fields_of(hashable)


def takes_file(record: type[Any]) -> bool:
    """Whether a record takes a file, itself or in its parts."""
    return any(
        f.shape == "file" or (f.shape == "record" and takes_file(f.type)) for f in fields_of(record)
    )


@functools.cache
def _fields_of(record: Any) -> tuple[Field, ...]:
    hints = typing.get_type_hints(record)
    return tuple(
        _described(f, hints[f.name]) for f in dataclasses.fields(record) if "spec" in f.metadata
    )


def _described(f: dataclasses.Field[Any], hint: Any) -> Field:
    inner, optional = _without_none(hint)
    spec: Spec = f.metadata["spec"]
    shape, item = _shape(inner, spec)
    default = f.default
    if f.default_factory is not dataclasses.MISSING:
        default = f.default_factory()
    return Field(f.name, shape, item, optional, spec, default)


def _without_none(hint: Any) -> tuple[Any, bool]:
    if typing.get_origin(hint) not in {types.UnionType, typing.Union}:
        return hint, False
    left = [a for a in typing.get_args(hint) if a is not type(None)]
    inner = left[0] if len(left) == 1 else typing.Union[tuple(left)]  # noqa: UP007
    return inner, len(left) < len(typing.get_args(hint))


def _shape(hint: Any, spec: Spec) -> tuple[Shape, Any]:
    simple: dict[Any, Shape] = {
        float: "number",
        int: "whole",
        str: "text",
        bool: "flag",
        Band: "band",
        Picture: "file",
        Mesh: "file",
    }
    if spec.kinds is not None and typing.get_origin(hint) is not tuple:
        return "kind", hint
    if hint in simple:
        return simple[hint], hint
    if typing.get_origin(hint) is tuple:
        return "list", typing.get_args(hint)[0]
    if isinstance(hint, type) and issubclass(hint, Enum):
        return "pick", hint
    if dataclasses.is_dataclass(hint):
        return "record", hint
    raise TypeError(f"no field shape for {hint!r}")
