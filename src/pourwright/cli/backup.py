"""`pourwright backup`: a checked copy of the store."""

from __future__ import annotations

from pathlib import Path

import click

from pourwright.base.errors import PourwrightError
from pourwright.cli.data_folder import store_file


@click.command()
@click.argument("target", type=click.Path(dir_okay=False, path_type=Path))
@click.option("--store", type=click.Path(dir_okay=False, path_type=Path), help="The store's file.")
def backup(target: Path, store: Path | None) -> None:
    """Copy the store to TARGET while the bench may be in use, and check the copy."""
    from pourwright import wire  # noqa: PLC0415  so that --help stays quick

    try:
        events = wire.back_up(store or store_file(demo=False), target)
    except PourwrightError as error:
        click.echo(str(error), err=True)
        raise SystemExit(error.exit_code) from error
    click.echo(f"Backed up to {target}: {events} events, all in their chain")
