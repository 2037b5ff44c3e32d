"""A message with what was understood marked in it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from pourwright.actions.port import Bench
from pourwright.actions.read_message import message_read
from pourwright.base.errors import BadInput
from pourwright.shop.message.mark import Mark, Sense
from pourwright.shop.message.read import MessageAnswer
from pourwright.shop.order import Order

_CLASSES = {
    Sense.BAIT: "bait", Sense.LOOK: "look", Sense.NAME: "unclear", Sense.COUNT: "count",
    Sense.PACK: "count", Sense.DAY: "day", Sense.CUSTOMER: "customer", Sense.DOUBT: "unclear",
    Sense.NUMBER: "unclear",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of the message; `look` is empty where nothing was understood."""

    text: str
    look: str = ""
    sense: str = ""
    words: str = ""


@dataclass(frozen=True, slots=True)
class Marked:
    """The message in pieces, and what has to be looked at."""

    pieces: tuple[Piece, ...]
    doubts: tuple[str, ...]
    unread: tuple[str, ...]

    @property
    def understood(self) -> tuple[Piece, ...]:
        """The pieces that were understood."""
        return tuple(it for it in self.pieces if it.look)


def marked(bench: Bench, order: Order) -> Marked | None:
    """The message an order came by, as it reads today; none where it cannot be read."""
    try:
        return marked_text(order.message, message_read(bench, order.message, on_day=order.taken_on))
    except BadInput:
        return None


def marked_text(message: str, answer: MessageAnswer) -> Marked:
    """A message that was read."""
    return Marked(tuple(_pieces(message, answer.marks)), answer.doubts, answer.unread)


def _pieces(message: str, marks: Iterable[Mark]) -> Iterator[Piece]:
    at = 0
    for mark in marks:
        if mark.start > at:
            yield Piece(message[at : mark.start])
        text = message[mark.start : mark.end]
        yield Piece(text, _CLASSES[mark.sense], mark.sense.value, mark.words)
        at = mark.end
    if at < len(message):
        yield Piece(message[at:])
