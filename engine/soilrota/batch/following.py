"""What came of the advice that a client's report was signed with, from its records."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from soilrota.agronomy.afterwards import Following, followed_up
from soilrota.agronomy.barred import barred_samples
from soilrota.batch.advice_records import read_advice
from soilrota.batch.judging import sample_findings
from soilrota.batch.signatures import read_signatures
from soilrota.model.client import Client
from soilrota.model.follow_up import FollowUp
from soilrota.problems import Problem
from soilrota.results.history import comparability_key


def follow_up_client(root: Path, client: Client, day: date) -> tuple[tuple[FollowUp, ...], tuple[Problem, ...]]:
    """Return what came of all advice that was signed for a client, and what is wrong with its records.

    Advice counts once its signature stands in the record of signatures: a signing that was cut off has advised nothing.

    Args:
        root: the book's folder.
        client: the client.
        day: day on which it is asked.
    """
    records, problems = read_advice(root, client.id)
    if not records:
        return (), problems
    signatures, damage = read_signatures(root, client.id)
    signed = {(one.digest, one.day) for one in signatures or ()}
    held = [one for one in records if (one.digest, one.day) in signed]
    by = Following(day, comparability_key, barred_samples(sample_findings(root, client)))
    return followed_up(client, held, by), (*problems, *damage)
