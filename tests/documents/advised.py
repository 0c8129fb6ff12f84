"""What the example book is advised, for the tests of words."""

from __future__ import annotations

from datetime import date
from functools import cache

from soilrota.batch.advising import ClientAdvice, advise_client
from soilrota.batch.judging import judge_client
from soilrota.model.client import Client
from tests.documents.made import BOOK, example

DAY = date(2027, 2, 15)
CLIENTS = tuple(sorted(path.name for path in (BOOK / "clients").iterdir()))


@cache
def advised(client_id: str) -> tuple[Client, ClientAdvice]:
    """Return an example client, and what it is advised on the day."""
    client = example(client_id)
    return client, advise_client(client, judge_client(client, ()), (), DAY)
