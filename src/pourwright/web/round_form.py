"""The form for one round at the cup."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.see_cup import CupView
from pourwright.base.units import System, convert
from pourwright.bench.round_entry import RoundEntry
from pourwright.heat.history import HOTTEST_READ_C, Did
from pourwright.web.form import Typed, texts_of
from pourwright.web.show import Settings
from pourwright.web.widget import FormView, Widget, form_view

MAIN = ("heated_s", "stirred", "read_c", "instrument", "while_stirring")
# Where nothing is to be heated the reading is what the person came for.
READING_FIRST = ("read_c", "stirred", "heated_s", "instrument", "while_stirring")


@dataclass(frozen=True, slots=True)
class RoundForm:
    """The form for a round; `id` makes sending it twice harmless."""

    id: str
    form: FormView
    main: tuple[Widget, ...]
    more: tuple[Widget, ...]
    more_open: bool
    other_unit: str


def fresh_round(view: CupView, settings: Settings, *, late: bool = False) -> dict[str, str]:
    """The form as it is offered: the seconds advised, the thermometer of the sheet."""
    used = [s.instrument for s in view.story.steps if s.did is Did.READ]
    typed = texts_of(RoundEntry, None, settings.system)
    typed["heated_s"] = f"{view.answer.on_s:.0f}"
    typed["instrument"] = (used[-1] if used else view.instrument).value
    return typed | ({"late": "on"} if late else {})


def round_form(
    typed: Typed, problems: dict[str, str], settings: Settings, *, id: str, heating: bool
) -> RoundForm:
    """The form with what was typed into it, and what is wrong with that."""
    form = form_view(
        RoundEntry, typed, problems=problems, settings=settings, references=lambda _: ()
    )
    order = MAIN if heating else READING_FIRST
    main = tuple(w for path in order for w in form.widgets if w.path == path)
    more = tuple(w for w in form.widgets if w.path not in MAIN)
    wrong = any(w.problem for w in more)
    entered = any(typed.get(name) for name in ("drawn_g", "added_g", "late"))
    return RoundForm(id, form, main, more, wrong or entered, _could_be(typed, problems, settings))


def _could_be(typed: Typed, problems: dict[str, str], settings: Settings) -> str:
    """A refused reading in the other unit, where it would make sense there; else empty."""
    text = typed.get("read_c", "").strip()
    if "read_c" not in problems or settings.system is System.US or not text.isdigit():
        return ""
    makes_sense = convert(int(text), "f", "c") <= HOTTEST_READ_C < int(text)
    return f"{int(text)} °F" if makes_sense else ""
