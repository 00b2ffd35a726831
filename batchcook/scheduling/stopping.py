"""A CP-SAT search that Ctrl-C ends."""

from __future__ import annotations

from concurrent.futures import Future, wait
from contextlib import suppress
from threading import Thread

from ortools.sat.python import cp_model

__all__ = ["solved"]

_LOOK = 0.05
"""Seconds between two looks whether Ctrl-C was pressed, where it does not wake who waits."""


def solved(
    solver: cp_model.CpSolver,
    model: cp_model.CpModel,
    told: cp_model.CpSolverSolutionCallback | None = None,
) -> cp_model.CpSolverStatus:
    """Search a model as the solver is set.

    Left to itself CP-SAT takes Ctrl-C for the end of that one search, and the program goes on
    with what it has found; after a search Ctrl-C ends the program as if by force, in the middle
    of whatever it writes. So the search runs beside, and who asked for it waits to be interrupted.

    Raises:
        KeyboardInterrupt: Ctrl-C was pressed, and the search has ended.
    """
    solver.parameters.catch_sigint_signal = False
    found: Future[cp_model.CpSolverStatus] = Future()

    def searched() -> None:
        try:
            found.set_result(solver.solve(model) if told is None else solver.solve(model, told))
        except BaseException as fault:  # noqa: BLE001 - raised again where it is waited for
            found.set_exception(fault)

    Thread(target=searched, daemon=True).start()
    try:
        # The thread itself is not asked: of a join that Ctrl-C breaks off it says that it is over.
        while not found.done():
            wait((found,), _LOOK)
    finally:
        while not found.done():  # a search that has only just begun may not hear it the first time
            with suppress(KeyboardInterrupt):  # pressed again: the search has to end all the same
                solver.stop_search()
                wait((found,), _LOOK)
    return found.result()
