"""Pair a phone with the bench, and take the pairing back."""

from __future__ import annotations

import hashlib
import hmac
from dataclasses import dataclass, replace

from pourwright.actions.port import Bench, Event, World
from pourwright.base.errors import BadInput, NotFound

SUBJECT = "phones"
PHONE_PAIRED = "phone_paired"
PHONE_REVOKED = "phone_revoked"
FIRST_NAME = "Phone at the bench"
LONGEST_NAME = 40


@dataclass(frozen=True, slots=True)
class Phone:
    """A paired device; times are UTC, ISO 8601, and `revoked_at` is empty while it may come in.

    `secret_sha256` is the digest, in hex, of what the device shows at the door.
    """

    id: str
    name: str
    paired_at: str
    secret_sha256: str
    revoked_at: str = ""


def phones(bench: Bench) -> tuple[Phone, ...]:
    """Every device ever paired, oldest first."""
    found: dict[str, Phone] = {}
    for recorded in bench.ledger.of(SUBJECT):
        event, body = recorded.event, recorded.event.body
        key = body["phone"]
        if event.kind == PHONE_PAIRED:
            found[key] = Phone(key, body["name"], event.at, body["secret_sha256"])
        elif event.kind == PHONE_REVOKED and key in found:
            found[key] = replace(found[key], revoked_at=event.at)
    return tuple(found.values())


def phone_named(bench: Bench, id: str) -> Phone:
    """One device. Raises: NotFound."""
    for phone in phones(bench):
        if phone.id == id:
            return phone
    raise NotFound(f"no phone {id!r} was ever paired with this bench")


def phone_with(bench: Bench, secret: str) -> Phone | None:
    """The device that holds this secret and was not revoked."""
    shown = secret_sha256(secret)
    held = None
    # Every device is compared, each in constant time, so that the time taken tells nothing.
    for phone in phones(bench):
        if hmac.compare_digest(phone.secret_sha256, shown) and not phone.revoked_at:
            held = phone
    return held


def free_name(bench: Bench) -> str:
    """A name for the next device that no device in use has."""
    taken = {it.name for it in phones(bench) if not it.revoked_at}
    names = (FIRST_NAME, *(f"{FIRST_NAME} {n}" for n in range(2, len(taken) + 2)))
    return next(name for name in names if name not in taken)


def checked_name(name: str) -> str:
    """A device's name with single blanks, 1 to 40 characters. Raises: BadInput."""
    plain = " ".join(name.split())
    if not plain or len(plain) > LONGEST_NAME or not plain.isprintable():
        raise BadInput("name", name, f"must have 1 to {LONGEST_NAME} characters that can be read")
    return plain


def pair_phone(world: World, name: str, secret: str) -> Phone:
    """Let the device that holds `secret` in; only the digest of the secret is kept.

    Raises: BadInput for a name that cannot be read.
    """
    plain = checked_name(name)
    phone = Phone(world.ids.fresh(), plain, world.clock.now(), secret_sha256(secret))
    body = {"phone": phone.id, "name": phone.name, "secret_sha256": phone.secret_sha256}
    _keep(world, PHONE_PAIRED, phone.paired_at, body)
    return phone


def revoke_phone(world: World, id: str) -> Phone:
    """Refuse a device from its next request on; a second time changes nothing. Raises: NotFound."""
    with world.bench() as bench:
        phone = phone_named(bench, id)
    if phone.revoked_at:
        return phone
    now = world.clock.now()
    _keep(world, PHONE_REVOKED, now, {"phone": id})
    return replace(phone, revoked_at=now)


def secret_sha256(secret: str) -> str:
    """The digest under which a secret is known, in hex."""
    return hashlib.sha256(secret.encode()).hexdigest()


def _keep(world: World, kind: str, at: str, body: dict[str, str]) -> None:
    with world.bench() as bench:
        bench.ledger.append(Event(world.ids.fresh(), SUBJECT, kind, at, body))
        bench.commit()
