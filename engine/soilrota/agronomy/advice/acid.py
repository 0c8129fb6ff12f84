"""Lime that makes good what produce takes away and what nitrogen fertiliser makes: maintenance, only where asked.

    produce:  yield x lime equivalent of one unit of produce, over the rows of the plan that are handed in
    nitrogen: nitrogen x lime used up by a kilogram, between that where plants took all of it up and that where all
              nitrate was leached; the middle is taken, both ends are the range

Below nought nitrogen acts as lime. Facts of `acid-of-produce`: `produce`, one text a row (year, crop, row of the
table), and `not_known`, rows without a figure or a target yield. Facts of `acid-of-nitrogen`: `fertilisers`, and
`taken_up` and `leached` [kg CaCO3/ha].
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import fsum

from soilrota.agronomy.advice.working import Part, part
from soilrota.agronomy.derived.intervals import Doubtful
from soilrota.guidelines.acid_balance import NitrogenAcid, ProduceAcid, nitrogen_acids, produce_acids
from soilrota.guidelines.advice_regions import acid_produce
from soilrota.guidelines.cited import Cited
from soilrota.guidelines.cited_tables import weakest
from soilrota.model.cropping import CropYear
from soilrota.model.findings import Fact
from soilrota.model.guideline import Status

_KG_A_TONNE = 1000.0


@dataclass(frozen=True, slots=True)
class NitrogenSpread:
    """Nitrogen of one fertiliser: its row in `acid_balance`, for instance `urea`, and how much [kg N/ha]."""

    fertiliser: str
    kg_ha: float


def acid_made_good(plan: Sequence[CropYear], nitrogen: Sequence[NitrogenSpread] = ()) -> tuple[Part, ...]:
    """Return the steps that keep pH where it is [t/ha of pure lime]; none where nothing is known to acidify.

    Args:
        plan: rows of the cropping plan of one zone, for all years that are to be made good.
        nitrogen: what is spread over the same years.

    Raises:
        KeyError: a fertiliser that the table does not know: a fault of the program.
    """
    found = (_of_produce(plan), _of_nitrogen(nitrogen))
    return tuple(one for one in found if one is not None)


def _of_produce(plan: Iterable[CropYear]) -> Part | None:
    """Return the lime that produce takes away; None where no row has a figure."""
    taken: list[tuple[CropYear, ProduceAcid, float]] = []
    unknown: list[str] = []
    for row in plan:
        name = acid_produce(row.crop, row.leaves)
        if name is None or row.target_yield is None:
            unknown.append(f"{row.year} {row.crop}")
        else:
            taken.append((row, produce_acids()[name], row.target_yield))
    if not taken:
        return None
    low = fsum(acid.low * yields for _, acid, yields in taken) / _KG_A_TONNE
    high = fsum(acid.high * yields for _, acid, yields in taken) / _KG_A_TONNE
    facts: dict[str, Fact] = {"produce": tuple(f"{row.year} {row.crop} ({acid.produce})" for row, acid, _ in taken)}
    if unknown:
        facts["not_known"] = tuple(unknown)
    return part(
        "acid-of-produce", Doubtful((low + high) / 2, low, high), facts, _all(acid.cited for _, acid, _ in taken)
    )


def _of_nitrogen(spread: Sequence[NitrogenSpread]) -> Part | None:
    """Return the lime that nitrogen uses up; None where none is spread."""
    rows = [(nitrogen_acids()[one.fertiliser], one.kg_ha) for one in spread if one.kg_ha > 0]
    if not rows:
        return None
    taken_up = fsum(acid.taken_up * kg for acid, kg in rows)
    leached = fsum(_leached(acid) * kg for acid, kg in rows)
    facts: dict[str, Fact] = {
        "fertilisers": tuple(acid.words for acid, _ in rows),
        "taken_up": taken_up,
        "leached": leached,
    }
    amount = Doubtful((taken_up + leached) / 2 / _KG_A_TONNE, taken_up / _KG_A_TONNE, leached / _KG_A_TONNE)
    statuses = (acid.leached_status for acid, _ in rows if acid.leached is not None)
    cited = _all(acid.cited for acid, _ in rows)
    return part("acid-of-nitrogen", amount, facts, Cited(cited.source, weakest(cited.status, *statuses), cited.note))


def _leached(acid: NitrogenAcid) -> float:
    """Return the lime used up where all nitrate was leached; that where all was taken up where none is printed."""
    return acid.taken_up if acid.leached is None else acid.leached


def _all(cited: Iterable[Cited]) -> Cited:
    """Return what stands behind several figures: the source of the first, unverified where one of them is."""
    each = list(cited)
    status = weakest(Status.VERIFIED, *(one.status for one in each))
    # An unverified figure must not borrow the name of a source that was read.
    first = next((one for one in each if one.status is status), each[0])
    return Cited(first.source, status, first.note)
