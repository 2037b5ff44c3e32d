"""The listener for phones: where it answers, with which keys, and what the start says of it."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from pourwright import wire
from pourwright.actions.home_network import home_hosts, is_address
from pourwright.cli.own_hosts import own_hosts
from pourwright.web.guard import USUAL_PORTS, Door, phone_door
from pourwright.web.pairing import PhoneLink

# The machine itself may ask as well, for a look at what a phone sees.
ITSELF = ("localhost", "127.0.0.1")


@dataclass(frozen=True, slots=True)
class PhoneListener:
    """A door for phones, what the pages say of it, and its keys; none over plain http."""

    door: Door
    link: PhoneLink
    keys: Path | None


def phone_listener(store: Path, port: int, *, plain: bool) -> PhoneListener:
    """The listener on that port, under every name and address of a home network this machine has.

    Raises: Conflict if its keys are damaged or cannot be written.
    """
    found = home_hosts(own_hosts())
    hosts = (*found.hosts, *ITSELF)
    scheme = "http" if plain else "https"
    addresses = tuple(_address(host, port, scheme) for host in found.hosts or ITSELF[:1])
    door = phone_door(hosts, port, scheme)
    if plain:
        return PhoneListener(door, PhoneLink(addresses, False, left_out=found.left_out), None)
    keys = wire.keys_for_phones(store, hosts)
    link = PhoneLink(
        addresses,
        secure=True,
        certificate=keys.authority,
        authority_print=keys.authority_print,
        listener_print=keys.listener_print,
        left_out=found.left_out,
    )
    return PhoneListener(door, link, keys.listener)


def told(link: PhoneLink, home: str) -> list[str]:
    """What the start says of the listener, line by line; `home` is the laptop's own address."""
    lines = [
        f"For phones on this network: {' or '.join(link.addresses)}",
        f"Pair one at {home}/phones",
    ]
    if not any(is_address(it.split("/")[2].partition(":")[0]) for it in link.addresses):
        lines.append(
            "No address of a home network was found, only a name, which not every network finds: "
            "join the network the phone is on, and start again"
        )
    lines += [f"Not served: {words}" for words in link.left_out]
    if link.secure:
        lines.append(f"Certificate, SHA-256: {link.authority_print}")
    else:
        lines.append(
            "PLAIN HTTP: a last resort; anybody on this network can read what passes and act as "
            "your phone"
        )
    return lines


def _address(host: str, port: int, scheme: str) -> str:
    return f"{scheme}://{host}" + ("" if port == USUAL_PORTS[scheme] else f":{port}")
