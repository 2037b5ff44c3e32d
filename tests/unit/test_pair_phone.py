"""Phones are let in by a secret, listed, and shut out again."""

from __future__ import annotations

import hashlib
import time

import pytest

from fake_bench import FakeJobs, FakeStore
from pourwright import wire
from pourwright.actions.home_network import HOME_NETWORKS, home_hosts
from pourwright.actions.pair_phone import (
    FIRST_NAME,
    LONGEST_NAME,
    SUBJECT,
    free_name,
    pair_phone,
    phone_named,
    phone_with,
    phones,
    revoke_phone,
)
from pourwright.actions.port import World
from pourwright.base.errors import BadInput, NotFound
from pourwright.web.pairing import LIFE_S, MOST_PEERS, Codes, Fate, Tries, new_secret


@pytest.fixture
def world() -> World:
    store, stub = FakeStore(), None
    return World(
        bench=store.bench, reading=store.bench, clock=store.clock, ids=store.ids, jobs=FakeJobs(),
        printer=stub, picture=stub, readers=stub, spectra=stub, exchange=stub,  # type: ignore[arg-type]
    )  # fmt: skip


class Hand:
    """A clock that somebody turns."""

    def __init__(self) -> None:
        self.at_s = 1000.0

    def __call__(self) -> float:
        return self.at_s


def held(world: World, secret: str) -> str:
    with world.bench() as bench:
        phone = phone_with(bench, secret)
    return phone.name if phone else ""


def test_a_paired_phone_is_known_by_its_secret_and_only_by_it(world):
    pair_phone(world, "  Red   phone ", "red secret")
    pair_phone(world, "Blue phone", "blue secret")
    assert held(world, "red secret") == "Red phone"
    assert held(world, "blue secret") == "Blue phone"
    assert held(world, "no secret") == held(world, "") == ""


def test_the_secret_itself_is_not_stored(world):
    pair_phone(world, "Red phone", "red secret")
    with world.bench() as bench:
        (recorded,) = bench.ledger.of(SUBJECT)
    assert recorded.event.kind == "phone_paired"
    assert "red secret" not in repr(recorded)
    assert recorded.event.body["secret_sha256"] == hashlib.sha256(b"red secret").hexdigest()


def test_a_revoked_phone_is_refused_and_stays_in_the_list(world):
    phone = pair_phone(world, "Red phone", "red secret")
    other = pair_phone(world, "Blue phone", "blue secret")
    gone = revoke_phone(world, phone.id)
    assert gone.revoked_at > phone.paired_at
    assert held(world, "red secret") == ""
    assert held(world, "blue secret") == "Blue phone"
    with world.bench() as bench:
        assert phones(bench) == (gone, other)
        assert phone_named(bench, phone.id) == gone


def test_a_second_revoking_writes_nothing(world):
    phone = pair_phone(world, "Red phone", "red secret")
    assert revoke_phone(world, phone.id) == revoke_phone(world, phone.id)
    with world.bench() as bench:
        assert len(bench.ledger.of(SUBJECT)) == 2


def test_a_phone_nobody_paired_is_not_found(world):
    with pytest.raises(NotFound, match="no phone 'x'"):
        revoke_phone(world, "x")


@pytest.mark.parametrize("name", ["", "  ", "x" * (LONGEST_NAME + 1), "a\x00b", "a\u202eb"])
def test_a_name_nobody_can_read_is_refused(world, name):
    with pytest.raises(BadInput, match="must have 1 to 40 characters"):
        pair_phone(world, name, "s")
    with world.bench() as bench:
        assert phones(bench) == ()


def test_the_name_offered_is_free(world):
    def offered() -> str:
        with world.bench() as bench:
            return free_name(bench)

    assert offered() == FIRST_NAME
    first = pair_phone(world, offered(), "a")
    assert offered() == f"{FIRST_NAME} 2"
    pair_phone(world, offered(), "b")
    assert offered() == f"{FIRST_NAME} 3"
    revoke_phone(world, first.id)
    assert offered() == FIRST_NAME


def test_a_revoking_in_another_process_counts_at_once_and_costs_little(tmp_path):
    here, there = wire.world(tmp_path / "a.db"), wire.world(tmp_path / "a.db")
    made = [pair_phone(here, f"Phone {n}", f"secret {n}") for n in range(12)]
    assert held(here, "secret 7") == "Phone 7"
    began = time.perf_counter()
    for _ in range(50):
        held(here, "secret 7")
    each_ms = (time.perf_counter() - began) * 1000 / 50
    # A request may cost 2 ms; the rest is for a busy machine.
    assert each_ms < 20
    revoke_phone(there, made[7].id)
    assert held(here, "secret 7") == ""


def test_a_code_is_good_once():
    codes = Codes()
    code = codes.mint()
    assert codes.fate(code) is Fate.GOOD
    assert codes.redeem(code) is Fate.GOOD
    assert codes.redeem(code) is codes.fate(code) is Fate.USED
    assert codes.standing() is None
    assert codes.redeem("nonsense") is codes.redeem("Ω") is Fate.UNKNOWN


def test_a_code_lives_five_minutes():
    hand = Hand()
    codes = Codes(hand)
    code = codes.mint()
    hand.at_s += LIFE_S - 1
    assert codes.standing() == (code, 1)
    hand.at_s += 1
    assert codes.standing() is None
    assert codes.redeem(code) is codes.newest() is Fate.EXPIRED


def test_a_fresh_code_takes_the_place_of_the_one_before():
    codes = Codes()
    first, second = codes.mint(), codes.mint()
    assert codes.redeem(first) is Fate.REPLACED
    assert codes.redeem(second) is Fate.GOOD


def test_codes_and_secrets_are_long_and_differ():
    # Six bits a sign (RFC 4648 section 5): 22 signs hold 128 bits, 43 hold 256.
    codes, secrets = {Codes().mint() for _ in range(99)}, {new_secret() for _ in range(99)}
    assert len(codes) == len(secrets) == 99
    assert {len(it) for it in codes} == {22}
    assert {len(it) for it in secrets} == {43}


def test_ten_wrong_codes_a_minute_and_no_more():
    hand = Hand()
    tries = Tries(hand)
    for _ in range(10):
        assert tries.wait_s("a") == 0
        tries.note("a")
        hand.at_s += 1
    assert tries.wait_s("a") == 50
    assert tries.wait_s("b") == 0
    hand.at_s += 50
    assert tries.wait_s("a") == 0
    tries.note("a")
    assert tries.wait_s("a") == 1


def test_strangers_do_not_fill_the_memory():
    tries = Tries()
    for n in range(MOST_PEERS + 50):
        tries.note(f"peer {n}")
    assert len(tries._wrong) == MOST_PEERS


@pytest.mark.parametrize(
    ("host", "home"),
    [
        # RFC 1918 section 3: the first and the last of each block, and their neighbors.
        ("10.0.0.0", True), ("10.255.255.255", True), ("9.255.255.255", False), ("11.0.0.0", False),
        ("172.16.0.0", True), ("172.31.255.255", True), ("172.15.255.255", False),
        ("172.32.0.0", False), ("192.168.0.0", True), ("192.168.255.255", True),
        ("192.167.255.255", False), ("192.169.0.0", False),
        # RFC 3927 section 2.1, RFC 4193 section 3.1, RFC 4291 section 2.5.6.
        ("169.254.7.7", True), ("fd00::1", True), ("fe80::1", True), ("2001:db8::1", False),
        # RFC 6598 section 7: shared by a carrier's customers, so no home's own.
        ("100.64.0.1", False),
        # RFC 6762 section 3, RFC 8375 section 3.
        ("bench.local", True), ("Bench.LOCAL", True), ("bench.home.arpa", True),
        ("bench.corp.example", False), ("notlocal", False), ("local.example.org", False),
        ("-bench.local", False), ("my_bench.local", False), ("büro.local", False), ("", False),
    ],
)  # fmt: skip
def test_only_hosts_of_a_home_network_are_served(host, home):
    found = home_hosts([host])
    assert found.hosts == ((host.lower(),) if home else ())
    assert [it.startswith(f"{host.lower()} is not") for it in found.left_out] == [True] * (not home)


def test_the_networks_are_the_ones_without_strangers():
    assert all(it.is_private or it.is_link_local or it.is_loopback for it in HOME_NETWORKS)
