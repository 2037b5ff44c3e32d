"""`pourwright start`: serve the pages on this machine and open the browser."""

from __future__ import annotations

import errno
import socket
import webbrowser
from pathlib import Path
from threading import Thread

import click

from pourwright.base.errors import Conflict, PourwrightError
from pourwright.cli.data_folder import store_file

HOME = "127.0.0.1"
PORT = 8765


@click.command()
@click.option("--demo", is_flag=True, help="Look around an invented demo bench.")
@click.option("--port", default=PORT, show_default=True, type=click.IntRange(0, 65535))
@click.option("--store", type=click.Path(dir_okay=False, path_type=Path), help="The store's file.")
@click.option("--no-browser", is_flag=True, help="Do not open the browser.")
def start(*, demo: bool, port: int, store: Path | None, no_browser: bool) -> None:
    """Serve the bench on this machine only."""
    try:
        listening = bound(port)
        _serve(listening, store or store_file(demo=demo), demo=demo, browser=not no_browser)
    except PourwrightError as error:
        click.echo(str(error), err=True)
        raise SystemExit(error.exit_code) from error
    except KeyboardInterrupt:
        click.echo("Pourwright has stopped; everything is kept.")


def bound(port: int) -> socket.socket:
    """A socket on that port, taken before anything else is done; port 0 takes any free one.

    Raises: Conflict if the port is taken or not allowed.
    """
    # Naming TCP lets asyncio switch off Nagle's wait, which costs 40 ms an answer.
    listening = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    listening.setsockopt(socket.SOL_SOCKET, _reuse(), 1)
    try:
        listening.bind((HOME, port))
        listening.listen()
    except OSError as error:
        listening.close()
        if error.errno in {errno.EADDRINUSE, errno.EACCES} or isinstance(error, PermissionError):
            why = "is in use" if error.errno == errno.EADDRINUSE else "may not be used"
            raise Conflict(f"port {port} {why}: end the other program, or add --port") from error
        raise
    return listening


def _reuse() -> int:
    """On Windows the usual option would let two programs share a port."""
    return getattr(socket, "SO_EXCLUSIVEADDRUSE", socket.SO_REUSEADDR)


def _serve(listening: socket.socket, store: Path, *, demo: bool, browser: bool) -> None:
    import uvicorn  # noqa: PLC0415  after the port is ours, so that a refusal is quick

    from pourwright import wire  # noqa: PLC0415  as above
    from pourwright.web.app import application  # noqa: PLC0415  as above
    from pourwright.web.guard import hosts_of  # noqa: PLC0415  as above

    port = listening.getsockname()[1]
    address = f"http://{HOME}:{port}"
    world = wire.world(store)
    if demo:
        wire.fill_demo_if_empty(world)

    class Announcing(uvicorn.Server):
        """Says when it is ready."""

        async def startup(self, sockets: list[socket.socket] | None = None) -> None:
            await super().startup(sockets)
            click.echo(f"Pourwright is ready at {address}")
            if browser:
                # A browser in the terminal would hold up the server.
                Thread(target=webbrowser.open, args=(address,), daemon=True).start()

    config = uvicorn.Config(
        application(world, hosts_of(port)),
        log_level="warning",
        server_header=False,
        date_header=False,
        timeout_graceful_shutdown=1,
        lifespan="off",
    )
    Announcing(config).run(sockets=[listening])
