"""Whether results can be believed: each bag by itself, against the history of its zone, against the bags beside it.

A result is judged only by results sampled earlier, and never by its own report: what was found about it stays found as
the years go by.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from soilrota.model.client import Client
from soilrota.model.result_findings import ResultFinding, ResultKey, ResultRule
from soilrota.model.results import Result
from soilrota.results.acceptances import with_acceptances
from soilrota.results.bags import BagResults, bags_of
from soilrota.results.relations import check_bag
from soilrota.results.swaps import check_swaps
from soilrota.results.usual_values import History, check_history


def check_results(client: Client, fresh: Sequence[Result] | None = None) -> tuple[ResultFinding, ...]:
    """Return what is odd about results, in the order of the bags, with what people said about it.

    Args:
        client: the checked client, with its standing results and its acceptances.
        fresh: results that are not among them yet; None to judge the standing results themselves.
    """
    bags = bags_of(client.results if fresh is None else fresh)
    order = {bag.key: number for number, bag in enumerate(bags)}
    rules = list(ResultRule)

    def rank(finding: ResultFinding) -> tuple[int, int]:
        return order[finding.key], rules.index(finding.rule)

    return with_acceptances(sorted(_findings(bags, History(client)), key=rank), client.acceptances)


def waiting(findings: Sequence[ResultFinding]) -> frozenset[ResultKey]:
    """Return the bags whose results wait for a person."""
    return frozenset(finding.key for finding in findings if finding.bars)


def _findings(bags: Sequence[BagResults], history: History) -> Iterator[ResultFinding]:
    """Yield every finding, not yet in order."""
    for bag in bags:
        yield from check_bag(bag)
        for result in bag.results.values():
            far = check_history(result, history)
            if far is not None:
                yield far
    yield from check_swaps(bags, history)
