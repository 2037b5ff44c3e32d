"""`pourwright export` and `pourwright import`: a whole bench as one JSON file, and back."""

from __future__ import annotations

from pathlib import Path

import click

from pourwright.base.errors import PourwrightError
from pourwright.cli.data_folder import store_file

_STORE = click.option(
    "--store", type=click.Path(dir_okay=False, path_type=Path), help="The store's file."
)


@click.command("export")
@click.argument("target", type=click.Path(dir_okay=False, path_type=Path))
@_STORE
def export_command(target: Path, store: Path | None) -> None:
    """Write the whole bench into the JSON file TARGET; the bench may be in use meanwhile.

    The file holds everything, customers' addresses among it.
    """
    from pourwright import wire  # noqa: PLC0415  so that --help stays quick

    try:
        size = wire.export_store(store or store_file(demo=False), target)
    except PourwrightError as error:
        click.echo(str(error), err=True)
        raise SystemExit(error.exit_code) from error
    click.echo(f"Wrote {target}: {size:,} bytes, everything the bench holds")


@click.command("import")
@click.argument("source", type=click.Path(dir_okay=False, path_type=Path))
@_STORE
def import_command(source: Path, store: Path | None) -> None:
    """Fill an empty bench from the JSON file SOURCE; one that holds anything is left alone."""
    from pourwright import wire  # noqa: PLC0415  so that --help stays quick

    try:
        found = wire.import_store(store or store_file(demo=False), source)
    except PourwrightError as error:
        click.echo(str(error), err=True)
        raise SystemExit(error.exit_code) from error
    click.echo(f"Took in {found.rows.get('event', 0):,} events, all in their chain")
