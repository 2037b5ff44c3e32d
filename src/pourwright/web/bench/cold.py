"""Screens before the heat: make ready, dry, weigh."""

from __future__ import annotations

from pourwright.base.wording import worded
from pourwright.bench import tap_kind as kind
from pourwright.bench.tap_body import AIR_C, PLASTIC_C
from pourwright.web.bench.degrees_entry import degrees_entry
from pourwright.web.bench.moment import Moment
from pourwright.web.bench.screen import Entry, Pad, Phase, Screen

# What is made ready, why, and the word on its pad: common practice, no source.
_READY: dict[str, tuple[str, tuple[str, ...], str]] = {
    "room": (
        "Air, gloves, shield",
        (
            "Fumes drawn away from your face. Heat gloves, face shield, long sleeves.",
            "No children or pets in the room; extinguisher within reach. Local codes come first.",
        ),
        "All on",
    ),
    "jug": (
        "Mix the jug",
        (
            "Turn or stir it until nothing lies on its floor, then let the bubbles rise.",
            "Resin settles: what is poured off the top comes out softer than the sheet says.",
        ),
        "Mixed",
    ),
    "dry": (
        "Molds, cups, salt: bone dry",
        (
            "Wipe molds, cups, stirrer, injector; look into vents and screw holes.",
            "Water flashes to steam in hot plastic and throws it at you.",
        ),
        "All dry",
    ),
    "oven": (
        "One oven, one circuit",
        (
            "On a rated outlet of its own, no light extension cord.",
            "Nothing metal goes in: no probe, stirrer or injector.",
            "Never leave a heating cup. Smoke or flame: door stays shut, switch off.",
        ),
        "Understood",
    ),
    "injector": (
        "Plunger and molds",
        (
            "Plunger greased, nose clean, molds closed and clamped hard, sprues up.",
            "A dry plunger draws air; a loose clamp flashes.",
        ),
        "Ready",
    ),
}


def ready(it: Moment) -> Screen:
    """One thing to make sure of, before the first gram."""
    if it.hand.item == "start":
        return it.screen(_start(it))
    name, words, done = _READY[it.hand.item]
    pad = Pad(done, kind.READY, {"item": it.hand.item}, main=True)
    return it.screen(Phase(name, words=words, say=name, pads=(pad,)))


def _start(it: Moment) -> Phase:
    """Read air and raw plastic, since every forecast of heat begins there."""
    entries = (
        degrees_entry("plastic", "Raw plastic", PLASTIC_C, it.settings, required=False),
        degrees_entry("air", "Room", AIR_C, it.settings, required=False),
    )
    pads = (
        Pad("Keep both", kind.READ_START, main=True, entry=True),
        Pad("Not read", kind.READ_START),
    )
    words = (
        "Read the raw plastic and the room.",
        "Every burst is reckoned from here; left out, the workplace's values hold.",
    )
    return Phase("Read the start", words=words, say="Read plastic and room", entries=entries,
                 pads=pads)  # fmt: skip


def dry_tool(it: Moment) -> Screen:
    """A tool flagged wet blocks the pour until somebody says that it is dry."""
    thing = next(w for w in it.told.setup.wet if w.id == it.hand.item)
    pad = Pad("It is dry", kind.DRIED, {"sort": thing.sort, "id": thing.id}, main=True, hold=True)
    words = (
        "Its record says it is wet. Dry it warm, look into every corner.",
        "Water flashes to steam in hot plastic.",
    )
    return it.screen(Phase(f"Wet: {thing.name}", words=words, say="Dry it first", pads=(pad,),
                           caution="Wet"))  # fmt: skip


def weigh(it: Moment) -> Screen:
    """One part on the scale."""
    part = it.part
    left = [p for p in it.task.weigh if p.key not in it.cup.weighed]
    body = {"cup": it.hand.cup, "part": part.key, "wanted_g": part.grams}
    entry = Entry(
        "grams", "Scale shows", 0, 5000, unit="g", step=0.1, value=f"{part.scale_g:g}"
    )  # fmt: skip
    within = max(0.1, round(part.grams * 0.01, 1))
    last = "" if len(left) > 1 else " Then stir it together, slowly: no air."
    words = [f"Within {within:g} g.{last}"]
    words += [f"{part.note[0].upper()}{part.note[1:]}."] if part.note else []
    if part.key == "plastic":
        line = worded(it.task.fill_ml, "ml", it.settings.system)
        words.append(f"Without a scale: fill to {line}, cold, all plastic in.")
    pads = [Pad("In", kind.PART_IN, body, main=True, entry=True)]
    if len(left) > 1:
        others = ", ".join(f"{p.scale_g:g} g {p.name}" for p in left[1:])
        words.append(f"Then {others}.")
        pads.append(Pad(f"All {len(left)} parts in", kind.PARTS_IN, {"cup": it.hand.cup}))
    phase = Phase(
        part.name,
        big=f"{part.scale_g:g}",
        unit="g",
        words=tuple(words),
        say=f"{part.scale_g:g} grams {part.name}",
        entries=(entry,),
        pads=tuple(pads),
    )
    return it.screen(phase)
