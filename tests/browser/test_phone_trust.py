"""Does each connection do what the page says of it, and is a certificate worth no more than that?

What a secure context is and what it opens: W3C, Secure Contexts (2021), section 3.1; W3C, Screen
Wake Lock API, section 4; W3C, Service Workers, section 3.4.
"""

from __future__ import annotations

import datetime as dt
import http.server
import os
import shutil
import ssl
import subprocess
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from cryptography import x509
from cryptography.hazmat.primitives.serialization import (
    Encoding,
    NoEncryption,
    PrivateFormat,
    load_pem_private_key,
)
from playwright.sync_api import Browser, Error

from browser.phone_bench import CAN, PhoneBench, fresh, phone_bench, started
from pourwright.store.certificate import Signed, new_listener
from pourwright.store.clock import MachineClock

NAME = "bench-test.local"
FOREIGN = "shop.example"
HOLDS = """async () => { const it = await navigator.wakeLock.request("screen"); return it.type; }"""
WORKS_AWAY = """async () => {
  if (!navigator.serviceWorker) return "none";
  try { await navigator.serviceWorker.register("/worker.js"); return "registered"; }
  catch (error) { return error.message; }
}"""


class Site(http.server.BaseHTTPRequestHandler):
    """A page and a worker, to see what a browser makes of a certificate."""

    def do_GET(self) -> None:
        worker = self.path == "/worker.js"
        self.send_response(200)
        self.send_header("content-type", "text/javascript" if worker else "text/html")
        self.end_headers()
        self.wfile.write(b"" if worker else b"<!doctype html><title>Here</title>")

    def log_message(self, *_: object) -> None:
        pass


class Quiet(http.server.ThreadingHTTPServer):
    def handle_error(self, *_: object) -> None:
        """A browser that refuses a certificate breaks the connection off."""


@contextmanager
def site(keys: Path | None) -> Iterator[int]:
    """The port of a small server that shows these keys; none is plain http."""
    server = Quiet(("127.0.0.1", 0), Site)
    if keys:
        context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
        context.load_cert_chain(keys)
        server.socket = context.wrap_socket(
            server.socket, server_side=True, do_handshake_on_connect=False
        )
    thread = threading.Thread(target=server.serve_forever)
    thread.start()
    try:
        yield server.server_address[1]
    finally:
        server.shutdown()
        thread.join()
        server.server_close()


@pytest.fixture(scope="module")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Iterator[PhoneBench]:
    with phone_bench(tmp_path_factory.mktemp("bench")) as it:
        yield it


@pytest.fixture(scope="module")
def stranger(browser: Browser, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Browser]:
    """A browser that trusts nobody's certificate."""
    with started(browser, tmp_path_factory.mktemp("stranger")) as own:
        yield own


@pytest.fixture(scope="module")
def keys(bench: PhoneBench, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Listeners for a home name and a foreign name, signed by the bench's own authority."""
    folder = tmp_path_factory.mktemp("keys")
    text = (bench.keys / "authority.pem").read_bytes()
    key = load_pem_private_key(text, None)
    authority = Signed(key, x509.load_pem_x509_certificate(text))  # type: ignore[arg-type]
    now = dt.datetime.fromisoformat(MachineClock().now())
    for name in (NAME, FOREIGN):
        made = new_listener(authority, (name,), now)
        private = made.key.private_bytes(Encoding.PEM, PrivateFormat.PKCS8, NoEncryption())
        public = made.certificate.public_bytes(Encoding.PEM)
        (folder / f"{name}.pem").write_bytes(private + public)
    (folder / "ca.pem").write_bytes(authority.certificate.public_bytes(Encoding.PEM))
    return folder


@pytest.fixture(scope="module")
def friend(
    browser: Browser, keys: Path, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Browser]:
    """A browser that trusts the bench's certificate."""
    program = shutil.which("certutil")
    if program is None:
        why = "certutil (libnss3-tools) is missing: trust in a browser is NOT TESTED HERE"
        if os.environ.get("CI") == "true":
            pytest.fail(why)
        pytest.skip(why)
    home = tmp_path_factory.mktemp("friend")
    for place in (home / ".pki" / "nssdb", home / ".local" / "share" / "pki" / "nssdb"):
        place.mkdir(parents=True)
        store = f"sql:{place}"
        subprocess.run([program, "-d", store, "-N", "--empty-password"], check=True)
        more = ["-A", "-t", "C,,", "-n", "bench", "-i", str(keys / "ca.pem")]
        subprocess.run([program, "-d", store, *more], check=True)
    with started(browser, home) as own:
        yield own


def test_plain_http_keeps_no_screen_on_and_no_page(stranger: Browser) -> None:
    with site(None) as port, fresh(stranger) as page:
        page.goto(f"http://{NAME}:{port}/")
        assert page.evaluate(CAN) == {"secure": False, "awake": False}
        assert page.evaluate(WORKS_AWAY) == "none"


def test_a_certificate_nobody_trusts_is_warned_of(stranger: Browser, keys: Path) -> None:
    with (
        site(keys / f"{NAME}.pem") as port,
        fresh(stranger) as page,
        pytest.raises(Error, match="ERR_CERT_AUTHORITY_INVALID"),
    ):
        page.goto(f"https://{NAME}:{port}/")


def test_past_the_warning_the_screen_stays_on_but_no_page_is_kept(
    stranger: Browser, keys: Path
) -> None:
    with site(keys / f"{NAME}.pem") as port, fresh(stranger, passes=True) as page:
        page.goto(f"https://{NAME}:{port}/")
        assert page.evaluate(CAN) == {"secure": True, "awake": True}
        assert page.evaluate(HOLDS) == "screen"
        assert "occurred when fetching the script" in page.evaluate(WORKS_AWAY)


def test_with_the_certificate_trusted_all_of_it_works(friend: Browser, keys: Path) -> None:
    with site(keys / f"{NAME}.pem") as port, fresh(friend) as page:
        page.goto(f"https://{NAME}:{port}/")
        assert page.evaluate(CAN) == {"secure": True, "awake": True}
        assert page.evaluate(HOLDS) == "screen"
        assert page.evaluate(WORKS_AWAY) == "registered"


def test_a_browser_that_trusts_it_refuses_a_foreign_name(friend: Browser, keys: Path) -> None:
    """RFC 5280 section 4.2.1.10, as a browser reads it."""
    with (
        site(keys / f"{FOREIGN}.pem") as port,
        fresh(friend) as page,
        pytest.raises(Error, match="ERR_CERT_INVALID"),
    ):
        page.goto(f"https://{FOREIGN}:{port}/")


def test_the_bench_itself_is_trusted_then(friend: Browser, bench: PhoneBench) -> None:
    there = bench.there
    with fresh(friend) as page:
        answer = page.goto(f"{there}/phones/trust")
        assert answer is not None
        assert answer.status == 200
        assert page.evaluate("isSecureContext")
