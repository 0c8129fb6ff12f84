"""Two bags of one report that look swapped: each fits the other zone's history much better than its own.

A value of a zone has a Student t density around the zone's usual value, with the spread that `usual_values` gives and
heavy tails, so that one odd value does not decide. For bags a and b, over the analyses that both bags and both zones'
histories share,

    gain of a  = sum of log p(a's value | b's history) - log p(a's value | a's history)
    odds       = exp(share x (gain of a + gain of b)) x prior odds

`share` is below 1 because analyses of one bag move together. Where the bags of a report vary more about their usual
values than expected, every spread is widened to what they show. The prior odds of a pair are the share of bags that
change places, over the number of other bags: many bags give many chances of a likeness. A bag is paired once, with the
partner of the highest odds, and each of the two must fit better by itself.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from math import exp, log
from typing import TYPE_CHECKING

from soilrota.guidelines.plausibility import check_of, history_figures, swap_figures
from soilrota.model.findings import Fact
from soilrota.model.result_findings import ResultFinding, ResultRule
from soilrota.results.bags import BagResults, between
from soilrota.results.usual_values import History, Usual

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    _Numbers = NDArray[np.float64]
    _Flags = NDArray[np.bool_]

_LONGEST_ODDS = 1_000_000.0  # more than that no prior is worth


@dataclass(frozen=True, slots=True)
class Swap:
    """Two bags that look swapped: their numbers among the bags, the odds, the analyses that tell it."""

    first: int
    second: int
    odds: float
    analyses: tuple[str, ...]


def check_swaps(bags: Iterable[BagResults], history: History) -> Iterator[ResultFinding]:
    """Yield, for each of two bags that look swapped, that they do."""
    for group in _groups(bags):
        for swap in swaps_among(group, history):
            case = next(one for one in ("likely", "possible") if swap.odds > _least_odds(one))
            for own, other in ((swap.first, swap.second), (swap.second, swap.first)):
                yield _finding(group[own], group[other], swap, case)


def _groups(bags: Iterable[BagResults]) -> Iterator[Sequence[BagResults]]:
    """Yield the bags that could have been mistaken for each other: of one report, one protocol and one layer."""
    found: defaultdict[tuple[str, str, str, float, float], list[BagResults]] = defaultdict(list)
    for bag in bags:
        key = bag.key
        found[key.laboratory, key.report, key.protocol, key.top_cm, key.bottom_cm].append(bag)
    yield from (group for group in found.values() if len(group) > 1)


def _least_odds(case: str) -> float:
    """Return the odds above which a case holds [-]."""
    return check_of(ResultRule.SWAPPED, case).figures["above"]


def _finding(bag: BagResults, other: BagResults, swap: Swap, case: str) -> ResultFinding:
    """Return that a bag looks swapped with another."""
    facts: dict[str, Fact] = {
        "other": f"{other.key.farm}/{other.key.zone}",
        "odds": float(f"{swap.odds:.2g}"),
        "analyses": swap.analyses,
    }
    rule, place = ResultRule.SWAPPED, next(iter(bag.results.values())).place
    return ResultFinding(bag.key, rule, check_of(rule, case).grade, swap.analyses, facts, place)


def swaps_among(bags: Sequence[BagResults], history: History) -> tuple[Swap, ...]:
    """Return the pairs that look swapped among bags of one report, the highest odds first."""
    compared = [(number, values) for number, bag in enumerate(bags) if (values := _compared(bag, history))]
    codes = tuple(dict.fromkeys(code for _, values in compared for code in values))
    if len(compared) < 2 or len(codes) < swap_figures().least_analyses:  # noqa: PLR2004 - a pair
        return ()
    zones = [(bags[number].key.farm, bags[number].key.zone) for number, _ in compared]
    table = _Table.of([values for _, values in compared], codes, zones)
    return tuple(
        Swap(compared[one][0], compared[two][0], odds, table.shared(one, two)) for one, two, odds in table.pairs()
    )


def _compared(bag: BagResults, history: History) -> dict[str, tuple[float, float, Usual]]:
    """Return values that are told exactly and have history enough, on their scale, with the variance of rounding."""
    found: dict[str, tuple[float, float, Usual]] = {}
    for code, result in bag.results.items():
        usual = None if result.qualifier else history.usual(result)
        if usual is not None and usual.middle.is_plain and usual.samplings >= swap_figures().least_history:
            value = usual.on_scale(between(result))
            found[code] = (value.low, usual.rounding_of(value), usual)
    return found


@dataclass(frozen=True, slots=True)
class _Table:
    """Bags by analyses.

    Attributes:
        codes: the analyses.
        there: whether a bag has a value of an analysis, and its zone a history.
        values, roundings: on the scale of comparison; nought where there is none.
        middles, variances: of the zones' histories; nought and one where there is none.
        other_ground: whether two bags are of two zones.
    """

    codes: tuple[str, ...]
    there: _Flags
    values: _Numbers
    roundings: _Numbers
    middles: _Numbers
    variances: _Numbers
    other_ground: _Flags

    @classmethod
    def of(
        cls, rows: Sequence[dict[str, tuple[float, float, Usual]]], codes: tuple[str, ...], zones: Sequence[object]
    ) -> _Table:
        """Return the table of bags, each with its values by code, and the zones that they are of."""
        import numpy as np  # noqa: PLC0415 - only where results came

        there = np.array([[code in row for code in codes] for row in rows])
        filled = np.zeros((4, *there.shape))
        filled[3] = 1.0
        for bag, row in enumerate(rows):
            for code, (value, rounding, usual) in row.items():
                variance = usual.variance + usual.rounding_of(usual.middle)
                filled[:, bag, codes.index(code)] = value, rounding, usual.middle.low, variance
        names = np.unique([str(zone) for zone in zones], return_inverse=True)[1]
        values, roundings, middles, variances = filled
        return cls(codes, there, values, roundings, middles, variances, names[:, None] != names[None, :])

    def pairs(self) -> Iterator[tuple[int, int, float]]:
        """Yield pairs of bags with their odds, each bag once, the highest odds first."""
        import numpy as np  # noqa: PLC0415

        log_odds = self._log_odds()
        ones, twos = np.nonzero(np.triu(log_odds > log(_least_odds("possible")), 1))
        found = sorted(zip(-log_odds[ones, twos], ones.tolist(), twos.tolist(), strict=True))
        paired: set[int] = set()
        for less, one, two in found:
            if not paired & {one, two}:
                paired |= {one, two}
                yield one, two, min(_LONGEST_ODDS, exp(min(-less, log(_LONGEST_ODDS))))

    def shared(self, one: int, two: int) -> tuple[str, ...]:
        """Return the analyses that tell of a pair."""
        return tuple(code for code, both in zip(self.codes, self.there[one] & self.there[two], strict=True) if both)

    def _log_odds(self) -> _Numbers:
        """Return the logarithm of the odds of each pair; below every threshold where a pair cannot be judged."""
        import numpy as np  # noqa: PLC0415

        figures, count = swap_figures(), len(self.values)
        gains, analyses = np.zeros((count, count)), np.zeros((count, count))
        for number in range(len(self.codes)):
            both = np.outer(self.there[:, number], self.there[:, number])
            fit = self._log_density(number)
            gains += np.where(both, fit - np.diagonal(fit)[:, None], 0.0)
            analyses += both
        log_odds: _Numbers = figures.evidence_share * (gains + gains.T) + log(figures.share_of_bags / (count - 1))
        each = np.minimum(gains, gains.T) > log(figures.least_ratio_each)
        judged = self.other_ground & each & (analyses >= figures.least_analyses)
        return np.where(judged, log_odds, -np.inf)

    def _widening(self, number: int) -> float:
        """Return how much more the bags of this report vary about their usual values than expected [-]; at least 1.

        A variance, by the median absolute deviation: a swapped pair among several bags does not move it much.
        """
        import numpy as np  # noqa: PLC0415

        there = self.there[:, number]
        if there.sum() < swap_figures().least_bags:
            return 1.0
        variance = self.roundings[there, number] + self.variances[there, number]
        off = (self.values[there, number] - self.middles[there, number]) / np.sqrt(variance)
        deviation = float(np.median(np.abs(off - np.median(off))))
        return max(1.0, (history_figures().mad_to_sd * deviation) ** 2)

    def _log_density(self, number: int) -> _Numbers:
        """Return the log density of each bag's value of an analysis (row) by each zone's history (column).

        Student's t without the constant that all of them share.
        """
        import numpy as np  # noqa: PLC0415

        degrees = swap_figures().degrees
        variance = self.roundings[:, number, None] + self.variances[None, :, number] * self._widening(number)
        squares = (self.values[:, number, None] - self.middles[None, :, number]) ** 2 / variance
        density: _Numbers = -0.5 * (degrees + 1) * np.log1p(squares / degrees) - 0.5 * np.log(variance)
        return density
