"""What a product supplies: elements, neutralising value as pure lime, pure gypsum."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from soilrota.model.advice import Input
from soilrota.model.products import Product, ProductKind

_WHOLE = 100.0
_KG_A_TONNE = 1000.0


@dataclass(frozen=True, slots=True)
class Supply:
    """What one kilogram a hectare of a product supplies of one input [unit of the need].

    Attributes:
        counts: what counts towards the need.
        whole: all there is of it, which maxima are held against; at least `counts`.
    """

    counts: float
    whole: float


def supply_of(
    product: Product, effectiveness: Mapping[str, float], available: Mapping[tuple[str, Input], float]
) -> dict[Input, Supply]:
    """Return what 1 kg/ha of a product supplies, by input, inputs that it lacks left out.

    An element by its content as bought. Lime by its neutralising value, dry, against pure calcium carbonate, times the
    effectiveness of its grain sizes; gypsum by its purity, dry (both plain proportion). Maxima of lime are of what
    works; those of an element are of all there is.

    Args:
        product: the product.
        effectiveness: share of a lime's neutralising value that its grain sizes let work [-], by product; 1 where
            missing.
        available: share of an element that counts towards the need [-], by product and input, for manures; 1 where
            missing.
    """
    dry = 1 - product.moisture_percent / _WHOLE
    found: dict[Input, Supply] = {}
    for name, share in product.contents.items():
        if share > 0 and name in _ELEMENTS:
            input_ = Input(name)
            whole = share / _WHOLE
            found[input_] = Supply(whole * available.get((product.id, input_), 1.0), whole)
    if product.kind is ProductKind.LIME and product.neutralising_percent:
        pure = dry * product.neutralising_percent / _WHOLE * effectiveness.get(product.id, 1.0) / _KG_A_TONNE
        found[Input.LIME] = Supply(pure, pure)
    if product.kind is ProductKind.GYPSUM and product.purity_percent:
        pure = dry * product.purity_percent / _WHOLE / _KG_A_TONNE
        found[Input.GYPSUM] = Supply(pure, pure)
    return found


_ELEMENTS = frozenset(Input) - {Input.LIME, Input.GYPSUM}
