"""What a message leaves open: each question with its choices to tap."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from dataclasses import dataclass

from pourwright.shop.message.mark import Choice, Count
from pourwright.shop.message.read import MessageAnswer
from pourwright.web.form import Typed, rows_of
from pourwright.web.names import Names
from pourwright.web.widget import Choice as Option

# Said by the person: the message names no day that counts.
NO_DAY = "@no_day"
_MOST_ROWS = 60
_MOST_OPTIONS = 8


@dataclass(frozen=True, slots=True)
class Asked:
    """A question: `path` is the box it fills, `said` the words of the message it is about.

    `settled` says that the box is filled already.
    """

    path: str
    label: str
    said: str
    why: str
    options: tuple[Option, ...]
    chosen: str

    @property
    def settled(self) -> bool:
        """Whether somebody answered it."""
        return bool(self.chosen)


def typed_from(answer: MessageAnswer) -> dict[str, str]:
    """The boxes of a form as far as the message is clear."""
    typed = {"lines#": str(max(1, len(answer.lines)))}
    if not answer.lines:
        typed |= {f"lines[0].{name}": "" for name in ("bait", "look", "packs", "baits_each")}
        typed["lines[0].price_money"] = ""
    for i, line in enumerate(answer.lines):
        row = f"lines[{i}]"
        typed |= {
            f"{row}.bait": _sure(line.bait), f"{row}.look": _sure(line.look),
            f"{row}.packs": _sure(line.packs), f"{row}.baits_each": _sure(line.baits_each),
            f"{row}.price_money": "", f"{row}.from": str(i),
        }  # fmt: skip
    return typed | {"due_on": _sure(answer.due), "customer": _sure(answer.customer)}


def asked_of(answer: MessageAnswer, message: str, typed: Typed, names: Names) -> tuple[Asked, ...]:
    """Every question of the rows that are still there, then the day and the customer."""
    return tuple(_asked(answer, message, typed, names))


def _asked(answer: MessageAnswer, message: str, typed: Typed, names: Names) -> Iterator[Asked]:
    for i in range(rows_of(typed, "lines", _MOST_ROWS)):
        source = typed.get(f"lines[{i}].from", "")
        if not source.isdigit() or int(source) >= len(answer.lines):
            continue
        line = answer.lines[int(source)]
        said = message[line.start : line.end]
        for name, choice, sort in (("bait", line.bait, "bait"), ("look", line.look, "look")):
            if not choice.sure:
                options = tuple(Option(it, names.name_of(sort, it)) for it in choice.options)
                yield _question(f"lines[{i}].{name}", name, said, choice.why, options, typed)
        for name, count, label in (
            ("packs", line.packs, "how many packs"),
            ("baits_each", line.baits_each, "baits to a pack"),
        ):
            if not count.sure:
                options = tuple(Option(str(it), str(it)) for it in count.options)
                yield _question(f"lines[{i}].{name}", label, said, count.why, options, typed)
    if answer.due.options and not answer.due.sure:
        yield _day(answer.due, typed)
    if answer.customer.options and not answer.customer.sure:
        options = tuple(Option(it, names.name_of("customer", it)) for it in answer.customer.options)
        yield _question("customer", "customer", "", answer.customer.why, options, typed)


def _question(
    path: str, label: str, said: str, why: str, options: tuple[Option, ...], typed: Typed
) -> Asked:
    return Asked(path, label, said, why, options[:_MOST_OPTIONS], typed.get(path, ""))


def _day(due: Choice, typed: Typed) -> Asked:
    days = [dt.date.fromisoformat(it) for it in due.options]
    options = tuple(
        Option(d.isoformat(), f"{d:%A}, {d:%B} {d.day}, {d.year}") for d in days[:_MOST_OPTIONS]
    )
    none = "none" if typed.get(NO_DAY) and not typed.get("due_on") else ""
    return Asked("due_on", "day", "", due.why, options, typed.get("due_on", "") or none)


def _sure(heard: Choice | Count) -> str:
    return str(heard.options[0]) if heard.sure else ""
