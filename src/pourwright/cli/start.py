"""`pourwright start`: serve the pages on this machine, on request to phones, and open a browser."""

from __future__ import annotations

import errno
import socket
import webbrowser
from contextlib import ExitStack
from pathlib import Path
from threading import Event, Thread

import click

from pourwright.base.errors import BadInput, Conflict, PourwrightError
from pourwright.cli.data_folder import store_file

HOME = "127.0.0.1"
EVERYWHERE = "0.0.0.0"  # noqa: S104  phones come over the network; the door asks for pairing
PORT = 8765
PHONE_PORT = 8766
A_PORT = click.IntRange(0, 65535)


@click.command()
@click.option("--demo", is_flag=True, help="Look around an invented demo bench.")
@click.option("--port", default=PORT, show_default=True, type=A_PORT)
@click.option("--store", type=click.Path(dir_okay=False, path_type=Path), help="The store's file.")
@click.option("--no-browser", is_flag=True, help="Do not open the browser.")
@click.option("--phone", is_flag=True, help="Serve paired phones on this network too, over https.")
@click.option("--phone-port", default=PHONE_PORT, show_default=True, type=A_PORT)
@click.option("--plain", is_flag=True, help="Last resort: phones over http, readable by anybody.")
def start(
    *,
    demo: bool,
    port: int,
    store: Path | None,
    no_browser: bool,
    phone: bool,
    phone_port: int,
    plain: bool,
) -> None:
    """Serve the bench on this machine, and with --phone to paired phones."""
    try:
        _check(port, phone_port, phone=phone, plain=plain)
        with ExitStack() as taken:
            listening = taken.enter_context(bound(port))
            for_phones = None
            if phone:
                for_phones = taken.enter_context(bound(phone_port, EVERYWHERE, "--phone-port"))
            file = store or store_file(demo=demo)
            _serve(listening, for_phones, file, demo=demo, browser=not no_browser, plain=plain)
    except PourwrightError as error:
        click.echo(str(error), err=True)
        raise SystemExit(error.exit_code) from error
    except KeyboardInterrupt:
        click.echo("Pourwright has stopped; everything is kept.")


def _check(port: int, phone_port: int, *, phone: bool, plain: bool) -> None:
    if plain and not phone:
        raise BadInput("--plain", plain, "only goes with --phone, as its last resort")
    if phone and port == phone_port != 0:
        raise BadInput("--phone-port", phone_port, "must differ from --port")


def bound(port: int, host: str = HOME, option: str = "--port") -> socket.socket:
    """A socket on that port, taken before anything else is done; port 0 takes any free one.

    Raises: Conflict if the port is taken or not allowed.
    """
    # Naming TCP lets asyncio switch off Nagle's wait, which costs 40 ms an answer.
    listening = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    listening.setsockopt(socket.SOL_SOCKET, _reuse(), 1)
    try:
        listening.bind((host, port))
        listening.listen()
    except OSError as error:
        listening.close()
        if error.errno in {errno.EADDRINUSE, errno.EACCES} or isinstance(error, PermissionError):
            why = "is in use" if error.errno == errno.EADDRINUSE else "may not be used"
            raise Conflict(f"port {port} {why}: end the other program, or add {option}") from error
        raise
    return listening


def _reuse() -> int:
    """On Windows the usual option would let two programs share a port."""
    return getattr(socket, "SO_EXCLUSIVEADDRUSE", socket.SO_REUSEADDR)


def _serve(
    listening: socket.socket,
    for_phones: socket.socket | None,
    store: Path,
    *,
    demo: bool,
    browser: bool,
    plain: bool,
) -> None:
    # All imported after the ports are ours, so that a refusal is quick.
    from pourwright import wire  # noqa: PLC0415
    from pourwright.cli.phone_listener import phone_listener, told  # noqa: PLC0415
    from pourwright.cli.serve import Listener, serve  # noqa: PLC0415
    from pourwright.web.app import application  # noqa: PLC0415
    from pourwright.web.guard import laptop_door  # noqa: PLC0415
    from pourwright.web.pairing import Pairing  # noqa: PLC0415

    port = listening.getsockname()[1]
    address = f"http://{HOME}:{port}"
    closing, beside, lines = Event(), [], [f"Pourwright is ready at {address}"]
    pairing = Pairing()
    world = wire.world(store)
    if for_phones:
        phones = phone_listener(store, for_phones.getsockname()[1], plain=plain)
        pairing = Pairing(phones.link)
        lines += told(phones.link, address)
        app = application(world, phones.door, closing, pairing)
        beside.append(Listener(app, for_phones, phones.keys))
    if demo:
        wire.fill_demo_if_empty(world)

    def ready() -> None:
        click.echo("\n".join(lines))
        if browser:
            # A browser in the terminal would hold up the server.
            Thread(target=webbrowser.open, args=(address,), daemon=True).start()

    front = Listener(application(world, laptop_door(port), closing, pairing), listening)
    serve(front, tuple(beside), closing=closing, ready=ready)
