"""Keys and certificates of the listener for phones, in files beside the store."""

from __future__ import annotations

import datetime as dt
import os
import tempfile
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from cryptography import x509
from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.serialization import (
    Encoding,
    NoEncryption,
    PrivateFormat,
    load_pem_private_key,
)

from pourwright.base.errors import Conflict
from pourwright.store.certificate import (
    Signed,
    fingerprint,
    hosts_in,
    new_authority,
    new_listener,
)

AUTHORITY = "authority.pem"
LISTENER = "listener.pem"
RENEWED_BEFORE = dt.timedelta(days=30)


@dataclass(frozen=True, slots=True)
class PhoneKeys:
    """What a listener needs, and what people compare.

    `listener` holds key and certificate, as PEM; `authority` is the public certificate to trust,
    as DER; the fingerprints are SHA-256.
    """

    listener: Path
    authority: bytes
    authority_print: str
    listener_print: str


def phone_keys(folder: Path, hosts: Iterable[str], *, now: dt.datetime) -> PhoneKeys:
    """The keys in a folder, made or renewed where they do not fit the hosts or the day.

    Raises: Conflict if the authority is damaged or the folder cannot be written.
    """
    wanted = frozenset(hosts)
    try:
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
        authority = _authority(folder / AUTHORITY, now)
        listener = _listener(folder / LISTENER, authority, wanted, now)
    except OSError as error:
        raise Conflict(f"the folder {folder.name} of the phone keys: {error.strerror}") from error
    return PhoneKeys(
        folder / LISTENER,
        authority.certificate.public_bytes(Encoding.DER),
        fingerprint(authority.certificate),
        fingerprint(listener.certificate),
    )


def _authority(file: Path, now: dt.datetime) -> Signed:
    if file.exists():
        kept = _read(file)
        if kept is None:
            raise Conflict(
                f"{file.name} in the folder {file.parent.name} beside the store is damaged: move "
                "it away and start again; a phone that trusted it must then trust the new one"
            )
        if _good(kept.certificate, now):
            return kept
    return _kept(file, new_authority(now))


def _listener(file: Path, authority: Signed, hosts: frozenset[str], now: dt.datetime) -> Signed:
    kept = _read(file) if file.exists() else None
    if kept and _good(kept.certificate, now) and _fits(kept.certificate, authority, hosts):
        return kept
    return _kept(file, new_listener(authority, sorted(hosts), now))


def _good(certificate: x509.Certificate, now: dt.datetime) -> bool:
    lasts = now + RENEWED_BEFORE <= certificate.not_valid_after_utc
    return certificate.not_valid_before_utc <= now and lasts


def _fits(certificate: x509.Certificate, authority: Signed, hosts: frozenset[str]) -> bool:
    try:
        certificate.verify_directly_issued_by(authority.certificate)
        return hosts_in(certificate) == hosts
    except (ValueError, InvalidSignature, x509.ExtensionNotFound):
        return False


def _read(file: Path) -> Signed | None:
    """A key with its certificate; nothing if the file holds no such pair."""
    text = file.read_bytes()
    try:
        key = load_pem_private_key(text, None)
        certificate = x509.load_pem_x509_certificate(text)
    except (ValueError, TypeError):
        return None
    if not isinstance(key, ec.EllipticCurvePrivateKey):
        return None
    return Signed(key, certificate) if key.public_key() == certificate.public_key() else None


def _kept(file: Path, signed: Signed) -> Signed:
    """Write key and certificate in one stroke, readable by their owner only."""
    key = signed.key.private_bytes(Encoding.PEM, PrivateFormat.PKCS8, NoEncryption())
    handle, name = tempfile.mkstemp(prefix=f"{file.name}.", suffix=".new", dir=file.parent)
    new = Path(name)
    try:
        with os.fdopen(handle, "wb") as out:
            out.write(key + signed.certificate.public_bytes(Encoding.PEM))
            out.flush()
            os.fsync(out.fileno())
        new.replace(file)
    except OSError:
        new.unlink(missing_ok=True)
        raise
    return signed
