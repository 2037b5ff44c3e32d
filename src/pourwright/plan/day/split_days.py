"""Which cups on which day, when they do not all fit into the microwave hours of one."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.calc import calculation
from pourwright.base.errors import BadInput
from pourwright.base.field import number, out, parts, text
from pourwright.base.record import Record
from pourwright.base.source import PRACTICE, published

HOUR_S = 3600
ROOM_IS_MICROWAVE_TIME = (
    "Room is reckoned in microwave hours alone: pouring, cooling and rest of the microwave need "
    "time of their own."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class SplitCup(Record):
    """A cup to be poured on one of the days."""

    name: str = text("Cup", most=64)
    microwave_s: int = number("All its heatings together", low=1, high=345_600)
    shade: int = number("How dark, 0 lightest to 100 darkest", low=0, high=100, default=0)
    due_day: int | None = number(
        "Number of the day, from 1, by which it has to be poured; left out: any",
        low=1, high=60, default=None,
    )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class SplitDay(Record):
    """A day that can be poured on."""

    name: str = text("Day", most=40)
    microwave_h: float = number("Hours of all microwaves together", low=0, high=96)


@dataclass(frozen=True, slots=True, kw_only=True)
class SplitInput(Record):
    """Cups, and the days in order."""

    cups: tuple[SplitCup, ...] = parts("Cups to pour", least=1, most=200)
    days: tuple[SplitDay, ...] = parts("Days that can be poured on, in order", least=1, most=60)
    most_cups: int = number("Most cups a day", low=1, high=100, default=30)

    def check(self) -> None:
        """Refuse a cup that stands twice, and one due on a day that is not in the list."""
        names: set[str] = set()
        for i, cup in enumerate(self.cups):
            if cup.name in names:
                raise BadInput(f"cups[{i}].name", cup.name, "stands there twice")
            names.add(cup.name)
            if cup.due_day is not None and cup.due_day > len(self.days):
                why = f"there are only {len(self.days)} days; leave it out for any day"
                raise BadInput(f"cups[{i}].due_day", cup.due_day, why)


@dataclass(frozen=True, slots=True)
class SplitDayCups:
    """A day and its cups."""

    day: str = out("Day")
    cups: tuple[str, ...] = out("Its cups, light to dark")
    used_s: int = out("Microwave time that they need")
    left_s: int = out("Microwave time left over")


@dataclass(frozen=True, slots=True)
class CupPlace:
    """Where a cup went, and why."""

    cup: str = out("Cup")
    day: int | None = out("Number of the day, from 1; null where no day has room")
    late: bool = out("After the day by which it had to be poured, or not at all")
    why: str = out("Why there")


@dataclass(frozen=True, slots=True)
class SplitAnswer:
    """The days, and where each cup went."""

    days: tuple[SplitDayCups, ...] = out("The days in order")
    places: tuple[CupPlace, ...] = out("The cups in the order given")
    notes: tuple[str, ...] = out("Cautions")


@calculation(
    "plan.days",
    purpose="cups over several pour days by due day and microwave hours",
    sources=(
        PRACTICE,
        published("Jackson (1955), Scheduling a production line to minimize maximum tardiness"),
    ),
    example={
        "cups": [
            {"name": "white", "microwave_s": 2400, "shade": 5, "due_day": 1},
            {"name": "green", "microwave_s": 3000, "shade": 60},
            {"name": "black", "microwave_s": 2100, "shade": 100, "due_day": 2},
        ],
        "days": [{"name": "Friday", "microwave_h": 1.5}, {"name": "Saturday", "microwave_h": 3}],
    },
)
def split_days(inputs: SplitInput) -> SplitAnswer:
    """Earliest due first, light before dark: each cup goes to the first day with room for it.

    Room is microwave time and a number of cups. A cup is never split. No count of late cups is
    proven least.
    Raises: BadInput for a cup that stands twice or is due on a day that is not there.
    """
    left = [int(day.microwave_h * HOUR_S) for day in inputs.days]
    members: list[list[SplitCup]] = [[] for _ in inputs.days]
    places: dict[str, CupPlace] = {}
    for cup in sorted(inputs.cups, key=lambda c: (c.due_day or len(left) + 1, c.shade)):
        day = _first_with_room(inputs, cup, left, members)
        if day is not None:
            left[day] -= cup.microwave_s
            members[day].append(cup)
        places[cup.name] = _place(inputs, cup, day)
    days = tuple(
        SplitDayCups(
            day.name,
            tuple(cup.name for cup in sorted(cups, key=lambda c: c.shade)),
            sum(cup.microwave_s for cup in cups),
            time,
        )
        for day, cups, time in zip(inputs.days, members, left, strict=True)
    )
    placed = tuple(places[cup.name] for cup in inputs.cups)
    return SplitAnswer(days, placed, _notes(placed))


def _first_with_room(
    inputs: SplitInput, cup: SplitCup, left: list[int], members: list[list[SplitCup]]
) -> int | None:
    rooms = (
        i for i, time in enumerate(left)
        if time >= cup.microwave_s and len(members[i]) < inputs.most_cups
    )  # fmt: skip
    return next(rooms, None)


def _place(inputs: SplitInput, cup: SplitCup, day: int | None) -> CupPlace:
    if day is None:
        longest = max(inputs.days, key=lambda d: d.microwave_h)
        alone = longest.microwave_h * HOUR_S < cup.microwave_s
        why = (
            f"it needs more than the {longest.microwave_h:g} microwave hours of the longest day"
            if alone
            else "every day is full: add a day or microwave hours"
        )
        return CupPlace(cup.name, None, late=True, why=why)
    number = day + 1
    late = cup.due_day is not None and number > cup.due_day
    if late and cup.due_day is not None:
        due = inputs.days[cup.due_day - 1].name
        why = f"late: up to {due} no day had room left for it"
    elif day == 0:
        why = "the first day has room for it"
    else:
        before = inputs.days[day - 1].name
        why = f"up to {before} no day had room beside the cups that are due sooner or lighter"
    return CupPlace(cup.name, number, late=late, why=why)


def _notes(places: tuple[CupPlace, ...]) -> tuple[str, ...]:
    out_of_room = [p.cup for p in places if p.day is None]
    late = [p.cup for p in places if p.late and p.day is not None]
    return (
        *((f"No day has room for {', '.join(out_of_room)}.",) if out_of_room else ()),
        *((f"Late: {', '.join(late)}.",) if late else ()),
        ROOM_IS_MICROWAVE_TIME,
    )
