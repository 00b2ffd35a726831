"""``python -m batchcook``, and the command that is installed."""

from __future__ import annotations

import sys

__all__ = ["main"]


def main() -> None:
    """Run the program; Ctrl-C while it is still being loaded ends it without a word."""
    try:
        from batchcook.cli.main import run  # noqa: PLC0415 - what Ctrl-C may break off
    except KeyboardInterrupt:
        sys.exit(130)
    run()


if __name__ == "__main__":
    main()
