"""States of an invented pour: every step and every feature of the bench page."""

from __future__ import annotations

import time
from datetime import UTC, datetime
from typing import Any

Made = dict[str, Any]

LONGEST = (
    "Lay the oven mitt flat and set the cup in the middle of the plate, handle to the front. "
    "The plate must turn freely, or one side stays cold while the other smokes. "
    "Within 6 g either way is good enough for this cup."
)
NAMES = tuple(f"Mold {i}: Marsh worm mold, four cavities" for i in range(1, 5))


def iso(seconds: float = 0.0) -> str:
    """The time that many seconds from now, as the server writes it."""
    moment = datetime.fromtimestamp(time.time() + seconds, UTC)
    return moment.isoformat(timespec="milliseconds").replace("+00:00", "Z")


def pad(label: str, kind: str, **more: Any) -> Made:
    plain: Made = {
        "body": {}, "main": False, "entry": False, "next": None, "next_by": None, "hold": False,
        "late": False, "starts": None, "ends": None, "link": None,
    }  # fmt: skip
    return {"label": label, "kind": kind, **plain, **more}


def main(label: str, kind: str, **more: Any) -> Made:
    return pad(label, kind, main=True, **more)


def entry(name: str, label: str, **more: Any) -> Made:
    plain: Made = {
        "unit": "", "low": 0, "high": 500, "step": 1, "value": "", "required": True, "adds": [],
        "choices": None,
    }  # fmt: skip
    return {"name": name, "label": label, **plain, **more}


ALONE = "Never leave a heating cup"


def phase(name: str, *pads: Made, **more: Any) -> Made:
    plain: Made = {
        "big": "", "unit": "", "for_s": None, "words": [], "say": name, "alarm": False,
        "entries": [], "caution": "",
    }  # fmt: skip
    return {"name": name, **plain, **more, "pads": list(pads)}


def screen(key: str, step: str, *phases: Made, **more: Any) -> Made:
    plain = {"about": "Cup 1 of 2, body", "began": None}
    return {"key": key, "step": step, **plain, **more, "phases": list(phases)}


def clock(i: int, seconds: float) -> Made:
    key = f"mold-{i}"
    return {"key": key, "name": NAMES[i - 1], "until": iso(seconds), "over": "Open it"}


def four_clocks() -> list[Made]:
    return [clock(1, -80), clock(2, 95), clock(3, 610), clock(4, 3 * 3600)]


def weigh() -> Made:
    pads = (
        main("In", "part_in", body={"cup": 1, "part": "plastic"}, entry=True, next="drops"),
        pad("Without a scale", "by_line", next="drops"),
    )
    weighed = entry("weighed", "It weighs", unit="g", high=900, step=0.1, required=False)
    words = ["112 to 125 g. Stir the jug first: settled resin pours softer baits.", LONGEST]
    return screen("weigh-1", "Weigh", phase("Plastic", *pads, big="118.4", unit="g", words=words,
                  entries=[weighed], say="Weigh in 118 grams of plastic"))  # fmt: skip


def drops() -> Made:
    count = entry("drops", "Drops in", high=400, value="0", adds=[1, 10])
    pads = (
        main("All in", "tinted", entry=True, next="burst"),
        pad("By the bottle's weight", "by_bottle", next="burst"),
        pad("Spilled some", "spilled_color", hold=True),
    )
    words = ["Marsh green, 22 to 26 drops. Count in tens.", LONGEST]
    return screen("drops", "Tint", phase("Marsh green", *pads, big="24", unit="drops",
                  words=words, entries=[count], say="24 drops of marsh green"))  # fmt: skip


def burst(on_s: float = 75, rest_s: float = 15) -> Made:
    stop = pad("Stopped early", "stopped", hold=True)
    unit = [["f", "°F"], ["c", "°C"]]
    read = entry("read", "It reads", unit="°F", low=-4, choices=unit)
    leads = ("burst-long", "burst-short", "pour", "stop")
    starts = {"f": (250, 310, 330, 390), "c": (121, 154, 166, 199)}
    table = [{"from": start, "unit": key, "next": to}
             for key in starts for start, to in zip(starts[key], leads, strict=True)]  # fmt: skip
    return screen("burst", "Heat",
        phase("Oven on", stop, for_s=on_s, caution=ALONE, say="Oven on",
              words=["Stay with it. Door shut, extraction on.", LONGEST]),
        phase("Stir and rest", pad("Read early", "early"), for_s=rest_s, alarm=True,
              words=["Stir down to the bottom, then let it rest."], say="Stir"),
        phase("Read", main("Read", "read", body={"cup": 1, "round": 2}, entry=True, next_by=table),
              pad("Enter it afterwards", "read_late", late=True, next="burst-long"),
              alarm=True, entries=[read], words=["Expected 304 °F (291 to 317)."],
              say="Read it"))  # fmt: skip


def reading() -> Made:
    """A burst whose oven is off and whose thermometer is read now."""
    return {**burst(1, 1), "began": iso(-30)}


def next_burst(key: str, seconds: int) -> Made:
    big = f"{seconds // 60}:{seconds % 60:02d}"
    start = main("Start the oven", "started", next="burst")
    return screen(key, "Heat", phase("Next burst", start, big=big, unit="min", say=f"Heat {big}",
                  words=["From the table of this sheet.", LONGEST], caution=ALONE))  # fmt: skip


def stop() -> Made:
    again = phase("Stop heating", main("Read again", "read"), words=["Oven off, door shut."])
    return screen("stop", "Heat", again)


def halted() -> Made:
    on = main("All is safe", "safe", next="burst-long")
    return screen("halted", "Halted", phase("", on, words=[LONGEST], say="Halted"))


def which_unit() -> Made:
    pads = (
        main("It was 171 °C", "meant", body={"unit": "c"}, next="pour"),
        pad("It was 171 °F", "meant", body={"unit": "f"}, next="burst-long"),
        pad("Neither: read again", "unread"),
    )
    words = ["171 fits °C: 340 °F was expected (330 to 349).", LONGEST]
    return screen("unit", "Which unit?", phase("171", *pads, words=words, say="Which unit?"))


def pour(mold: int = 1) -> Made:
    starts = {"key": f"mold-{mold}", "name": NAMES[mold - 1], "for_s": 270, "over": "Open it"}
    after = f"pour-{mold + 1}" if mold < 3 else "wait"
    pads = (
        main(f"Mold {mold} full", "filled", body={"mold": mold}, starts=starts, next=after),
        pad("Cup is empty", "empty", hold=True, next="wait"),
        pad("Warm-up shot", "warm_up"),
    )
    words = ["Injector down to 15 ml, slow and steady; keep the pressure until the sprue sets.",
             LONGEST]  # fmt: skip
    key = "pour" if mold == 1 else f"pour-{mold}"
    return screen(key, "Pour", phase(NAMES[mold - 1], *pads, big="2", unit="shots of 30 ml",
                  words=words, say=f"Fill mold {mold}"))  # fmt: skip


def wait() -> Made:
    pads = (main("Opened", "opened", ends="mold-1", next="count"), pad("Rewarm", "rewarm"))
    words = ["Cool enough when the sprue no longer dents.", LONGEST]
    return screen("wait", "Cool", phase("Mold 1", *pads, for_s=240, words=words, say="Let it cool"),
                  phase("Open mold 1", *pads, alarm=True, words=words, say="Open it"))  # fmt: skip


def count() -> Made:
    names = ("Good", "Good once trimmed", "Flash", "Short", "Dent", "Bubble", "Torn", "Other")
    counted = [
        entry(name.lower().replace(" ", "_"), name, high=200, required=not i, adds=[1, 10])
        for i, name in enumerate(names)
    ]
    keep = main("Keep the count", "counted", entry=True)
    return screen("count", "Count", phase("Mold 1", keep, entries=counted, say="Count them",
                  words=["Warm-up shots apart."]))  # fmt: skip


def done() -> Made:
    lot = main("To the lot", "leave", link="/book")
    return screen("done", "Done", phase("Poured and counted", lot, big="48", unit="baits",
                  words=["Hang them straight. They settle in a day."], say="Done"))  # fmt: skip


SCREENS = {
    "weigh": weigh, "drops": drops, "burst": burst, "unit": which_unit, "pour": pour,
    "wait": wait, "count": count, "done": done,
}  # fmt: skip


def ahead() -> dict[str, Made]:
    found = [make() for make in SCREENS.values()]
    found += [next_burst("burst-long", 50), next_burst("burst-short", 20), pour(2), pour(3)]
    found += [stop(), halted()]
    return {one["key"]: one for one in found}


def troubles() -> list[Made]:
    def one(what: str, label: str, *first: str, leads: str | None = None) -> Made:
        stamp = pad(label, "trouble", body={"what": what}, next=leads)
        return {"what": what, "label": label, "first": list(first), "pad": stamp}

    fire = (
        "Door stays shut. Switch off; unplug if you can reach it safely.",
        "Get out, close the room, call the fire service.",
        "Never water on it. Never carry a smoking cup.",
        "No smoke: leave it shut until it is cool.",
    )
    return [
        one("hot", "Too hot or smoking", *fire, leads="halted"),
        one("spilled", "Spilled", "Keep away until it sets.", "Let it cool, then peel it off."),
        one("burned", "Somebody is burned", "Cool running water, 20 minutes.", "Get medical help."),
        one("other", "Something else", "Set everything down.", "Look, then go on."),
    ]


def live() -> Made:
    chart = (
        '<svg class="heat-chart" viewBox="0 0 640 200" role="img" aria-label="Temperature line">'
        '<line class="grid" x1="74" x2="630" y1="60" y2="60"/>'
        '<text x="68" y="64" text-anchor="end">300 °F</text>'
        '<polygon class="band" points="60,170 200,110 400,60 400,90 200,140 60,180"/>'
        '<polyline class="line" points="60,175 200,125 400,75"/>'
        '<circle class="dot" cx="200" cy="125" r="5"/></svg>'
    )
    return {
        "what": "Plastic now, mean", "now": "338 °F (334 to 342)",
        "read": "341 °F read, 338 expected (333 to 343)",
        "doubted": False, "svg": chart, "pourable_until": iso(130),
        "pourable_words": "2:10 to 3:40", "lesson": "This oven heats 4 % faster than foretold.",
    }  # fmt: skip


def state(shown: Made, **more: Any) -> Made:
    """A State with that screen; `more` replaces its fields."""
    plain = {
        "sheet": 3, "code": "26K26B", "title": "Two dozen marsh worms, long tail", "newest": 41,
        "now": iso(), "screen": {**shown, "began": shown["began"] or iso()}, "ahead": ahead(),
        "clocks": [], "live": None, "undo": None, "said": [], "wrong": troubles(),
        "look_again_s": None, "over": False, "leave": {"words": "To the lot", "address": "/book"},
        "menu": [{"words": "The sheet", "address": "/sheets/3"}],
        "held": [pad("Give cup 1 up", "given_up", body={"cup": 1}),
                 pad("Put the pour away for today", "put_away", hold=True)],
    }  # fmt: skip
    return {**plain, **more}


def crowded(shown: Made) -> Made:
    """The same, with all that can stand beside a step."""
    undo = {"id": "0" * 32, "words": "Mold 1 full", "at": iso()}
    said = ["“Mold 2 full” of the other phone came after the cup was empty: it was left out."]
    return state(shown, clocks=four_clocks(), live=live(), undo=undo, said=said)
