"""Which names and addresses belong to a home network, and may be served to a phone."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from ipaddress import IPv4Network, IPv6Network, ip_address, ip_network

Network = IPv4Network | IPv6Network

# Names that no registrar can sell: RFC 6762 section 3, RFC 6761 section 6.3, RFC 8375.
HOME_DOMAINS = ("local", "localhost", "home.arpa")
# Addresses that no stranger on the internet has: RFC 1918 section 3, RFC 3927, RFC 1122 section
# 3.2.1.3; RFC 4193, RFC 4291 sections 2.5.3 and 2.5.6.
HOME_NETWORKS: tuple[Network, ...] = tuple(
    ip_network(it)
    for it in (
        "10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "169.254.0.0/16", "127.0.0.0/8",
        "fc00::/7", "fe80::/10", "::1/128",
    )
)  # fmt: skip
_LABEL = re.compile(r"[a-z0-9]([a-z0-9-]{0,61}[a-z0-9])?")
_LONGEST_NAME = 253


@dataclass(frozen=True, slots=True)
class HomeHosts:
    """Hosts in the order they were given; `left_out` says in words what was not taken, and why."""

    hosts: tuple[str, ...]
    left_out: tuple[str, ...]


def home_hosts(given: Iterable[str]) -> HomeHosts:
    """Sort names and addresses into those of a home network and the rest.

    >>> home_hosts(["192.168.1.20", "bench.local", "198.51.100.7"]).hosts
    ('192.168.1.20', 'bench.local')
    """
    found = {host.lower(): _why_not(host.lower()) for host in given}
    return HomeHosts(
        tuple(host for host, why in found.items() if not why),
        tuple(f"{host} {why}" for host, why in found.items() if why),
    )


def is_address(host: str) -> bool:
    """Whether a host is a number rather than a name."""
    try:
        ip_address(host)
    except ValueError:
        return False
    return True


def _why_not(host: str) -> str:
    if is_address(host):
        address = ip_address(host)
        private = any(address in network for network in HOME_NETWORKS)
        return "" if private else "is not an address of a home network"
    fits = all(map(_LABEL.fullmatch, host.split("."))) and len(host) <= _LONGEST_NAME
    home = any(host == it or host.endswith(f".{it}") for it in HOME_DOMAINS)
    return "" if fits and home else "is not a name of a home network, such as one in .local"
