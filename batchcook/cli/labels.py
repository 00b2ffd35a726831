"""``batchcook labels``: labels again, on other stock, one alone, or blank."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

if TYPE_CHECKING:
    from batchcook.plan import Container

__all__ = ["labels"]


def labels(
    plan: Annotated[
        Path | None,
        typer.Argument(help="A plan folder or its plan.json; not needed for blank labels."),
    ] = None,
    *,
    sheet: Annotated[
        str,
        typer.Option(help="The label stock by size, or a .toml file with your own measurements."),
    ] = "2x4",
    sheets: Annotated[
        bool, typer.Option("--sheets", help="List the label stock and stop.")
    ] = False,
    start_at: Annotated[
        int, typer.Option(min=1, help="First label to use on a part-used sheet, along the rows.")
    ] = 1,
    offset_x: Annotated[
        float, typer.Option(min=-20, max=20, help="Move all to the right, in mm.")
    ] = 0.0,
    offset_y: Annotated[float, typer.Option(min=-20, max=20, help="Move all down, in mm.")] = 0.0,
    only: Annotated[
        list[str] | None,
        typer.Option(help="The code of a container to print alone; may be repeated."),
    ] = None,
    copies: Annotated[int, typer.Option(min=1, max=50, help="How many of each label.")] = 1,
    blank: Annotated[
        int, typer.Option(min=0, max=1000, help="So many blank labels to write on instead.")
    ] = 0,
    test_page: Annotated[
        bool, typer.Option("--test-page", help="Outlines and rulers to hold against the stock.")
    ] = False,
    out: Annotated[Path, typer.Option(help="The PDF to write.")] = Path("labels.pdf"),
) -> None:
    """Print a plan's labels on your own label stock.

    Example: batchcook labels prep-day --sheet 1.33x4 --start-at 5 --only B3 --out label.pdf
    """
    from batchcook.complaints import Complaint, InputFault  # noqa: PLC0415 - only when it runs
    from batchcook.documents import labels as made  # noqa: PLC0415 - loads jinja2
    from batchcook.documents.labelsheets import find_sheet, load_sheets  # noqa: PLC0415 - pydantic
    from batchcook.documents.pdf import PdfUnavailable  # noqa: PLC0415 - the same
    from batchcook.folder import check_ending, write_file  # noqa: PLC0415 - the same

    if sheets:
        for name, each in load_sheets().items():
            typer.echo(f"{name:10} {each.title}")
        return
    check_ending(out, ".pdf")
    stock = find_sheet(sheet)
    offset = (offset_x, offset_y)
    try:
        if test_page:
            content = made.label_test_page_pdf(stock, offset=offset)
        elif blank:
            content = made.blank_labels_pdf(stock, blank, start_at=start_at, offset=offset)
        elif plan is None:
            missing = Complaint("PLAN", "is missing", "a plan folder, --blank or --test-page")
            raise InputFault(missing)
        else:
            content = made.labels_pdf(
                _chosen(plan, only), stock, start_at=start_at, offset=offset, copies=copies
            )
    except PdfUnavailable as missing_library:
        typer.echo(str(missing_library), err=True)
        raise typer.Exit(1) from None
    write_file(out, content)
    typer.echo(f"Written to {out}. Print at 100 %, not fitted to the page.")


def _chosen(plan: Path, only: list[str] | None) -> list[Container]:
    """The plan's containers, or those that were asked for."""
    from batchcook.cli.datewarning import warn_of_date  # noqa: PLC0415 - only here
    from batchcook.documents.labels import pick  # noqa: PLC0415 - loads jinja2
    from batchcook.plan import read_plan  # noqa: PLC0415 - loads pydantic

    chosen = pick(read_plan(plan).containers, only or ())
    for packed_on in dict.fromkeys(each.packed_on for each in chosen):
        warn_of_date(packed_on, str(plan), ahead=True)
    return chosen
