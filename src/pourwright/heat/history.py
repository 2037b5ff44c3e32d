"""What was done to one cup, step by step, as a person or a bench tells it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from pourwright.base.errors import BadInput
from pourwright.base.field import flag, number, pick
from pourwright.base.record import Record
from pourwright.base.units import convert

COLDEST_READ_C, HOTTEST_READ_C = -10.0, 260.0
LEAST_LEFT_G, MOST_HELD_G = 10.0, 3000.0
LONGEST_REST_S = 7200.0


class Did(StrEnum):
    """What a step was."""

    HEATED = "heated"
    RESTED = "rested"
    STIRRED = "stirred"
    READ = "read"
    DRAWN = "drawn"
    ADDED = "added"


class Instrument(StrEnum):
    """What a temperature was read with."""

    INFRARED = "infrared"
    PROBE = "probe"


@dataclass(frozen=True, slots=True, kw_only=True)
class Step(Record):
    """One thing done to the cup. `for_s` belongs to heated and rested, `read_c` to read, `mass_g`
    to drawn and added, `added_c` to added.

    With `at_s` on a step (the clock when it began), rests need not be told.
    """

    did: Did = pick("What was done")
    at_s: float | None = number(
        "Clock when it began, since any moment you like", low=0, high=86_400, default=None
    )
    for_s: float | None = number(
        "How long it was heated or rested", low=0, high=LONGEST_REST_S, default=None
    )
    read_c: float | None = number("What the thermometer read", low=-273, high=2000, default=None)
    instrument: Instrument = pick("Read with", default=Instrument.INFRARED)
    while_stirring: bool = flag("Read while stirring, or within two seconds of it")
    mass_g: float | None = number("Plastic drawn off or added", low=0.1, high=3000, default=None)
    added_c: float = number("Temperature of what was added", low=-10, high=200, default=22)

    def check(self) -> None:
        """Refuse a step without its number, with a strange one, or with another step's."""
        wanted = _WANTED.get(self.did)
        for name in ("for_s", "read_c", "mass_g"):
            value = getattr(self, name)
            if name == wanted and value is None:
                raise BadInput(name, None, f"is required where the cup was {self.did}")
            if name != wanted and value is not None:
                raise BadInput(name, value, f"does not belong to a step that was {self.did}")
        if self.read_c is not None:
            _refuse_reading(self.read_c)

    @property
    def lasted_s(self) -> float:
        """Seconds the step took; stirs and readings count as none."""
        return self.for_s or 0.0


_WANTED = {
    Did.HEATED: "for_s",
    Did.RESTED: "for_s",
    Did.READ: "read_c",
    Did.DRAWN: "mass_g",
    Did.ADDED: "mass_g",
}


def timed(steps: tuple[Step, ...], plastic_g: float, where: str = "history") -> tuple[Step, ...]:
    """The steps with the rests that their clocks imply put between them.

    Raises: BadInput where the clock runs backwards or skips hours, more is drawn than the cup
    holds, or added than may be heated at once.
    """
    found: list[Step] = []
    now: float | None = None
    held = plastic_g
    for i, step in enumerate(steps):
        if step.at_s is not None:
            if now is not None and step.at_s < now - 0.5:
                why = f"the clock runs backwards: the step before ended at {now:g} s"
                raise BadInput(f"{where}[{i}].at_s", step.at_s, why)
            if now is not None and step.at_s > now + LONGEST_REST_S:
                why = (
                    f"lies more than {LONGEST_REST_S:g} s after the end of the step before, at "
                    f"{now:g} s: a cup that went cold begins anew"
                )
                raise BadInput(f"{where}[{i}].at_s", step.at_s, why)
            if now is not None and step.at_s > now + 0.5:
                found.append(Step(did=Did.RESTED, for_s=step.at_s - now))
            now = step.at_s
        if now is not None:
            now += step.lasted_s
        held += _change_g(step)
        if held < LEAST_LEFT_G:
            why = f"would leave {max(held, 0):.0f} g: an empty cup is not heated"
            raise BadInput(f"{where}[{i}].mass_g", step.mass_g, why)
        if held > MOST_HELD_G:
            why = f"would make {held:.0f} g: at most {MOST_HELD_G:.0f} g are heated at once"
            raise BadInput(f"{where}[{i}].mass_g", step.mass_g, why)
        found.append(step)
    return tuple(found)


def left_g(steps: tuple[Step, ...], plastic_g: float) -> float:
    """Grams in the cup after the steps."""
    return plastic_g + sum(_change_g(s) for s in steps)


def other_unit_c(read_c: float) -> tuple[float, float]:
    """The reading had it been typed in the other unit: as if °F was meant for °C, and °C for °F."""
    return convert(read_c, "f", "c"), convert(read_c, "c", "f")


def _change_g(step: Step) -> float:
    sign = {Did.DRAWN: -1.0, Did.ADDED: 1.0}.get(step.did, 0.0)
    return sign * (step.mass_g or 0.0)


def _refuse_reading(read_c: float) -> None:
    if COLDEST_READ_C <= read_c <= HOTTEST_READ_C:
        return
    why = f"must be {COLDEST_READ_C:g} to {HOTTEST_READ_C:g} °C"
    in_f = convert(read_c, "f", "c")
    if read_c > HOTTEST_READ_C and in_f <= HOTTEST_READ_C:
        why += f"; {read_c:g} °F would be {in_f:.0f} °C: was it read in °F?"
    raise BadInput("read_c", read_c, why)
