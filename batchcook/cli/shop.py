"""``batchcook shop``: what to buy for a plan, in packs, less what is at home."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from batchcook.buying.purchasechanges import Change
    from batchcook.buying.purchases import ShoppingList
    from batchcook.plan import Plan

__all__ = ["shop"]


def shop(
    plan: Annotated[Path | None, typer.Argument(help="A plan folder or its plan.json.")] = None,
    *,
    have: Annotated[
        list[str] | None,
        typer.Option(help='What is at home, as "onion 2 kg" or "quart tub 12"; may be repeated.'),
    ] = None,
    pantry: Annotated[
        Path | None, typer.Option(help="Your pantry file: what is at home, and prices.")
    ] = None,
    prices: Annotated[
        Path | None, typer.Option(help="A price list, where the pantry file has none.")
    ] = None,
    changed_from: Annotated[
        Path | None,
        typer.Option(help="The plan whose list you are shopping; only what changed is shown."),
    ] = None,
    template: Annotated[
        bool, typer.Option("--template", help="Print a pantry file to copy and change, and stop.")
    ] = False,
    json: Annotated[bool, typer.Option("--json", help="As JSON, for a script.")] = False,
    out: Annotated[
        Path | None, typer.Option(help="Write a .pdf or a .csv instead of printing.")
    ] = None,
    paper: Annotated[str, typer.Option(help="letter or a4, for a .pdf.")] = "letter",
) -> None:
    """Show what to buy: packs with the least waste, and the first day for fresh meat.

    Example: batchcook shop prep-day --have "onion 2 kg" --pantry pantry.toml --out list.pdf
    """
    if template:
        from importlib import resources  # noqa: PLC0415 - only here

        text = resources.files("batchcook.data").joinpath("pantry.toml").read_text("utf-8")
        typer.echo(text, nl=False)
        return
    if plan is None:
        typer.echo("Name the plan folder to shop for.", err=True)
        raise typer.Exit(1)

    from batchcook.buying.pantry import load_pantry, parse_have, together  # noqa: PLC0415 - loads pint
    from batchcook.buying.purchasechanges import changes  # noqa: PLC0415 - loads pint
    from batchcook.buying.purchases import shopping_list  # noqa: PLC0415 - the same
    from batchcook.cli.shopviews import print_changes, print_list  # noqa: PLC0415 - loads rich
    from batchcook.plan import read_plan  # noqa: PLC0415 - loads pydantic

    at_hand = together(
        [*(load_pantry(file) for file in (pantry, prices) if file), parse_have(have or ())]
    )
    day = read_plan(plan)
    if changed_from is None:
        bought = shopping_list(day, at_hand)
        if out is None:
            print_list(day, bought, json=json)
        else:
            _write_list(day, bought, out, paper)
        return
    found = changes(read_plan(changed_from), day, at_hand)
    if out is None:
        print_changes(found, json=json)
    else:
        _write_changes(day, found, out, paper)


def _write_list(plan: Plan, bought: ShoppingList, out: Path, paper: str) -> None:
    """The list as a file, by its ending."""
    from batchcook.documents.shoppinglist import (  # noqa: PLC0415 - loads jinja2
        shopping_csv,
        shopping_pdf,
    )

    _write(
        out,
        lambda: shopping_csv(plan, bought),
        lambda: shopping_pdf(plan, paper, bought=bought),
    )


def _write_changes(plan: Plan, found: Sequence[Change], out: Path, paper: str) -> None:
    """What changed as a file, by its ending."""
    from batchcook.documents.shoppingchanges import (  # noqa: PLC0415 - loads jinja2
        changes_csv,
        changes_pdf,
    )

    _write(out, lambda: changes_csv(found), lambda: changes_pdf(plan, found, paper))


def _write(out: Path, values: Callable[[], str], pdf: Callable[[], bytes]) -> None:
    """A file, by its ending.

    Raises:
        InputFault: It ends in neither .pdf nor .csv, or cannot be written.
    """
    from batchcook.documents.pdf import PdfUnavailable  # noqa: PLC0415 - only when it runs
    from batchcook.folder import check_ending, write_file  # noqa: PLC0415 - the same

    check_ending(out, ".pdf", ".csv")
    if out.suffix.lower() == ".csv":
        write_file(out, values().encode())
    else:
        try:
            write_file(out, pdf())
        except PdfUnavailable as missing:
            typer.echo(str(missing), err=True)
            raise typer.Exit(1) from None
    typer.echo(f"Written to {out}.")
