"""Every need of a zone: what a soil test asks for of nutrients, lime and gypsum, or why nothing can be advised.

Needs of lime and gypsum are reckoned by functions of their own; they are handed in as `others`, so that each input comes
once, in the order of `Input`.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from soilrota.agronomy.advice.nutrient_needs import Choices, nutrient_needs
from soilrota.model.advice import Input, Need, NoNeed
from soilrota.model.client import Client, Zone
from soilrota.model.judgement import ZoneJudgement

_ORDER = {one: number for number, one in enumerate(Input)}


def needs_of(
    client: Client,
    zone: Zone,
    judgements: Sequence[ZoneJudgement],
    by: Choices,
    *,
    others: Iterable[Need | NoNeed] = (),
) -> tuple[Need | NoNeed, ...]:
    """Return every need of a zone, one an input, or why there is none.

    Args:
        client: whose zone it is.
        zone: the zone.
        judgements: of the zone, one a protocol.
        by: what needs are reckoned by.
        others: needs of lime and gypsum.

    Raises:
        ValueError: an input comes twice: a fault of the program.
    """
    found = sorted((*nutrient_needs(client, zone, judgements, by), *others), key=lambda one: _ORDER[one.input])
    if len({one.input for one in found}) != len(found):
        raise ValueError(f"an input of {zone.farm}/{zone.id} comes twice")
    return tuple(found)
