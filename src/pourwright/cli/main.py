"""The `pourwright` command."""

from __future__ import annotations

import click

import pourwright
from pourwright.cli.backup import backup
from pourwright.cli.calc import calc
from pourwright.cli.exchange import export_command, import_command
from pourwright.cli.sheet import sheet
from pourwright.cli.start import start


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(pourwright.__version__, prog_name="pourwright")
def main() -> None:
    """From the idea of a soft-plastic bait to a batch sheet, a poured lot and its cost."""


for command in (start, calc, sheet, backup, export_command, import_command):
    main.add_command(command)


if __name__ == "__main__":
    main()
