"""The solver as it is set up: exact answers, honest about its limit, loaded only when asked."""

from __future__ import annotations

import subprocess
import sys

from soilrota.timing.solver import solve


def test_it_finds_and_proves() -> None:
    """Three items of a knapsack: the best two."""
    from ortools.sat.python import cp_model

    model = cp_model.CpModel()
    items = [model.new_bool_var("") for _ in range(3)]
    model.add(cp_model.LinearExpr.weighted_sum(items, [5, 4, 3]) <= 7)
    model.maximize(cp_model.LinearExpr.weighted_sum(items, [5, 4, 4]))
    solution = solve(model, limit=10)
    assert solution.found
    assert solution.proven
    assert [solution.solver.boolean_value(item) for item in items] == [False, True, True]
    assert solution.spent < 10


def test_no_solution_is_proven_too() -> None:
    """A model that contradicts itself has no solution, and that is known."""
    from ortools.sat.python import cp_model

    model = cp_model.CpModel()
    one = model.new_bool_var("")
    model.add(one == 0)
    model.add(one == 1)
    solution = solve(model, limit=10)
    assert (solution.found, solution.proven) == (False, True)


def test_a_limit_of_nothing_proves_nothing() -> None:
    """Within no time at all a model without solution in presolve stays open."""
    from ortools.sat.python import cp_model

    model = cp_model.CpModel()
    numbers = [model.new_int_var(1, 12, "") for _ in range(12)]
    model.add_all_different(numbers)
    model.minimize(sum((1 + index * index % 7) * number for index, number in enumerate(numbers)))
    assert not solve(model, limit=0.0, cp_model_presolve=False).proven


def test_nothing_heavy_is_loaded_before_it_is_needed() -> None:
    """Importing the planners does not import the solver."""
    code = "import sys, soilrota.timing.visits, soilrota.timing.field_calendar;sys.exit('ortools' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
