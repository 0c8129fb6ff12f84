"""A laboratory's file drafted from a file of its results, for a person to finish."""

from __future__ import annotations

from pathlib import Path

from soilrota.files import shipped
from soilrota.problems import Problem


def learn(file: Path) -> tuple[str | None, tuple[Problem, ...]]:
    """Return the draft of a laboratory's file (YAML), with the line by which editors find its schema.

    Args:
        file: a file of results as the laboratory sends it.

    Returns:
        None where the file cannot be read as a table; and the problems and notes met.
    """
    from soilrota.files import read_grid  # noqa: PLC0415 - loads what reads workbooks
    from soilrota.results.drafting import draft_form  # noqa: PLC0415 - loads what knows units

    grid, problems = read_grid(file, file.name)
    if grid is None:
        return None, problems
    schema = (shipped("schemas") / "laboratory.schema.json").as_uri()
    return f"# yaml-language-server: $schema={schema}\n{draft_form(grid)}", (*problems, *grid.notes)
