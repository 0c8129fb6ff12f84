"""Everything that is reckoned from the results of one bag. What each quantity's facts are, its module says."""

from __future__ import annotations

from collections.abc import Sequence

from soilrota.agronomy.derived.carbon import carbon_quantities
from soilrota.agronomy.derived.cations import cation_quantities
from soilrota.agronomy.derived.inputs import Spread, bag_of, between_laboratories
from soilrota.agronomy.derived.nitrogen import nitrogen_quantities
from soilrota.agronomy.derived.salinity import salinity_quantities
from soilrota.agronomy.derived.stocks import stock_quantities
from soilrota.model.client import Zone
from soilrota.model.judgement import NoQuantity, Quantity
from soilrota.model.results import Result


def derived_quantities(
    bag: Sequence[Result],
    zone: Zone,
    *,
    crops: Sequence[str] = (),
    has_gypsum: bool = False,
    with_organic_matter: bool = False,
    spread: Spread = between_laboratories,
) -> tuple[tuple[Quantity, ...], tuple[NoQuantity, ...]]:
    """Return what the results of one bag give, and what they do not although something of it was measured.

    Args:
        bag: results of one bag: one layer, one day; those that are barred from advice are left out before.
        zone: the zone that it stands for.
        crops: crops of the zone's plan, as people write them; a relative yield under salinity for each.
        has_gypsum: whether gypsum is known to be in the soil, which makes EC 1:5 say nothing of ECe.
        with_organic_matter: whether organic matter is to be reckoned from carbon.
        spread: how much a result may be off, one standard deviation [-]; between laboratories unless said otherwise.

    Raises:
        ValueError: the results are not of one layer of that zone on one day: a fault of the program.
    """
    if not bag:
        return (), ()
    read = bag_of(bag, zone, spread)
    outcomes = (
        *cation_quantities(read),
        *salinity_quantities(read, crops, has_gypsum=has_gypsum),
        *carbon_quantities(read, with_organic_matter=with_organic_matter),
        *nitrogen_quantities(read),
        *stock_quantities(read),
    )
    return (
        tuple(one for one in outcomes if isinstance(one, Quantity)),
        tuple(one for one in outcomes if isinstance(one, NoQuantity)),
    )
