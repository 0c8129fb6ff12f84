"""What is odd about the results of a client on a day: their own oddities, and laboratories that were off."""

from __future__ import annotations

from datetime import date, timedelta
from functools import lru_cache
from pathlib import Path

from soilrota.batch.check_records import check_values_digest, read_all_check_values
from soilrota.model.check_values import CheckValue
from soilrota.model.client import Client
from soilrota.model.result_findings import ResultFinding
from soilrota.results import check_results, findings_for, laboratory_state, with_acceptances


def findings_on_results(root: Path, client: Client, as_of: date) -> tuple[tuple[ResultFinding, ...], date]:
    """Return what is odd about the results of a client, and the last day on which no other check sample is known.

    Check samples that cannot be read are told of once for all clients, where their charts are made.

    Args:
        root: the book's folder.
        client: the client.
        as_of: the as-of date.
    """
    values = _check_values(root, check_values_digest(root))
    charts = laboratory_state(values, client.practice.check_materials, as_of)
    doubts = with_acceptances(findings_for(client.results, charts), client.acceptances)
    later = [value.reported - timedelta(days=1) for value in values if value.reported > as_of]
    return (*check_results(client), *doubts), min(later, default=date.max)


@lru_cache(maxsize=1)
def _check_values(root: Path, digest: str) -> tuple[CheckValue, ...]:  # noqa: ARG001 - the cache goes by the digest
    """Return what laboratories reported of check samples, read anew where the digest says that it changed."""
    return read_all_check_values(root)[0]
