"""Every problem of a book, with nothing made of it."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from pathlib import Path

from soilrota.batch.blanks import blanks_in
from soilrota.batch.check_bags import doubly_used
from soilrota.batch.check_records import read_all_check_values
from soilrota.batch.faults import CannotStartError
from soilrota.batch.issued import read_issued
from soilrota.batch.reading import read_client, read_clients, read_shared
from soilrota.batch.template_faults import tried_templates
from soilrota.files import nearest_name
from soilrota.problems import Problem, Severity, in_order


@dataclass(frozen=True, slots=True)
class CheckReport:
    """What a check found.

    Attributes:
        problems: in order.
        checked: ids of the clients that were checked.
        unchecked: ids of those that could not be, because the files that all share have errors.
    """

    problems: tuple[Problem, ...]
    checked: tuple[str, ...]
    unchecked: tuple[str, ...]

    def count(self, severity: Severity) -> int:
        """Return the number of problems of this severity [-]."""
        return sum(problem.severity is severity for problem in self.problems)


def check_book(
    root: Path, only: Iterable[str] | None, tell: Callable[[str], None] = lambda _client: None
) -> CheckReport:
    """Check the files that all clients share, and clients.

    Args:
        root: the book's folder.
        only: ids of the clients to check; None for all; empty for the shared files alone.
        tell: is told the id of each client before it is read.

    Raises:
        CannotStartError: there is no book, no client to check, or none of the name asked for.
    """
    if not (root / "practice.yaml").is_file():
        raise CannotStartError(f"{root} is not a book: it has no practice.yaml")
    shared, problems = read_shared(root)
    problems += tried_templates(root)
    clients, of_folders = read_clients(root)
    names = {*clients, *(_folder_of(problem) for problem in of_folders)} - {""}
    if only is None and not names:
        raise CannotStartError(f"there is no client to check in {root / 'clients'}", problems + of_folders)
    wanted = names if only is None else _known(only, names)
    problems += tuple(problem for problem in of_folders if only is None or _folder_of(problem) in wanted)
    chosen = tuple(client for client in clients if client in wanted)
    if shared is None:
        files = (root / "clients" / client / "client.yaml" for client in chosen)
        return CheckReport(in_order((*problems, *blanks_in(root, files))), (), chosen)
    problems += (*doubly_used(root, shared.practice.check_bags), *read_all_check_values(root)[1])
    for client in chosen:
        tell(client)
        problems += (*read_client(root, client, shared)[1], *read_issued(root, client)[1])
    return CheckReport(in_order(problems), chosen, ())


def _folder_of(problem: Problem) -> str:
    """Return the client's folder that an error of the clients' folder is about; empty where it is about none."""
    parts = problem.place.file.split("/")
    return parts[1] if len(parts) > 1 and parts[0] == "clients" and problem.severity is Severity.ERROR else ""


def _known(only: Iterable[str], names: set[str]) -> set[str]:
    """Return the names asked for.

    Raises:
        CannotStartError: one of them is not in the book.
    """
    wanted = set(only)
    for name in sorted(wanted - names):
        nearest = nearest_name(name, names)
        hint = f"; did you mean {nearest}?" if nearest else ""
        raise CannotStartError(f"there is no client {name} in the book{hint}")
    return wanted
