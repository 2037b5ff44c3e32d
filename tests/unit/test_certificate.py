"""The bench's certificates convince other programs, and only for hosts of a home network."""

from __future__ import annotations

import datetime as dt
import os
import shutil
import socket
import ssl
import subprocess
import threading
from pathlib import Path

import pytest
from cryptography import x509
from cryptography.hazmat.primitives.serialization import Encoding, NoEncryption, PrivateFormat

from pourwright.base.errors import Conflict
from pourwright.store.certificate import Signed, new_authority, new_listener
from pourwright.store.clock import MachineClock
from pourwright.store.phone_keys import AUTHORITY, LISTENER, phone_keys

NOW = dt.datetime(2026, 11, 26, 12, tzinfo=dt.UTC)
HOSTS = ("192.168.1.20", "bench-test.local", "localhost", "127.0.0.1", "fd00::7")
DAY = dt.timedelta(days=1)
# RFC 5280 section 4.2.1.10; the number is OpenSSL's X509_V_ERR_PERMITTED_VIOLATION.
OUTSIDE = 47


@pytest.fixture(scope="module")
def authority() -> Signed:
    return new_authority(NOW)


def pem(signed: Signed) -> bytes:
    key = signed.key.private_bytes(Encoding.PEM, PrivateFormat.PKCS8, NoEncryption())
    return key + signed.certificate.public_bytes(Encoding.PEM)


def openssl(*arguments: str | Path) -> subprocess.CompletedProcess[str]:
    program = shutil.which("openssl")
    if program is None:
        if os.environ.get("CI") == "true":
            pytest.fail("openssl is missing")
        pytest.skip("openssl is missing")
    return subprocess.run([program, *arguments], capture_output=True, text=True, check=False)


def verdict(folder: Path, authority: Signed, hosts: tuple[str, ...]) -> str:
    """What OpenSSL says of a listener with these hosts."""
    (folder / "ca.pem").write_bytes(authority.certificate.public_bytes(Encoding.PEM))
    listener = new_listener(authority, hosts, NOW)
    (folder / "leaf.pem").write_bytes(listener.certificate.public_bytes(Encoding.PEM))
    at = str(int(NOW.timestamp()))
    told = openssl(
        "verify", "-x509_strict", "-purpose", "sslserver", "-attime", at, "-CAfile",
        folder / "ca.pem", folder / "leaf.pem",
    )  # fmt: skip
    return told.stdout + told.stderr


def test_another_program_accepts_the_listener(tmp_path, authority):
    assert verdict(tmp_path, authority, HOSTS).endswith("leaf.pem: OK\n")


@pytest.mark.parametrize(
    "host",
    ["shop.example", "local.example", "198.51.100.7", "100.64.0.1", "2001:db8::1", "printer.lan"],
)
def test_a_foreign_host_signed_by_the_same_authority_is_refused(tmp_path, authority, host):
    assert f"error {OUTSIDE} " in verdict(tmp_path, authority, (host,))
    assert f"error {OUTSIDE} " in verdict(tmp_path, authority, (*HOSTS, host))


def greeting(authority: Signed, listener: Signed, folder: Path, name: str) -> str:
    """Shake hands over TLS as a client that trusts only this authority; empty if it went well."""
    (folder / "leaf.pem").write_bytes(pem(listener))
    server = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    server.load_cert_chain(folder / "leaf.pem")
    trusted = authority.certificate.public_bytes(Encoding.PEM).decode()
    client = ssl.create_default_context(cadata=trusted)
    here, there = socket.socketpair()

    def answer() -> None:
        try:
            server.wrap_socket(there, server_side=True).close()
        except (ssl.SSLError, OSError):
            there.close()

    thread = threading.Thread(target=answer)
    thread.start()
    try:
        client.wrap_socket(here, server_hostname=name).close()
    except ssl.SSLCertVerificationError as error:
        return f"{error.verify_code} {error.verify_message}"
    finally:
        here.close()
        thread.join()
    return ""


def test_a_client_over_tls_judges_alike(tmp_path):
    now = dt.datetime.fromisoformat(MachineClock().now())
    authority = new_authority(now)
    good = new_listener(authority, HOSTS, now)
    for host in ("192.168.1.20", "bench-test.local"):
        assert greeting(authority, good, tmp_path, host) == ""
    assert greeting(authority, good, tmp_path, "other.local") != ""
    bad = new_listener(authority, ("shop.example",), now)
    assert greeting(authority, bad, tmp_path, "shop.example").startswith(f"{OUTSIDE} ")
    stranger = greeting(new_authority(now), good, tmp_path, "192.168.1.20")
    assert stranger != ""


def test_the_extensions_that_bind_the_authority_are_critical(authority):
    # RFC 5280 sections 4.2.1.9, 4.2.1.3 and 4.2.1.10.
    of = authority.certificate.extensions.get_extension_for_class
    basic, usage, bounds = of(x509.BasicConstraints), of(x509.KeyUsage), of(x509.NameConstraints)
    assert basic.critical
    assert usage.critical
    assert bounds.critical
    assert (basic.value.ca, basic.value.path_length) == (True, 0)
    assert usage.value.key_cert_sign
    assert not usage.value.digital_signature


def test_the_listener_meets_what_phones_ask(authority):
    # Apple Support 103769: SHA-2, a SAN, serverAuth, at most 825 days.
    cert = new_listener(authority, HOSTS, NOW).certificate
    assert cert.signature_hash_algorithm is not None
    assert cert.signature_hash_algorithm.name == "sha256"
    assert cert.not_valid_after_utc - cert.not_valid_before_utc <= 825 * DAY
    usage = cert.extensions.get_extension_for_class(x509.ExtendedKeyUsage).value
    assert [it.dotted_string for it in usage] == ["1.3.6.1.5.5.7.3.1"]  # RFC 5280 section 4.2.1.12


def test_the_fingerprint_is_the_one_another_program_computes(tmp_path):
    keys = phone_keys(tmp_path / "phone", HOSTS, now=NOW)
    (tmp_path / "ca.der").write_bytes(keys.authority)
    for file, form, printed in (
        (tmp_path / "ca.der", "DER", keys.authority_print),
        (keys.listener, "PEM", keys.listener_print),
    ):
        told = openssl("x509", "-inform", form, "-in", file, "-noout", "-fingerprint", "-sha256")
        assert told.stdout.partition("=")[2].strip() == printed


def test_keys_are_kept_and_only_their_owner_may_read_them(tmp_path):
    folder = tmp_path / "new" / "phone"
    first = phone_keys(folder, HOSTS, now=NOW)
    assert phone_keys(folder, reversed(HOSTS), now=NOW + DAY) == first
    assert sorted(it.name for it in folder.iterdir()) == [AUTHORITY, LISTENER]
    if os.name != "nt":
        assert folder.stat().st_mode & 0o777 == 0o700
        assert {it.stat().st_mode & 0o777 for it in folder.iterdir()} == {0o600}


def test_the_download_is_the_certificate_and_nothing_else(tmp_path):
    download = phone_keys(tmp_path, HOSTS, now=NOW).authority
    assert x509.load_der_x509_certificate(download).public_bytes(Encoding.DER) == download


def test_new_addresses_need_a_new_listener_but_no_new_trust(tmp_path):
    first = phone_keys(tmp_path, HOSTS, now=NOW)
    moved = phone_keys(tmp_path, ("10.0.0.9", "bench-test.local"), now=NOW)
    assert moved.authority == first.authority
    assert moved.listener_print != first.listener_print


@pytest.mark.parametrize(("days", "same"), [(366, True), (368, False)])
def test_a_listener_is_renewed_a_month_before_its_end(tmp_path, days, same):
    first = phone_keys(tmp_path, HOSTS, now=NOW)
    later = phone_keys(tmp_path, HOSTS, now=NOW + days * DAY)
    assert (later.listener_print == first.listener_print) is same
    assert later.authority == first.authority


@pytest.mark.parametrize("later", [3650 * DAY, -30 * DAY])
def test_an_authority_out_of_its_time_is_made_anew(tmp_path, later):
    first = phone_keys(tmp_path, HOSTS, now=NOW)
    anew = phone_keys(tmp_path, HOSTS, now=NOW + later)
    assert anew.authority != first.authority
    assert anew.listener_print != first.listener_print


def test_a_listener_never_outlives_its_authority(tmp_path):
    first = phone_keys(tmp_path, HOSTS, now=NOW)
    phone_keys(tmp_path, HOSTS, now=NOW + 3500 * DAY)
    ends = x509.load_der_x509_certificate(first.authority).not_valid_after_utc
    listener = x509.load_pem_x509_certificate((tmp_path / LISTENER).read_bytes())
    assert listener.not_valid_after_utc == ends


@pytest.mark.parametrize("damage", [b"", b"nonsense", b"-----BEGIN CERTIFICATE-----\nAAAA\n"])
def test_a_damaged_listener_is_made_anew(tmp_path, damage):
    first = phone_keys(tmp_path, HOSTS, now=NOW)
    (tmp_path / LISTENER).write_bytes(damage)
    anew = phone_keys(tmp_path, HOSTS, now=NOW)
    assert anew.authority == first.authority
    assert anew.listener_print != first.listener_print


def test_a_listener_of_another_authority_is_made_anew(tmp_path):
    phone_keys(tmp_path, HOSTS, now=NOW)
    (tmp_path / LISTENER).write_bytes(pem(new_listener(new_authority(NOW), HOSTS, NOW)))
    keys = phone_keys(tmp_path, HOSTS, now=NOW)
    kept = x509.load_pem_x509_certificate(keys.listener.read_bytes())
    kept.verify_directly_issued_by(x509.load_der_x509_certificate(keys.authority))


@pytest.mark.parametrize("cut", [0, 50, 400])
def test_a_damaged_authority_is_never_replaced_unasked(tmp_path, cut):
    phone_keys(tmp_path, HOSTS, now=NOW)
    file = tmp_path / AUTHORITY
    damaged = file.read_bytes()[:cut]
    file.write_bytes(damaged)
    with pytest.raises(Conflict, match=r"authority\.pem .* is damaged: move it away"):
        phone_keys(tmp_path, HOSTS, now=NOW)
    assert file.read_bytes() == damaged


def test_a_key_that_does_not_fit_its_certificate_is_damage(tmp_path):
    phone_keys(tmp_path, HOSTS, now=NOW)
    mixed = Signed(new_authority(NOW).key, new_authority(NOW).certificate)
    (tmp_path / AUTHORITY).write_bytes(pem(mixed))
    with pytest.raises(Conflict, match="is damaged"):
        phone_keys(tmp_path, HOSTS, now=NOW)


def test_a_folder_that_cannot_be_made_is_said_in_words(tmp_path):
    (tmp_path / "phone").write_text("a file stands here")
    with pytest.raises(Conflict, match="the folder phone of the phone keys: File exists"):
        phone_keys(tmp_path / "phone", HOSTS, now=NOW)
