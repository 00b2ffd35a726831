"""How soon the kitchen screen of the sample day is ready in Chromium, and how large it is.

Run it as ``python tests/benchmarks/kitchen_screen_speed.py [PLAN]``.
"""

from __future__ import annotations

import shutil
import statistics
import sys
import tempfile
import time
from pathlib import Path

from playwright.sync_api import sync_playwright

from batchcook.documents.kitchenscreen import kitchen_screen_html
from batchcook.plan import read_plan

_SAMPLE = Path(__file__).parents[2] / "output_samples" / "prep-day"
_FLAGS = ("--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking")
_TIMES = 7


def main(folder: Path) -> None:
    """Print seconds until the page is ready, and to time the rest again once."""
    text = kitchen_screen_html(read_plan(folder))
    print(f"{len(text.encode()) / 1000:.0f} kB")
    with tempfile.TemporaryDirectory() as place, sync_playwright() as playwright:
        file = Path(place) / "kitchen-screen.html"
        file.write_text(text, "utf-8")
        browser = playwright.chromium.launch(
            executable_path=shutil.which("chromium"), args=list(_FLAGS)
        )
        ready = []
        again = 0.0
        for _ in range(_TIMES):
            page = browser.new_page()
            began = time.perf_counter()
            page.goto(file.as_uri())
            page.wait_for_selector("html[data-ready]", state="attached")
            ready.append(time.perf_counter() - began)
            again = page.evaluate(
                "() => { const from = performance.now();"
                " for (let i = 0; i < 20; i += 1) kitchenScreen.timesAt(i);"
                " return (performance.now() - from) / 20; }"
            )
            page.close()
        browser.close()
    print(f"ready in {statistics.median(ready):.2f} s (median of {_TIMES}; worst {max(ready):.2f})")
    print(f"timed again in {again:.1f} ms")


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else _SAMPLE)
