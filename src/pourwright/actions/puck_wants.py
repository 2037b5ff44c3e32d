"""Which pucks each material of the shelf has, and which would still help."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from pourwright.actions.calibrate_shelf import last_lesson
from pourwright.actions.keep_record import add_record
from pourwright.actions.port import Bench, Stored, World
from pourwright.actions.puck_input import grams
from pourwright.actions.shelf_color import ColorShelf, color_shelf
from pourwright.base.errors import NotFound
from pourwright.color.calibrate.entry import Source, Use
from pourwright.color.lab import lab_read
from pourwright.color.swatch import Swatch, swatch
from pourwright.shop.card import Card
from pourwright.shop.look import Dose, Look, Measure
from pourwright.shop.material import Colorant, PearlPowder, Plastic
from pourwright.shop.noun import Noun
from pourwright.shop.puck import Puck

# Thickness to pour, and the least width: six thicknesses.
THICK_MM = 5.0
# A puck stands for a wanted one if every dose lies within a factor of two of it: estimate.
_NEAR = 2.0
# L* above which a card serves as white, and below which as black: estimates.
_WHITE_L, _BLACK_L = 80.0, 45.0
# An opaque colorant this light and this gray serves as white: estimate.
_LIGHT, _GRAY = 0xC8, 0x28
CHECK = "check"
# How the puck that the last lesson asks for is named.
NEXT = ("lesson", "next")


@dataclass(frozen=True, slots=True)
class Want:
    """A puck to pour: its recipe to 100 g, its likely look, and the puck that stands for it."""

    key: str
    name: str
    words: str
    doses: tuple[Dose, ...]
    look: Swatch
    puck: str
    cards: int

    @property
    def missing(self) -> bool:
        """Whether nobody has poured it."""
        return not self.puck

    @property
    def unread(self) -> bool:
        """Whether it was poured and not read over two cards yet."""
        return bool(self.puck) and self.cards < 2


@dataclass(frozen=True, slots=True)
class Wanted:
    """One material: its pucks, and how many drips and lots speak of it as well."""

    material: str
    sort: str
    name: str
    color_hex: str
    wants: tuple[Want, ...]
    drips: int
    note: str


def wanted(bench: Bench) -> tuple[Wanted, ...]:
    """Plastics, colorants and pearls with the pucks they want, and the check puck last."""
    shelf = color_shelf(bench)
    pucks = [(s, s.noun) for s in bench.records.all(Puck.key) if isinstance(s.noun, Puck)]
    asker = _Asker(shelf, pucks, _white(bench))
    found = [
        asker.row(stored)
        for sort in (Plastic.key, Colorant.key, PearlPowder.key)
        for stored in bench.records.all(sort)
    ]
    mixed = _mixed(bench, shelf)
    return (*found, asker.check(mixed)) if mixed else tuple(found)


def cards_missing(bench: Bench) -> tuple[str, ...]:
    """White, black: which of the two cards nobody has read yet."""
    cards = [s.noun.bare for s in bench.records.all(Card.key) if isinstance(s.noun, Card)]
    light = [float(lab_read(c.values())[0]) for c in cards]
    there = {"white": any(v > _WHITE_L for v in light), "black": any(v < _BLACK_L for v in light)}
    return tuple(shade for shade, found in there.items() if not found)


def layers_with(bench: Bench) -> dict[str, int]:
    """In how many layers of the looks a material stands."""
    found: dict[str, int] = {}
    for look in (s.noun for s in bench.records.all(Look.key)):
        if isinstance(look, Look):
            for dose in (d for layer in look.layers for d in layer.doses):
                found[dose.material] = found.get(dose.material, 0) + 1
    return found


def pour_puck(world: World, material: str, key: str) -> Stored:
    """Write down that a wanted puck is being poured; it is read later.

    Raises: NotFound where no such puck is wanted.
    """
    with world.bench() as bench:
        asked = _asked(bench, material, key)
    return add_record(world, asked)


def recipe_words(bench: Bench, doses: Sequence[Dose]) -> str:
    """A recipe to 100 g in words."""
    shelf = color_shelf(bench)
    return ", ".join(f"{shelf.noun(d.material).name} {_amount(d)}" for d in doses)


def _asked(bench: Bench, material: str, key: str) -> Puck:
    plastic = next((s.id for s in bench.records.all(Plastic.key)), "")
    lesson = last_lesson(bench)
    if (material, key) == NEXT and lesson and lesson.next_puck:
        name = recipe_words(bench, lesson.next_puck)[:60]
        return Puck(name=name, plastic=plastic, doses=lesson.next_puck, thick_mm=THICK_MM)
    for row in wanted(bench):
        for want in row.wants:
            if (row.material, want.key) == (material, key):
                own = material if row.sort == Plastic.key else plastic
                use = Use.CHECK if row.sort == CHECK else Use.FIT
                return Puck(
                    name=want.name, plastic=own, doses=want.doses, thick_mm=THICK_MM, use=use
                )
    raise NotFound(f"no puck {key!r} is asked for of {material!r}")


@dataclass(frozen=True, slots=True)
class _Asker:
    shelf: ColorShelf
    pucks: Sequence[tuple[Stored, Puck]]
    white: Stored | None

    def row(self, stored: Stored) -> Wanted:
        noun, one = stored.noun, stored.id
        glows = isinstance(noun, Colorant) and noun.glows
        drips = sum(
            p.source is not Source.PUCK and any(d.material == one for d in p.doses)
            for _, p in self.pucks
        )
        note = "Fluorescent: shown as entered, left out of match and proof." if glows else ""
        color = getattr(noun, "color_hex", "")
        return Wanted(one, stored.sort, noun.name, color, self.wants(stored), drips, note)

    def wants(self, stored: Stored) -> tuple[Want, ...]:
        noun = stored.noun
        if isinstance(noun, Colorant) and noun.glows:
            return ()
        if isinstance(noun, Plastic):
            plain = self.found((), Use.FIT, stored.id)
            return (self.want(noun.name, "plain", "nothing in it", (), plain),)
        return tuple(self.want(noun.name, *w) for w in self.recipes(stored))

    def recipes(self, stored: Stored) -> list[tuple[str, str, tuple[Dose, ...]]]:
        """Low, high, and with white: what three readings tell the most by, a working habit."""
        one = stored.id
        if isinstance(stored.noun, PearlPowder):
            return [(k, f"{g:g} g", (_grams(one, g),)) for k, g in (("low", 0.2), ("high", 0.8))]
        found: list[tuple[str, str, tuple[Dose, ...]]] = [
            (k, f"{n} drops", (_drops(one, n),)) for k, n in (("low", 2), ("high", 8))
        ]
        if self.white and self.white.id != one and isinstance(stored.noun, Colorant):
            words = f"4 drops with 2 of {self.white.noun.name}"
            found.append(("white", words, (_drops(one, 4), _drops(self.white.id, 2))))
        return found

    def check(self, doses: tuple[Dose, ...]) -> Wanted:
        words = ", ".join(f"{self.name(d)} {_amount(d)}" for d in doses)
        found = self.found(doses, Use.CHECK, "") or self.any_check()
        want = self.want("Check", "mixed", words, doses, found)
        note = "Never used in the fit: it shows what the fit is worth."
        return Wanted(CHECK, CHECK, "Check puck", "", (want,), 0, note)

    def want(
        self,
        name: str,
        key: str,
        words: str,
        doses: tuple[Dose, ...],
        puck: tuple[str, int] | None = None,
    ) -> Want:
        there = puck if puck is not None else self.found(doses, Use.FIT, "")
        seen = swatch([self.shelf.dose(d) for d in doses], thick_mm=THICK_MM)
        of = "plain" if not doses else words
        return Want(key, f"{name}, {of}"[:60], words, doses, seen, *(there or ("", 0)))

    def found(self, doses: tuple[Dose, ...], use: Use, plastic: str) -> tuple[str, int]:
        """The id of the puck that stands for a recipe, and over how many cards it was read."""
        want = {d.material: grams(d, self.shelf) for d in doses}
        near = [
            (s.id, len({r.card for r in p.readings}))
            for s, p in self.pucks
            if p.source is Source.PUCK and p.use is use and plastic in {"", p.plastic}
            and self.near(p, want)
        ]  # fmt: skip
        return max(near, key=lambda n: n[1], default=("", 0))

    def any_check(self) -> tuple[str, int]:
        found = [(s.id, len({r.card for r in p.readings}))
                 for s, p in self.pucks if p.use is Use.CHECK]  # fmt: skip
        return max(found, key=lambda n: n[1], default=("", 0))

    def near(self, puck: Puck, want: dict[str, float]) -> bool:
        held = {d.material: grams(d, self.shelf) for d in puck.doses}
        return held.keys() == want.keys() and all(
            1 / _NEAR < held[m] / want[m] < _NEAR for m in want
        )

    def name(self, dose: Dose) -> str:
        return self.shelf.noun(dose.material).name


def _white(bench: Bench) -> Stored | None:
    """The lightest opaque colorant without a color of its own."""
    found = [(min(_channels(s.noun)), s) for s in bench.records.all(Colorant.key) if _pale(s.noun)]
    return max(found, key=lambda f: f[0])[1] if found else None


def _pale(noun: Noun) -> bool:
    if not isinstance(noun, Colorant) or not noun.opaque or noun.glows:
        return False
    channels = _channels(noun)
    return min(channels) >= _LIGHT and max(channels) - min(channels) <= _GRAY


def _channels(noun: Noun) -> tuple[int, ...]:
    text = noun.color_hex if isinstance(noun, Colorant) else "#000000"
    return tuple(int(text[i : i + 2], 16) for i in (1, 3, 5))


def _mixed(bench: Bench, shelf: ColorShelf) -> tuple[Dose, ...]:
    """The layer of the looks that mixes the most colorants, without flake and what glows."""
    bottles = shelf.bottles()
    layers = [
        tuple(d for d in layer.doses if d.material in bottles and not _glows(shelf, d.material))
        for look in (s.noun for s in bench.records.all(Look.key))
        if isinstance(look, Look)
        for layer in look.layers
    ]
    best = max(layers, key=len, default=())
    return best if len(best) > 1 else ()


def _glows(shelf: ColorShelf, material: str) -> bool:
    noun = shelf.noun(material)
    return isinstance(noun, Colorant) and noun.glows


def _amount(dose: Dose) -> str:
    unit = "g" if dose.measure is Measure.GRAMS else dose.measure.value
    if dose.per_100g == 1:
        unit = unit.removesuffix("s")
    return f"{dose.per_100g:g} {unit}"


def _drops(material: str, count: float) -> Dose:
    return Dose(material=material, per_100g=count)


def _grams(material: str, amount: float) -> Dose:
    return Dose(material=material, per_100g=amount, measure=Measure.GRAMS)
