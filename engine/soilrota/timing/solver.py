"""The exact solver, set up so that its answer is the same on every machine.

OR-Tools CP-SAT with one worker, a seed and a limit in deterministic time (a count of its own steps, never the clock).
It is imported inside the functions: a night in which nothing asks for it does not load it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from ortools.sat.python import cp_model


@dataclass(frozen=True, slots=True)
class Solution:
    """What the solver found.

    Attributes:
        solver: to be asked for values; only where `found`.
        found: whether there is a solution.
        proven: whether it is proven best, or it is proven that there is none.
        spent: deterministic time that it took [-].
    """

    solver: cp_model.CpSolver
    found: bool
    proven: bool
    spent: float


def solve(model: cp_model.CpModel, limit: float, seed: int = 1, **parameters: int | bool) -> Solution:
    """Solve a model.

    Args:
        model: the model.
        limit: deterministic time at most [-].
        seed: random seed of the search.
        parameters: further parameters of CP-SAT, by name.
    """
    from ortools.sat.python import cp_model  # noqa: PLC0415  # loaded only where something is to be solved

    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = seed
    solver.parameters.max_deterministic_time = limit
    # Probing and the search for symmetries cost more than they bring on models of this kind (measured: up to 50 times).
    solver.parameters.cp_model_probing_level = 0
    solver.parameters.symmetry_level = 0
    solver.parameters.linearization_level = 2
    for name, value in parameters.items():
        setattr(solver.parameters, name, value)
    status = solver.solve(model)
    return Solution(
        solver,
        found=status in {cp_model.OPTIMAL, cp_model.FEASIBLE},
        proven=status in {cp_model.OPTIMAL, cp_model.INFEASIBLE},
        spent=solver.response_proto.deterministic_time,
    )
