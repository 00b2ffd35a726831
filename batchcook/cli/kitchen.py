"""``batchcook kitchen``: show a kitchen, check a kitchen file."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

__all__ = ["app"]

app = typer.Typer(help="Show or check a kitchen file.", no_args_is_help=True)

_File = Annotated[
    Path | None, typer.Argument(help="A kitchen file; the default kitchen where none is given.")
]


@app.command()
def show(
    file: _File = None,
    *,
    json: Annotated[bool, typer.Option("--json", help="As JSON, for a script.")] = False,
) -> None:
    """Show who cooks, and with what.

    Example: batchcook kitchen show our-kitchen.toml
    """
    from batchcook.kitchens.kitchen import default_kitchen, load_kitchen  # noqa: PLC0415 - loads pint
    from batchcook.kitchens.view import kitchen_rows  # noqa: PLC0415 - the same

    kitchen = load_kitchen(file) if file else default_kitchen()
    rows = kitchen_rows(kitchen)
    if json:
        from json import dumps  # noqa: PLC0415 - only here

        typer.echo(dumps({"title": kitchen.title, **dict(rows)}, indent=1))
        return
    from rich.table import Table  # noqa: PLC0415 - the same

    from batchcook.cli.console import Console  # noqa: PLC0415 - only where a table is drawn

    table = Table(title=kitchen.title, show_header=False)
    for what, text in rows:
        table.add_row(what, text)
    Console().print_table(table)


@app.command()
def check(file: Annotated[Path, typer.Argument(help="A kitchen file.")]) -> None:
    """Say everything that is wrong with a kitchen file.

    Example: batchcook kitchen check our-kitchen.toml
    """
    from batchcook.kitchens.kitchen import load_kitchen  # noqa: PLC0415 - loads pint

    kitchen = load_kitchen(file)
    typer.echo(f"{file}: {kitchen.title} is in order.")


@app.command()
def template() -> None:
    """Print the default kitchen as a file to copy and change.

    Example: batchcook kitchen template > our-kitchen.toml
    """
    from importlib import resources  # noqa: PLC0415 - only here

    typer.echo(
        resources.files("batchcook.data").joinpath("kitchen.toml").read_text("utf-8"), nl=False
    )
