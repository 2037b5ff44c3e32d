"""Pots poured into a pot: mass, cost and past go along, and nothing becomes its own ancestor."""

from __future__ import annotations

import pytest

from pourwright.actions.mix_pots import MixEntry, PotPart, mix_pots
from pourwright.actions.port import World
from pourwright.actions.post_material import Deed, lots_of
from pourwright.actions.see_lot import see_lot
from pourwright.actions.stock_lot_opening import item_of, open_lot
from pourwright.base.errors import BadInput, Conflict, NotFound
from pourwright.shop.material import RemeltPot
from pourwright.shop.move import Move, MoveKind
from pourwright.shop.stock_lot import LotSort
from ready_store import empty_bench

KEYS = [c * 32 for c in "abcdef"]


@pytest.fixture
def world(tmp_path):
    made = empty_bench(tmp_path)
    pots = {
        "green": RemeltPot(name="Green", on_hand_g=300, dose_share=0.1, heats=1),
        "dark": RemeltPot(name="Dark", on_hand_g=100, dose_share=0.4, heats=3, holds_salt=True),
        "new": RemeltPot(name="New", on_hand_g=0),
        "unknown": RemeltPot(name="Unknown past", on_hand_g=50),
        "unweighed": RemeltPot(name="Unweighed"),
        "spent": RemeltPot(name="Spent", on_hand_g=80, dose_share=1.5),
    }
    with made.bench() as bench:
        for key, pot in pots.items():
            bench.records.save(RemeltPot.key, key, pot, expected_version=0)
        bench.commit()
    return made


def pot(world: World, id: str) -> RemeltPot:
    with world.reading() as bench:
        found = bench.records.get(RemeltPot.key, id).noun
    assert isinstance(found, RemeltPot)
    return found


def mix(world: World, into: str, *out: tuple[str, float | None], key: str = KEYS[0]) -> str:
    parts = tuple(PotPart(pot=it, mass_g=grams) for it, grams in out)
    return mix_pots(world, into, MixEntry(parts=parts), key=key)


def masses(world: World) -> dict[str, float | None]:
    return {it: pot(world, it).on_hand_g for it in ("green", "dark", "new", "unknown")}


def test_a_pot_filled_from_two_has_both_as_parents_with_their_mass(world):
    code = mix(world, "new", ("green", 90), ("dark", None))
    assert masses(world) == {"green": 210, "dark": 0, "new": 190, "unknown": 50}
    with world.reading() as bench:
        seen = see_lot(bench, code)
        moves = bench.stock.came_from(code)
    assert [(m.kind, m.mg) for m in moves if m.target == code] == [
        (MoveKind.MIXED, 90_000), (MoveKind.MIXED, 100_000),
    ]  # fmt: skip
    parents = {it.held.lot.name: it.moved_mg for it in seen.lots if it.steps == -1}
    assert parents == {"Green": 90_000, "Dark": 100_000}


def test_the_past_is_mixed_by_mass_and_the_worst_of_each_counts(world):
    mix(world, "new", ("green", 300), ("dark", 100))
    it = pot(world, "new")
    # By hand: (300 x 0.1 + 100 x 0.4) / 400.
    assert it.dose_share == pytest.approx(0.175)
    assert (it.heats, it.holds_salt) == (3, True)


def test_a_past_nobody_knows_leaves_the_whole_unknown(world):
    mix(world, "green", ("unknown", None))
    assert (pot(world, "green").dose_share, pot(world, "green").on_hand_g) == (None, 350)


def test_cost_goes_along_to_the_last_ten_thousandth(world):
    code = mix(world, "new", ("green", 100))
    with world.bench() as bench:
        bench.stock.post(Move(
            id=KEYS[5], at="2026-01-01T00:00:00Z", kind=MoveKind.COUNTED, target=code, cost=1001,
        ))  # fmt: skip
        bench.commit()
    into = mix(world, "dark", ("new", 33), key=KEYS[1])
    with world.reading() as bench:
        assert bench.stock.lot(into).cost == 330
        mix_cost = sum(h.cost for h in bench.stock.lots(LotSort.POT))
    assert mix_cost == 1001


def test_the_same_deed_twice_is_one(world):
    assert mix(world, "new", ("green", 90)) == mix(world, "new", ("green", 90))
    assert masses(world)["new"] == 90


def test_a_loop_is_refused_and_loses_nothing(world):
    mix(world, "dark", ("green", 100))
    before = masses(world)
    with pytest.raises(Conflict, match=r"Dark .* already holds plastic out of Green"):
        mix(world, "green", ("unknown", 10), ("dark", 50), key=KEYS[1])
    assert masses(world) == before
    mix(world, "new", ("dark", 50), key=KEYS[2])
    with pytest.raises(Conflict, match=r"New .* already holds plastic out of Green"):
        mix(world, "green", ("new", 10), key=KEYS[3])


def test_a_pot_that_was_emptied_takes_its_plastic_back_as_a_new_lot(world):
    first = mix(world, "dark", ("green", None))
    again = mix(world, "green", ("dark", 50), key=KEYS[1])
    with world.reading() as bench:
        assert {m.source for m in bench.stock.came_from(again)} >= {first}
    assert masses(world)["green"] == 50


def test_only_what_is_poured_counts_for_a_loop(world):
    """The older lot of the pot holds nothing of the other's, and all that is poured is of it."""
    mix(world, "new", ("dark", 10))
    item, at = item_of(RemeltPot.key, "dark"), "2999-01-01T00:00:00Z"
    with world.bench() as bench:
        (green,) = lots_of(bench, item_of(RemeltPot.key, "green"), Deed(KEYS[4], at, "x/1"))
        later = open_lot(bench, item, "Dark", at=at)
        bench.stock.post(Move(
            id=KEYS[5], at=at, kind=MoveKind.MIXED, source=green.lot.code, target=later.code,
            mg=20_000,
        ))  # fmt: skip
        bench.commit()
    mix(world, "green", ("dark", 90), key=KEYS[1])
    with pytest.raises(Conflict, match="already holds plastic out of Green"):
        mix(world, "green", ("dark", 1), key=KEYS[2])


@pytest.mark.parametrize(
    ("into", "out", "grams", "why"),
    [("green", "green", 10, "is this very pot"),
     ("green", "dark", 100.1, "Dark holds 100 g"),
     ("green", "new", None, "New is empty"),
     ("green", "spent", 10, "has used up its heat budget"),
     ("green", "unweighed", 10, "nobody weighed it"),
     ("unweighed", "green", 10, "nobody weighed it")],
)  # fmt: skip
def test_what_cannot_be_mixed_is_said(world, into, out, grams, why):
    before = masses(world)
    with pytest.raises(BadInput, match=why):
        mix(world, into, (out, grams))
    assert masses(world) == before


def test_a_pot_that_is_none_is_not_found(world):
    with pytest.raises(NotFound):
        mix(world, "green", ("nowhere", 10))
