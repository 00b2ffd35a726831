"""One search: what it is given, and what it does when the library fails."""

from __future__ import annotations

from unittest import mock

import pytest
from ortools.sat.python import cp_model

from batchcook.scheduling.searching import BOTH_ENDS, FINDING, IMPROVING, OWN, Kind, search


def _model() -> tuple[cp_model.CpModel, cp_model.IntVar]:
    """Two pieces of work of 3 and 4 minutes for one cook."""
    model = cp_model.CpModel()
    starts = [model.new_int_var(0, 20, name) for name in "ab"]
    pieces = [
        model.new_fixed_size_interval_var(start, size, "")
        for start, size in zip(starts, (3, 4), strict=True)
    ]
    model.add_no_overlap(pieces)
    end = model.new_int_var(0, 30, "end")
    model.add_max_equality(end, [starts[0] + 3, starts[1] + 4])
    model.minimize(end)
    return model, end


@pytest.mark.parametrize("kind", [OWN, BOTH_ENDS, FINDING])
def test_every_kind_of_search_finds_the_best_there_is(kind: Kind) -> None:
    model, end = _model()
    solver, status = search(model, kind, seconds=5, workers=4)
    assert status == cp_model.OPTIMAL
    assert solver.value(end) == 7


def test_a_search_that_only_improves_makes_a_schedule_shorter() -> None:
    model, end = _model()
    model.add_hint(end, 20)
    solver, status = search(model, IMPROVING, seconds=1, workers=2)
    assert status in (cp_model.OPTIMAL, cp_model.FEASIBLE)
    assert solver.value(end) == 7


def test_a_search_whose_symmetries_make_the_library_fail_goes_on_without_them() -> None:
    model, end = _model()
    levels = []
    solve = cp_model.CpSolver.solve

    def failing(self: cp_model.CpSolver, model: cp_model.CpModel) -> cp_model.CpSolverStatus:
        levels.append(self.parameters.symmetry_level)
        if self.parameters.symmetry_level:
            raise IndexError
        return solve(self, model)

    with mock.patch.object(cp_model.CpSolver, "solve", failing):
        solver, _ = search(model, OWN, seconds=5, workers=1)
    assert solver.value(end) == 7
    assert levels[-1] == 0
    assert len(levels) == 2
