"""`pourwright start --phone`: two listeners begin together and end together, or say why not."""

from __future__ import annotations

import asyncio
import ipaddress
import os
import re
import signal
import socket
import ssl
import subprocess
import sys
import threading
import time
from contextlib import contextmanager

import httpx
import pytest
from click.testing import CliRunner

from pourwright.actions.home_network import home_hosts
from pourwright.cli import own_hosts as asked
from pourwright.cli.main import main
from pourwright.cli.own_hosts import own_hosts
from pourwright.cli.phone_listener import phone_listener, told
from pourwright.cli.serve import Listener, serve
from pourwright.cli.start import EVERYWHERE, bound

COMMAND = [sys.executable, "-m", "pourwright.cli.main", "start", "--no-browser", "--port", "0"]
# A person waits no longer than that for the prompt to come back.
MOST_END_S = 6.0


@contextmanager
def started(folder, *options):
    server = subprocess.Popen(
        [*COMMAND, "--store", str(folder / "a.db"), *options],
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
    )  # fmt: skip
    try:
        yield server
    finally:
        server.kill()
        server.communicate()


def line(server: subprocess.Popen[str], begins: str) -> str:
    """The first line that begins so, without its beginning."""
    assert server.stdout is not None
    for text in server.stdout:
        if text.startswith(begins):
            return text.removeprefix(begins).strip()
    raise AssertionError(server.communicate())


def ended(server: subprocess.Popen[str]) -> float:
    """Seconds from Ctrl-C to the end, which must be a good one."""
    began = time.monotonic()
    server.send_signal(signal.SIGINT)
    out, err = server.communicate(timeout=10)
    took = time.monotonic() - began
    assert (server.returncode, err) == (0, "")
    assert "everything is kept" in out
    return took


def run(*arguments: str):
    return CliRunner().invoke(main, ["start", "--no-browser", *arguments])


def test_both_listeners_answer_and_end_in_time(tmp_path):
    with started(tmp_path, "--phone", "--phone-port", "0") as server:
        home = line(server, "Pourwright is ready at ")
        port = re.findall(r":(\d+)", line(server, "For phones on this network: "))[0]
        assert line(server, "Pair one at ") == f"{home}/phones"
        printed = line(server, "Certificate, SHA-256: ")
        assert httpx.get(f"{home}/shelf").status_code == 200
        page = httpx.get(f"{home}/phones").text
        assert all(pair in page for pair in (":".join(printed.split(":")[:8]), port))
        unchecked = ssl._create_unverified_context()  # noqa: S323  the trust is tested elsewhere
        with httpx.Client(verify=unchecked, base_url=f"https://127.0.0.1:{port}") as phone:
            assert phone.get("/shelf").status_code == 401
            # A kept connection, one that never shakes hands, and one that asks in plain http.
            with (
                socket.create_connection(("127.0.0.1", int(port))),
                socket.create_connection(("127.0.0.1", int(port))) as plain,
            ):
                plain.sendall(b"GET / HTTP/1.1\r\nhost: localhost\r\n\r\n")
                assert plain.recv(100)[:1] != b"H"
                assert ended(server) < MOST_END_S


def test_the_certificate_stays_the_same_over_a_restart(tmp_path):
    seen = set()
    for _ in range(2):
        with started(tmp_path, "--phone", "--phone-port", "0") as server:
            seen.add(line(server, "Certificate, SHA-256: "))
            ended(server)
    assert len(seen) == 1


def test_plain_http_is_named_as_what_it_is(tmp_path):
    with started(tmp_path, "--phone", "--plain", "--phone-port", "0") as server:
        address = line(server, "For phones on this network: ").split(" or ")[0]
        assert address.startswith("http://")
        assert "anybody on this network can read" in line(server, "PLAIN HTTP: ")
        port = address.rpartition(":")[2]
        assert httpx.get(f"http://127.0.0.1:{port}/shelf").status_code == 401
        ended(server)
    assert not (tmp_path / "phone").exists()


def test_without_phones_nothing_listens_on_the_network(tmp_path):
    with bound(0, EVERYWHERE, "--phone-port") as taken:
        free = taken.getsockname()[1]
    with started(tmp_path, "--phone-port", str(free)) as server:
        line(server, "Pourwright is ready at ")
        with pytest.raises(ConnectionRefusedError):
            socket.create_connection(("127.0.0.1", free), timeout=1)
        ended(server)
    assert not (tmp_path / "phone").exists()


def test_a_phone_port_in_use_ends_the_start_with_one_sentence(tmp_path):
    with bound(0, EVERYWHERE, "--phone-port") as taken:
        port = taken.getsockname()[1]
        refused = run(
            "--phone", "--phone-port", str(port), "--port", "0", "--store", str(tmp_path / "a.db")
        )
    assert refused.exit_code == 4
    assert refused.stderr == (
        f"port {port} is in use: end the other program, or add --phone-port\n"
    )
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("options", "field"),
    [
        (["--phone", "--port", "9001", "--phone-port", "9001"], "--phone-port: must differ"),
        (["--plain"], "--plain: only goes with --phone"),
    ],
)
def test_options_that_do_not_fit_are_refused_in_words(tmp_path, options, field):
    refused = run(*options, "--store", str(tmp_path / "a.db"))
    assert refused.exit_code == 2
    assert refused.stderr.startswith(field)
    assert list(tmp_path.iterdir()) == []


def test_damaged_keys_end_the_start_with_one_sentence(tmp_path):
    (tmp_path / "phone").mkdir()
    (tmp_path / "phone" / "authority.pem").write_text("damaged")
    refused = run("--phone", "--phone-port", "0", "--port", "0", "--store", str(tmp_path / "a.db"))
    assert refused.exit_code == 4
    assert "authority.pem in the folder phone beside the store is damaged" in refused.stderr
    assert refused.stderr.count("\n") == 1


def test_open_streams_end_at_once():
    """An answer without an end watches `closing`, as the event streams of the pages do."""
    closing, ready = threading.Event(), threading.Event()

    async def endless(_scope, _receive, send):
        await send({"type": "http.response.start", "status": 200, "headers": []})
        while not closing.is_set():
            await send({"type": "http.response.body", "body": b"beat\n", "more_body": True})
            await asyncio.sleep(0.05)
        await send({"type": "http.response.body", "body": b"end\n"})

    sockets = [bound(0), bound(0, EVERYWHERE, "--phone-port")]
    heard: list[bytes] = []
    pressed_at: list[float] = []

    def listen(port: int) -> None:
        with socket.create_connection(("127.0.0.1", port)) as stream:
            stream.sendall(b"GET / HTTP/1.1\r\nhost: x\r\n\r\n")
            stream.settimeout(10)
            while piece := stream.recv(1000):
                heard.append(piece)

    listeners = [threading.Thread(target=listen, args=(s.getsockname()[1],)) for s in sockets]

    def press() -> None:
        ready.wait(10)
        for it in listeners:
            it.start()
        while sum(b"beat" in it for it in heard) < 6:
            time.sleep(0.02)
        pressed_at.append(time.monotonic())
        os.kill(os.getpid(), signal.SIGINT)

    threading.Thread(target=press).start()
    front, beside = (Listener(endless, s) for s in sockets)
    with pytest.raises(KeyboardInterrupt):
        serve(front, (beside,), closing=closing, ready=ready.set)
    assert time.monotonic() - pressed_at[0] < 1
    for it in listeners:
        it.join(5)
    assert b"".join(heard).count(b"end\n") == 2


def test_the_machine_names_its_own_addresses():
    found = own_hosts()
    assert found[-1].endswith(".local") or "." in found[-1]
    for host in found:
        if host[0].isdigit() and not host.endswith(".local"):
            assert not ipaddress.ip_address(host).is_loopback


def test_a_machine_without_a_network_is_served_and_told(tmp_path, monkeypatch):
    monkeypatch.setattr("pourwright.cli.phone_listener.own_hosts", lambda: ("my_pc.local",))
    found = phone_listener(tmp_path / "a.db", 8766, plain=False)
    assert found.link.addresses == ("https://localhost:8766",)
    words = "\n".join(told(found.link, "http://127.0.0.1:8765"))
    assert "No address of a home network was found" in words
    assert "Not served: my_pc.local is not a name of a home network" in words


def test_a_public_address_and_an_office_name_are_left_out_in_words(tmp_path, monkeypatch):
    hosts = ("192.168.1.20", "198.51.100.7", "bench.local", "bench.office.example")
    monkeypatch.setattr("pourwright.cli.phone_listener.own_hosts", lambda: hosts)
    found = phone_listener(tmp_path / "a.db", 8766, plain=False)
    assert found.link.addresses == ("https://192.168.1.20:8766", "https://bench.local:8766")
    assert not any("198.51" in it or "office" in it for it in found.door.hosts)
    words = told(found.link, "http://127.0.0.1:8765")
    assert [it for it in words if it.startswith("Not served")] == [
        "Not served: 198.51.100.7 is not an address of a home network",
        "Not served: bench.office.example is not a name of a home network, such as one in .local",
    ]
    assert not any(it.startswith("No address") for it in words)


@pytest.mark.parametrize("name", ["Bench-PC", "bench-pc.home.arpa", "bench-pc.office.example"])
def test_a_machine_is_found_by_its_name_in_local(monkeypatch, name):
    monkeypatch.setattr("socket.gethostname", lambda: name)
    monkeypatch.setattr(asked, "_addresses_of", lambda _: ("127.0.1.1", "192.168.1.20"))
    monkeypatch.setattr(asked, "_address_towards", lambda _: "10.0.0.5")
    assert own_hosts()[:3] == ("10.0.0.5", "192.168.1.20", "bench-pc.local")
    assert ("bench-pc.home.arpa" in home_hosts(own_hosts()).hosts) is name.endswith("arpa")
