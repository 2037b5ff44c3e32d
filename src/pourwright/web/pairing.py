"""What the two doors share while the program runs: the code for pairing, and who tries in vain."""

from __future__ import annotations

import hmac
import math
import secrets
import time
from collections import deque
from collections.abc import Callable
from dataclasses import dataclass, field
from enum import Enum
from threading import Lock

from starlette.requests import Request

CODE_BYTES = 16
SECRET_BYTES = 32
LIFE_S = 300.0
MOST_TRIES = 10
TRIES_S = 60.0
MOST_PEERS = 256
MOST_PAST = 64


@dataclass(frozen=True, slots=True)
class PhoneLink:
    """The listener for phones, as the pages tell of it.

    `addresses` begin with the scheme, the best first; fingerprints and `certificate` (DER) are
    empty over plain http; `left_out` says in words what the machine is called but not served as.
    """

    addresses: tuple[str, ...]
    secure: bool
    certificate: bytes = b""
    authority_print: str = ""
    listener_print: str = ""
    left_out: tuple[str, ...] = ()


class Fate(Enum):
    """What became of a code somebody shows."""

    GOOD = "good"
    USED = "used"
    EXPIRED = "expired"
    REPLACED = "replaced"
    UNKNOWN = "unknown"


@dataclass(slots=True)
class _Code:
    text: str
    until_s: float
    fate: Fate = Fate.GOOD


class Codes:
    """Pairing codes: one at a time, each good once and for five minutes; none is ever stored."""

    def __init__(self, now: Callable[[], float] = time.time) -> None:
        self._now = now
        self._lock = Lock()
        self._made: deque[_Code] = deque(maxlen=MOST_PAST)

    def mint(self) -> str:
        """A fresh code of 128 random bits; it takes the place of the one before."""
        fresh = _Code(secrets.token_urlsafe(CODE_BYTES), self._now() + LIFE_S)
        with self._lock:
            for code in self._made:
                if self._fate(code) is Fate.GOOD:
                    code.fate = Fate.REPLACED
            self._made.append(fresh)
        return fresh.text

    def standing(self) -> tuple[str, int] | None:
        """The code that is good now, and for how many whole seconds more."""
        with self._lock:
            for code in self._made:
                if self._fate(code) is Fate.GOOD:
                    return code.text, math.ceil(code.until_s - self._now())
        return None

    def newest(self) -> Fate:
        """What became of the code made last."""
        with self._lock:
            return self._fate(self._made[-1]) if self._made else Fate.UNKNOWN

    def fate(self, text: str) -> Fate:
        """What became of a code, without using it."""
        with self._lock:
            found = self._found(text)
            return self._fate(found) if found else Fate.UNKNOWN

    def redeem(self, text: str) -> Fate:
        """Use a code: GOOD to one caller and only once."""
        with self._lock:
            found = self._found(text)
            fate = self._fate(found) if found else Fate.UNKNOWN
            if found and fate is Fate.GOOD:
                found.fate = Fate.USED
            return fate

    def _found(self, text: str) -> _Code | None:
        held = None
        for code in self._made:  # all of them, so that the time taken tells nothing
            if hmac.compare_digest(code.text.encode(), text.encode()):
                held = code
        return held

    def _fate(self, code: _Code) -> Fate:
        good_no_more = code.fate is Fate.GOOD and self._now() >= code.until_s
        return Fate.EXPIRED if good_no_more else code.fate


class Tries:
    """Wrong codes by the address they came from: ten a minute, then a wait."""

    def __init__(self, now: Callable[[], float] = time.time) -> None:
        self._now = now
        self._lock = Lock()
        self._wrong: dict[str, deque[float]] = {}

    def note(self, peer: str) -> None:
        """Remember a wrong code."""
        with self._lock:
            if peer not in self._wrong and len(self._wrong) >= MOST_PEERS:
                self._wrong.pop(next(iter(self._wrong)))
            self._wrong.setdefault(peer, deque(maxlen=MOST_TRIES)).append(self._now())

    def wait_s(self, peer: str) -> int:
        """Whole seconds until that address may try again; 0 if it may now."""
        with self._lock:
            times = self._wrong.get(peer)
            if times is None or len(times) < MOST_TRIES:
                return 0
            return max(math.ceil(times[0] + TRIES_S - self._now()), 0)


@dataclass(frozen=True, slots=True)
class Pairing:
    """Shared by both doors; without a `link` no phone can come in."""

    link: PhoneLink | None = None
    codes: Codes = field(default_factory=Codes)
    tries: Tries = field(default_factory=Tries)


def new_secret() -> str:
    """What a device shows at the door from now on: 256 random bits."""
    return secrets.token_urlsafe(SECRET_BYTES)


def pairing_of(request: Request) -> Pairing:
    """What the application of this request shares with the other door."""
    found: Pairing = request.app.state.pairing
    return found
