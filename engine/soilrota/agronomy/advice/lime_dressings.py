"""What one dressing of lime may hold, how many there may be, and how a need is divided into them."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from soilrota.agronomy.critical import clean
from soilrota.agronomy.derived.intervals import Doubtful
from soilrota.guidelines.advice_regions import LimeRegion, most_dressings
from soilrota.guidelines.cited import Cited
from soilrota.guidelines.cited_tables import weakest
from soilrota.model.advice import Cap
from soilrota.model.findings import Fact
from soilrota.model.guideline import Status

#: Land that is worked with implements every year; on other land lime stays on the surface.
CULTIVATED = frozenset({"crop", "vegetables", "horticulture"})
#: Land under grass.
GRASS = frozenset({"pasture", "hay"})


@dataclass(frozen=True, slots=True)
class Dressings:
    """What the dressings of a zone may hold.

    Attributes:
        one: the most that one may hold, unless it is worked in [t/ha of pure lime].
        least: less than this is not worth spreading [t/ha of pure lime]; nought where none is printed.
        is_worked_in: whether more than `one` is worked in at once, not split.
        cap: the most of all together.
        cited: where these figures come from.
    """

    one: float
    least: float
    is_worked_in: bool
    cap: Cap
    cited: Cited

    def worth_spreading(self, amount: Doubtful) -> Doubtful:
        """Return an amount with what is too little to spread made nought, its ends likewise."""
        return Doubtful(self._worth(amount.value), self._worth(amount.low), self._worth(amount.high))

    def split(self, amount: float) -> tuple[float, ...]:
        """Return the dressings, all alike, that an amount goes on in; empty where one will do [t/ha]."""
        if self.is_worked_in or clean(amount) <= clean(self.one):
            return ()
        count = min(ceil(clean(amount / self.one)), most_dressings())
        return (amount / count,) * count

    def _worth(self, amount: float) -> float:
        """Return an amount, nought where it is too little to spread."""
        return amount if clean(amount) >= clean(self.least) else 0.0


def dressings_of(region: LimeRegion, texture: str, land_use: str) -> Dressings | None:
    """Return what the dressings of a zone may hold; None where nothing was read of any.

    A region that prints none has those of a neighbour, which is then not verified for it.
    """
    dressing = region.dressing(texture)
    if dressing is None:
        return None
    one, share = dressing.most * region.dressing_share, region.dressing_share
    status = weakest(dressing.cited.status, Status.UNVERIFIED if region.borrowed else Status.VERIFIED)
    facts: dict[str, Fact] = {"dressing": dressing.id, "one_dressing": one, "dressings": most_dressings()}
    if region.borrowed:
        facts["borrowed"] = region.borrowed
    return Dressings(
        one=one,
        # What is worth a spreader's way is no matter of chemistry, so a neighbour's least is not taken.
        least=0.0 if region.borrowed else (dressing.least or 0.0) * share,
        is_worked_in=region.over == "incorporate" and land_use in CULTIVATED,
        cap=Cap(one * most_dressings(), "most-dressings", facts, dressing.cited.source, status),
        cited=Cited(dressing.cited.source, status, dressing.cited.note),
    )
