"""All results of a client, of every issue: what intake holds a new report against."""

from __future__ import annotations

from pathlib import Path

from soilrota.book.folders import name_in_book, result_files
from soilrota.book.records import build_results
from soilrota.files import Table, read_csv
from soilrota.model.results import Result
from soilrota.problems import Problem, in_order


def read_results(root: Path, client_id: str) -> tuple[tuple[Result, ...], tuple[Problem, ...]]:
    """Read every accepted result of a client; `Client.results` holds only what stands of them.

    Args:
        root: the book's folder.
        client_id: id of the client.

    Returns:
        The results of all files that could be read, in their order; and the problems of those that could not.
    """
    tables: list[Table] = []
    problems: tuple[Problem, ...] = ()
    for path in result_files(root, client_id):
        table, found = read_csv(path, name_in_book(root, path), "results")
        problems += found
        if table is not None:
            tables.append(table)
    return tuple(result.value for result in build_results(tables)), in_order(problems)
