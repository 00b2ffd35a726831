"""``python -m batchcook``."""

from batchcook.cli.main import run

run()
