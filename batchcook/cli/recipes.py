"""``batchcook recipes``: list the cookbook, show a recipe, check recipe files."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

if TYPE_CHECKING:
    from batchcook.cli.console import Console
    from batchcook.cookbooks.card import RecipeCard

__all__ = ["app"]

app = typer.Typer(no_args_is_help=True, help="List, show and check recipes.")

Folders = Annotated[
    list[Path] | None,
    typer.Option("--recipes", help="A folder of your own recipes; may be given several times."),
]
AsJson = Annotated[bool, typer.Option("--json", help="Print JSON instead of a table.")]

_HEADS = (
    ("what it is", "title"),
    ("serves", "servings"),
    ("makes", "makes"),
    ("packed", "container"),
    ("freezer months", "freezer_months"),
)
"""What stands beside a recipe's name, with its key in a row."""

_ALL_FIT = 72
"""Characters across from which all of that can be read; a narrower terminal shows the first."""


@app.command("list")
def list_(*, recipes: Folders = None, as_json: AsJson = False) -> None:
    """List the recipes at hand.

    Example: batchcook recipes list --recipes my-recipes
    """
    from batchcook.cookbook import load_cookbook, summaries  # noqa: PLC0415 - keeps --help quick

    rows = summaries(load_cookbook(recipes or ()))
    if as_json:
        typer.echo(json.dumps(rows, indent=1))
        return
    from rich.table import Column, Table  # noqa: PLC0415 - keeps --help quick

    console = _console()
    heads = dict(_HEADS if console.width >= _ALL_FIT else _HEADS[:1])
    # A recipe's name is typed on, so it is never broken.
    table = Table(Column("recipe", no_wrap=True), *heads)
    for row in rows:
        table.add_row(str(row["id"]), *(str(row[key]) for key in heads.values()))
    console.print_table(table)


@app.command()
def show(
    name: Annotated[str, typer.Argument(help="A recipe from the list, such as cottage-pie.")],
    *,
    batches: Annotated[int, typer.Option(min=1, max=12, help="How many batches.")] = 1,
    metric: Annotated[
        bool, typer.Option("--metric", help="Grams, litres and degrees Celsius.")
    ] = False,
    recipes: Folders = None,
) -> None:
    """Show one recipe in full, for as many batches as you like.

    Example: batchcook recipes show cottage-pie --batches 2
    """
    from batchcook.cookbook import find_recipe, load_cookbook  # noqa: PLC0415 - keeps --help quick
    from batchcook.cookbooks.card import recipe_card  # noqa: PLC0415 - the same

    recipe = find_recipe(load_cookbook(recipes or ()), name, "recipes show")
    _print_card(recipe_card(recipe, batches, "metric" if metric else "us"))


@app.command()
def check(
    files: Annotated[
        list[Path] | None,
        typer.Argument(help="Recipe files or folders; without any, the starter recipes."),
    ] = None,
    *,
    as_json: AsJson = False,
) -> None:
    """Check recipe files and say everything that is wrong with them.

    Example: batchcook recipes check my-recipes/chili.toml
    """
    from batchcook.cookbook import check_recipes  # noqa: PLC0415 - keeps --help quick

    report = check_recipes(files or ())
    if as_json:
        typer.echo(json.dumps(report.as_data(), indent=1))
        raise typer.Exit(1 if report.complaints else 0)
    report.raise_faults()
    _console().print(report.in_words())


def _print_card(card: RecipeCard) -> None:
    from rich.table import Table  # noqa: PLC0415 - keeps --help quick
    from rich.text import Text  # noqa: PLC0415 - the same

    console = _console()
    console.print(f"\n{card.title}", style="bold")
    console.print(f"{card.summary}\n")
    facts = Table.grid(padding=(0, 2))
    for word, text in card.facts:
        facts.add_row(f"{word}", text)
    console.print(facts)
    console.print("\nIngredients", style="bold")
    ingredients = Table.grid(padding=(0, 2))
    for line in card.ingredients:
        ingredients.add_row(line.amount, line.note)
    console.print(ingredients)
    console.print("\nOn the prep day", style="bold")
    steps = Table.grid(padding=(0, 2))
    for number, (heading, words) in enumerate(card.steps, 1):
        steps.add_row(f"{number}.", Text.assemble((heading, "bold"), "\n", words))
    console.print(steps)
    console.print("\nOn the night", style="bold")
    console.print(card.night)
    for line in card.add:
        console.print(f"  add {line.amount}" + (f" ({line.note})" if line.note else ""))


def _console() -> Console:
    from batchcook.cli.console import Console  # noqa: PLC0415 - keeps --help quick

    return Console(highlight=False)
