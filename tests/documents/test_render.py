"""All the files together: always the same bytes, and most of them without Pango."""

from __future__ import annotations

import hashlib
import os
import subprocess
import sys
from pathlib import Path

from sample_plan import sample_plan

from batchcook.documents.render import documents

HERE = Path(__file__).parent

PRINT_HASHES = """
import hashlib
from sample_plan import sample_plan
from batchcook.documents.render import documents
for name, content in documents(sample_plan()).items():
    print(name, hashlib.sha256(content).hexdigest())
"""


def run(code: str, **environment: str) -> subprocess.CompletedProcess[str]:
    path = os.pathsep.join([str(HERE), str(HERE.parents[1])])
    before = environment.pop("first_on_path", "")
    return subprocess.run(
        [sys.executable, "-c", code],
        env={**os.environ, "PYTHONPATH": f"{before}{os.pathsep}{path}", **environment},
        capture_output=True,
        text=True,
        check=False,
    )


def test_the_same_plan_gives_the_same_bytes_in_another_process_at_another_time() -> None:
    here = {
        name: hashlib.sha256(content).hexdigest()
        for name, content in documents(sample_plan()).items()
    }
    other = run(PRINT_HASHES, PYTHONHASHSEED="7", TZ="Pacific/Auckland")
    assert dict(line.split() for line in other.stdout.splitlines()) == here, other.stderr


def test_a_plan_becomes_seven_files() -> None:
    files = documents(sample_plan(2, 1), "a4")
    assert set(files) == {
        "run-sheet.html",
        "run-sheet.pdf",
        "labels.pdf",
        "shopping-list.pdf",
        "shopping-list.csv",
        "kitchen-screen.html",
        "prep-day.ics",
    }
    for name, content in files.items():
        assert content.startswith(b"%PDF") == name.endswith(".pdf")


def test_without_pango_all_but_the_pdfs_is_made_and_the_way_to_install_it_is_told(
    tmp_path: Path,
) -> None:
    (tmp_path / "weasyprint.py").write_text("raise OSError('cannot load library pango')", "utf-8")
    code = """
from sample_plan import sample_plan
from batchcook.documents.render import PdfUnavailable, documents
try:
    documents(sample_plan(2, 1))
except PdfUnavailable as missing:
    print(sorted(missing.without_pdf), missing)
"""
    done = run(code, first_on_path=str(tmp_path))
    without = "['kitchen-screen.html', 'prep-day.ics', 'run-sheet.html', 'shopping-list.csv']"
    assert without in done.stdout, done.stderr
    for system in ("apt install libpango-1.0-0", "brew install pango", "MSYS2"):
        assert system in done.stdout
