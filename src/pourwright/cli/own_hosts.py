"""The names and addresses of this machine, asked of itself: nothing is sent to the network."""

from __future__ import annotations

import socket

# One address in each range a home network may use, and one of the internet's that belongs to
# nobody (RFC 5737): the system says by which of its own addresses it would go there.
_TOWARDS = ("198.51.100.1", "192.168.0.1", "10.0.0.1", "172.16.0.1", "169.254.0.1")
LOOPBACK = "127."


def own_hosts() -> tuple[str, ...]:
    """IPv4 addresses, the one of the default route first, then the name in .local and the full one.

    Loopback addresses are left out.
    """
    full = socket.gethostname().lower()
    first = full.partition(".")[0]
    found = [*map(_address_towards, _TOWARDS), *_addresses_of(full)]
    addresses = [it for it in found if it and not it.startswith(LOOPBACK)]
    names = [f"{first}.local", *([full] if "." in full else [])]
    return tuple(dict.fromkeys([*addresses, *names]))


def _address_towards(there: str) -> str:
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asked:
        try:
            asked.connect((there, 9))  # a datagram socket that connects sends nothing
        except OSError:
            return ""
        return str(asked.getsockname()[0])


def _addresses_of(name: str) -> tuple[str, ...]:
    try:
        found = socket.getaddrinfo(name, None, socket.AF_INET, socket.SOCK_STREAM)
    except OSError:
        return ()
    return tuple(str(address[0]) for *_, address in found)
