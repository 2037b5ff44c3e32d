"""Days a message names, and when it wants something by then."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from pourwright.shop.message.word import Word

MONTHS = [
    "january", "february", "march", "april", "may", "june", "july", "august", "september",
    "october", "november", "december",
]  # fmt: skip
WEEKDAYS = ["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"]
_SHORT_DAYS = {day[:n]: i for i, day in enumerate(WEEKDAYS) for n in (3, 4)}
# A short word for a day counts only behind one of these.
_BEFORE_DAY = {"by", "due", "for", "on", "until", "till", "til", "before", "need", "needed"}
_STRICTLY_BEFORE = {"before"}
_ENDINGS = {"st", "nd", "rd", "th"}
_FAR = dt.timedelta(days=183)


@dataclass(frozen=True, slots=True)
class NamedDay:
    """Words from `first` up to `end` that name a day; the days they may mean; what is unclear."""

    first: int
    end: int
    days: tuple[dt.date, ...]
    why: str


def days_in(words: Sequence[Word], today: dt.date) -> list[NamedDay]:
    """Every day that is named, left to right."""
    found: list[NamedDay] = []
    at = 0
    while at < len(words):
        day = _day_at(words, at, today)
        if day is not None:
            found.append(day)
        at = day.end if day else at + 1
    return found


def _day_at(words: Sequence[Word], at: int, today: dt.date) -> NamedDay | None:
    for reader in _READERS:
        found = reader(words, at, today)
        if found is not None:
            return _introduced(words, found)
    return None


def _introduced(words: Sequence[Word], day: NamedDay) -> NamedDay:
    """With the word before it, which says that something is wanted by then."""
    first = day.first
    while first and words[first - 1].key in {"the", "this"}:
        first -= 1
    before = words[first - 1].key if first else ""
    if before not in _BEFORE_DAY:
        return NamedDay(day.first, day.end, day.days, day.why or "is that when it is due?")
    if before in _STRICTLY_BEFORE:
        days = sorted({d - dt.timedelta(days=n) for d in day.days for n in (0, 1)})
        return NamedDay(first - 1, day.end, tuple(days), "on that day, or the day before it?")
    return NamedDay(first - 1, day.end, day.days, day.why)


def _iso(words: Sequence[Word], at: int, _: dt.date) -> NamedDay | None:
    """2026-06-03."""
    piece = [w.text for w in words[at : at + 5]]
    if len(piece) < 5 or piece[1::2] != ["-", "-"] or [len(p) for p in piece[::2]] != [4, 2, 2]:
        return None
    return _one(at, at + 5, _made(piece[0], piece[2], piece[4]))


def _numeric(words: Sequence[Word], at: int, today: dt.date) -> NamedDay | None:
    """6/3 or 6/3/2026: month and day in either order."""
    if not _signs(words, at, "/"):
        return None
    first, second = words[at].text, words[at + 2].text
    has_year = _signs(words, at + 2, "/") and len(words[at + 4].text) in {2, 4}
    end = at + (5 if has_year else 3)
    year = _year(words[at + 4].text) if has_year else 0
    pairs = {(first, second), (second, first)}
    days = sorted(d for m, day in pairs for d in _dated(year, m, day, today))
    if not days:
        return NamedDay(at, end, (), "is no day of the calendar")
    unclear = "which of the two is the month?" if len(days) > 1 else _far(days[0], today)
    return NamedDay(at, end, tuple(days), unclear)


def _worded(words: Sequence[Word], at: int, today: dt.date) -> NamedDay | None:
    """June 3, June 3rd 2026, 3 June, 3rd of June."""
    month = _month(words, at)
    if month:
        place = at + 2 if _key(words, at + 1) == "." else at + 1
        day, end = _ordinal(words, place)
    else:
        day, end = _ordinal(words, at)
        end += _key(words, end) == "of"
        month = _month(words, end)
        end += 1
    if not month or not day:
        return None
    year, end = _year_after(words, end)
    days = tuple(_dated(year, str(month), str(day), today))
    if not days:
        return NamedDay(at, end, (), "is no day of the calendar")
    return NamedDay(at, end, days, "" if year else _far(days[0], today))


def _weekday(words: Sequence[Word], at: int, today: dt.date) -> NamedDay | None:
    """Friday, next Friday."""
    key, place = _key(words, at), at
    following = key == "next"
    if following:
        place, key = at + 1, _key(words, at + 1)
    number = WEEKDAYS.index(key) if key in WEEKDAYS else _short_day(words, place)
    if number < 0:
        return None
    ahead = (number - today.weekday()) % 7
    coming = today + dt.timedelta(days=ahead)
    week = dt.timedelta(days=7)
    if ahead == 0:
        both = (coming + week,) if following else (coming, coming + week)
        why = "" if following else "today, or in a week?"
        return NamedDay(at, place + 1, both, why)
    if following:
        return NamedDay(at, place + 1, (coming, coming + week), "the coming one, or the one after?")
    return _one(at, place + 1, coming)


def _near(words: Sequence[Word], at: int, today: dt.date) -> NamedDay | None:
    """Today, tomorrow."""
    ahead = {"today": 0, "tonight": 0, "tomorrow": 1}.get(_key(words, at))
    return None if ahead is None else _one(at, at + 1, today + dt.timedelta(days=ahead))


def _of_month(words: Sequence[Word], at: int, today: dt.date) -> NamedDay | None:
    """By the 3rd."""
    day, end = _ordinal(words, at)
    if not day or end - at < 2 or _key(words, at - 1) != "the" or at < 2:
        return None
    if words[at - 2].key not in _BEFORE_DAY:
        return None
    for months in range(3):
        month0 = today.month - 1 + months
        found = _made(str(today.year + month0 // 12), str(month0 % 12 + 1), str(day))
        if found is not None and found >= today:
            return _one(at, end, found)
    return NamedDay(at, end, (), "is no day of the calendar")


_Reader = Callable[[Sequence[Word], int, dt.date], NamedDay | None]
_READERS: tuple[_Reader, ...] = (_iso, _numeric, _worded, _weekday, _near, _of_month)


def _one(first: int, end: int, day: dt.date | None) -> NamedDay:
    if day is None:
        return NamedDay(first, end, (), "is no day of the calendar")
    return NamedDay(first, end, (day,), "")


def _key(words: Sequence[Word], at: int) -> str:
    return words[at].key if 0 <= at < len(words) else ""


def _signs(words: Sequence[Word], at: int, sign: str) -> bool:
    """Whether a number, a sign and a number stand here."""
    return (
        at + 2 < len(words)
        and words[at].is_number
        and words[at + 1].text == sign
        and words[at + 2].is_number
    )


def _month(words: Sequence[Word], at: int) -> int:
    """The number of a month, 0 for none; the short word "may" only with a capital letter."""
    key = _key(words, at)
    if key == "may" and words[at].text[0].islower():
        return 0
    hits = [n for n, m in enumerate(MONTHS, start=1) if key in {m, m[:3], "sept" if n == 9 else m}]
    return hits[0] if hits else 0


def _short_day(words: Sequence[Word], at: int) -> int:
    before = at - 1
    while before >= 0 and words[before].key in {"the", "this", "next"}:
        before -= 1
    introduced = before >= 0 and words[before].key in _BEFORE_DAY
    return _SHORT_DAYS.get(_key(words, at), -1) if introduced else -1


def _ordinal(words: Sequence[Word], at: int) -> tuple[int, int]:
    """A day of the month, with or without its ending, and where it ends; 0 for none."""
    if not 0 <= at < len(words) or not words[at].is_number or len(words[at].text) > 2:
        return 0, at
    ending = _key(words, at + 1) in _ENDINGS and not words[at + 1].spaced
    return int(words[at].text), at + 1 + ending


def _year_after(words: Sequence[Word], at: int) -> tuple[int, int]:
    """A year of four digits behind a day, and where it ends; 0 for none."""
    place = at + 1 if _key(words, at) == "," else at
    if place < len(words) and words[place].is_number and len(words[place].text) == 4:
        return int(words[place].text), place + 1
    return 0, at


def _year(text: str) -> int:
    return int(text) + (2000 if len(text) == 2 else 0)


def _dated(year: int, month: str, day: str, today: dt.date) -> list[dt.date]:
    """The day of that year, or without one the next such day."""
    for wanted in (year,) if year else (today.year, today.year + 1):
        found = _made(str(wanted), month, day)
        if found is not None and (year or found >= today):
            return [found]
    return []


def _made(year: str, month: str, day: str) -> dt.date | None:
    try:
        return dt.date(int(year), int(month), int(day))
    except ValueError:
        return None


def _far(day: dt.date, today: dt.date) -> str:
    return f"not before {day:%B %Y}?" if day - today > _FAR else ""
