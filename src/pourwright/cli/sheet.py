"""`pourwright sheet`: a batch sheet from a plan in a file, without a store."""

from __future__ import annotations

import json
from pathlib import Path

import click

from pourwright.base.errors import BadInput, Conflict, PourwrightError


@click.command()
@click.argument("plan", type=click.Path(exists=True, dir_okay=False, path_type=Path))
@click.option("--pdf", required=True, type=click.Path(dir_okay=False, path_type=Path))
@click.option("--paper", default="letter", type=click.Choice(["letter", "a4"]), show_default=True)
@click.option("--units", default="us", type=click.Choice(["us", "metric"]), show_default=True)
@click.option("--force", is_flag=True, help="Write over a file that is there.")
def sheet(plan: Path, pdf: Path, paper: str, units: str, *, force: bool) -> None:
    """Print the batch of PLAN, the JSON that `pourwright calc plan.batch` takes, on one page.

    The sheet is numbered 0: it is not kept in the store.
    """
    from pourwright import wire  # noqa: PLC0415  so that --help stays quick

    try:
        if pdf.exists() and not force:
            raise Conflict(f"{pdf.name} stands already; add --force to write over it")
        pdf.write_bytes(wire.loose_sheet_pdf(plan.read_bytes(), paper=paper, units=units))
    except PourwrightError as error:
        click.echo(json.dumps(error.as_json(), ensure_ascii=False), err=True)
        raise SystemExit(error.exit_code) from error
    except OSError as error:
        refused = BadInput("pdf", str(pdf), f"cannot be written: {error.strerror}")
        click.echo(json.dumps(refused.as_json(), ensure_ascii=False), err=True)
        raise SystemExit(refused.exit_code) from error
    click.echo(f"Printed {pdf}")
