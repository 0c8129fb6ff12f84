"""A small client made by hand, and the example book, for the tests of documents."""

from __future__ import annotations

from datetime import date
from functools import cache
from pathlib import Path

from soilrota.book import load_client, load_shared
from soilrota.documents import ProgrammeView, programme_view
from soilrota.model.client import Client
from soilrota.model.windows import Task, Window
from soilrota.timing import tasks_of, window_of

BOOK = Path(__file__).resolve().parents[2] / "example_clients"
AS_OF = date(2027, 2, 15)
CLIENTS = sorted(path.name for path in (BOOK / "clients").iterdir())


@cache
def example(client_id: str) -> Client:
    """Return a client of the example book."""
    shared, _ = load_shared(BOOK)
    assert shared is not None
    client, _ = load_client(BOOK, client_id, shared)
    assert client is not None
    return client


def answers(client: Client, as_of: date = AS_OF) -> tuple[tuple[Task, ...], tuple[Window, ...]]:
    """Return the tasks of a client and their windows."""
    tasks = tasks_of(client)
    return tasks, tuple(window_of(task, as_of) for task in tasks)


def view(client: Client, as_of: date = AS_OF) -> ProgrammeView:
    """Return the view of a client's programme."""
    return programme_view(client, *answers(client, as_of))
