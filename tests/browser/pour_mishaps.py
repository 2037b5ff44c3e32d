"""What goes wrong in a whole pour: each of these happens to a hand, and leaves nothing lost."""

from __future__ import annotations

import time

from playwright.sync_api import expect

from browser.pour_hand import LINKED, PATIENCE_S, Hand
from browser.pour_sight import Finger

OUTAGE_S, SAME_STEP_S, LOST_S, WILD_K = 60.0, 2.0, 20.0, 25.0
# A screen that changed by itself takes no press for so long.
DEAF_MS = 800
OUT = "() => window.bench.link() === 'out'"
SENT = "() => !window.bench.outbox().length"


def play_to_reading(hand: Hand, hotter_than_c: float) -> None:
    """On to the first reading of a cup that truly is so hot."""
    while True:
        seen = hand.play_to("Keep reading")
        if hand.kitchen.mean_c(seen.cup) > hotter_than_c:
            return
        hand.act(seen)


def undone_at_once(hand: Hand) -> None:
    hand.play_to("Read the start")
    hand.press("Undo: ")
    assert hand.settled().name == "Mix the jug"


def undone_by_holding(hand: Hand) -> None:
    """After ten seconds an undo is held, and a mere touch does nothing."""
    hand.play_to("Weigh")
    hand.act(hand.settled())
    hand.server.pass_s(11)
    undo = hand.pad("Hold to undo: ")
    undo.tap()
    expect(hand.page.locator("#refused")).to_contain_text("Held too briefly")
    hand.press("Hold to undo: ", hold=True)
    seen = hand.settled()
    assert (seen.step, seen.cup) == ("Weigh", 1)
    hand.weighed_g.clear()


def celsius_typed_as_fahrenheit(hand: Hand) -> None:
    play_to_reading(hand, 120.0)
    read_f = hand.read(hand.settled(), lambda f: round((f - 32) / 1.8))
    assert hand.settled().name == "Which unit?"
    hand.press(f"It was {round((read_f - 32) / 1.8)}")


def something_wrong(hand: Hand) -> None:
    """It is stamped at once and halts everything until somebody says that all is well."""
    hand.play_to("Oven started")
    known = set(hand.made)
    hand.page.locator("#trouble").tap()
    hand.rest(400)
    hand.page.locator("#trouble-over .pad", has_text="Something else").tap()
    expect(hand.page.locator(".do-first li").first).to_contain_text("Oven off")
    hand.page.wait_for_function(SENT)
    (stamped,) = set(hand.made) - known
    assert hand.made[stamped]["kind"] == "went_wrong"
    hand.rest(400)
    hand.page.locator("#trouble-over .pad", has_text="Go on").tap()
    assert hand.settled().main == "All is well: go on"
    hand.press("All is well: go on")
    assert hand.settled().main == "Oven started"


def reloaded(hand: Hand) -> None:
    seen, sent, at = hand.play_to("Oven on"), len(hand.made), time.monotonic()
    hand.page.reload()
    hand.page.wait_for_function(LINKED)
    after, took_s = hand.settled(), time.monotonic() - at
    assert (after.step, after.name, after.about) == (seen.step, seen.name, seen.about)
    assert abs(seen.left_s - after.left_s - took_s) < 2
    assert len(hand.made) == sent


def wild_reading(hand: Hand) -> None:
    """A reading 25 K off is doubted, asked about, and put right by the next one."""
    play_to_reading(hand, 130.0)
    seen = hand.settled()
    hand.read(seen, lambda f: f + round(WILD_K * 1.8))
    asked = hand.settled()
    assert asked.main == "Keep reading"
    assert asked.cup == seen.cup
    assert "does not fit what was done to the cup" in asked.words


def dropped_link(hand: Hand) -> None:
    """A minute without any link, in which an oven runs out and rings, is read, and starts anew."""
    hand.play_to("Oven started")
    known, page = list(hand.made), hand.page
    page.context.set_offline(True)
    hand.server.kill()
    gone = time.monotonic()
    page.wait_for_function(OUT, timeout=8000)
    rung = len(page.evaluate("window.bench.rang"))
    hand.act(hand.settled())
    burst_s = hand.look().left_s
    page.wait_for_function(
        "n => window.bench.rang.length > n", arg=rung, timeout=1e3 * burst_s + 3e3
    )
    for phase in ("Rest", "Stir and read"):
        expect(page.locator("#phase-name")).to_have_text(phase, timeout=1e3 * PATIENCE_S)
    hand.act(hand.settled())
    assert hand.look().link == "out"
    kept = page.evaluate("window.bench.outbox().map(tap => tap.kind)")
    hand.rest(max(0.0, OUTAGE_S - (time.monotonic() - gone)) * 1e3)
    assert hand.look().link == "out"
    hand.server.start()
    page.context.set_offline(False)
    page.wait_for_function(LINKED)
    page.wait_for_function(SENT)
    made = [tap["kind"] for tap in hand.made.values()][len(known) :]
    assert made[:2] == kept[:2] == ["burst_begun", "cup_read"]


def same_step_within_two_seconds(first: Hand, second: Hand) -> None:
    """Of three taps one at least arrives in time, whatever else the machine does; none is lost."""
    waited = []
    for _ in range(3):
        first.act(first.settled())
        begun = time.monotonic()
        while second.look().still[:5] != first.look().still[:5]:
            assert time.monotonic() < begun + LOST_S, (first.look(), second.look())
            second.rest()
        waited.append(time.monotonic() - begun)
    assert min(waited) < SAME_STEP_S


def both_tap_at_once(first: Hand, second: Hand) -> None:
    """Two fingers on the pad of one filling: both taps are kept, one counts, and it is said.

    Neither device hears of the other's tap before its own is made: the laptop answers after both.
    """
    seen, sent = first.play_to("Mold full"), len(first.made)
    assert first.until(lambda: second.look().still[:5] == seen.still[:5])
    second.rest(2 * DEAF_MS)
    fingers = [Finger(hand.page.locator("#main-place .pad")) for hand in (first, second)]
    first.server.hold()
    for finger in fingers:
        finger.down()
    for finger in fingers:
        finger.up()
    first.until(lambda: len(first.made) > sent and len(second.made) > 0)
    first.server.let_go()
    for hand in (first, second):
        hand.page.wait_for_function(SENT)
    seen_by = [hand.look() for hand in (first, second)]
    assert [len(hand.made) for hand in (first, second)] == [sent + 1, 1], seen_by
    for hand in (first, second):
        expect(hand.page.locator("#strip")).to_contain_text("2 notes")
        hand.page.locator("#strip").tap()
        expect(hand.page.locator("#more-told")).to_contain_text(
            "Kept, but it does not count: mold 1 was full already: tapped twice, or on two phones"
        )
        hand.page.locator("#more-over [data-close]").tap()
    for cup, grams in first.shots_g.items():
        first.kitchen.draw(cup, first.server.now(), grams)
    assert first.settled().name != seen.name
    assert [len(hand.look().chips) for hand in (first, second)] == [2, 2]


def killed_in_the_middle(hand: Hand) -> None:
    """The server is killed while it holds an unanswered tap, and started on the same store."""
    hand.play_to("Flash")
    hand.count("Flash", hand.counts["Flash"])
    hand.server.hold()
    with hand.page.expect_request("**/taps"):
        hand.page.locator("#main-place .pad").tap()
    hand.server.kill()
    hand.server.start()
    hand.page.wait_for_function(SENT)
    hand.page.wait_for_function(LINKED)
    assert hand.settled().name == "Short"
