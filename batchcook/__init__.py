"""Plan a freezer-cooking prep day, label what it makes, and eat it in time."""

__all__ = ["__version__"]

__version__ = "0.1.0"
