"""Ctrl-C ends a search, and the program with it, however many searches there were before."""

from __future__ import annotations

import subprocess
import sys

SEARCH = """
import os, signal, threading, time
from ortools.sat.python import cp_model
from batchcook.scheduling.stopping import solved

def model(holes):
    found = cp_model.CpModel()
    sits = [[found.new_bool_var("") for _ in range(holes)] for _ in range(holes + 1)]
    for pigeon in sits:
        found.add_bool_or(pigeon)
    for hole in zip(*sits):
        found.add(sum(hole) <= 1)
    return found

class Pressed(cp_model.CpSolver):
    again = True

    def stop_search(self):
        if self.again:
            self.again = False
            signal.raise_signal(signal.SIGINT)
        super().stop_search()

def solver():
    made = Pressed()
    made.parameters.max_time_in_seconds = 30
    made.parameters.num_workers = 2
    made.parameters.symmetry_level = 0
    made.parameters.cp_model_presolve = False
    made.parameters.linearization_level = 0
    return made

assert solved(solver(), model(2)) == cp_model.INFEASIBLE
began = time.monotonic()
threading.Timer(0.3, os.kill, (os.getpid(), signal.SIGINT)).start()
try:
    print(solved(solver(), model(14)))
except KeyboardInterrupt:
    print("stopped", time.monotonic() - began < 15)
"""
"""Fifteen pigeons in fourteen holes: impossible, and long to prove by search alone."""


def test_a_search_ends_with_ctrl_c_pressed_twice() -> None:
    told = subprocess.run(
        [sys.executable, "-c", SEARCH], capture_output=True, text=True, check=False
    )
    assert (told.returncode, told.stdout, told.stderr) == (0, "stopped True\n", "")
