"""Products: ids stand once, contents add up, a lime and a gypsum say what they are worth, rates can be spread."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from math import ceil, floor

from soilrota.book.parts import SharedParts
from soilrota.book.rules.repeats import repeated
from soilrota.model.products import Product, ProductKind
from soilrota.problems import Problem, error

#: How far masses of grain sizes may be from 100, and contents above it, for rounding [%].
_ROUNDING = 0.5
_WHOLE = 100.0
#: A rate this share of a step beside a multiple is the multiple [-].
_SAME = 1e-9


def products_stand_once(parts: SharedParts) -> Iterator[Problem]:
    """Products have different ids."""
    named = [(one.value.id, one.value.id, one.at("id")) for one in parts.products]
    yield from repeated("repeated-id", "product", named, "give one of them another id, or take it out")


def contents_add_up(parts: SharedParts) -> Iterator[Problem]:
    """What a product holds of elements and water is not more than the product."""
    for one in parts.products:
        total = sum(one.value.contents.values()) + one.value.moisture_percent
        if total > _WHOLE + _ROUNDING:
            found = f"contents and moisture of {one.value.id} add up to {total:g} %"
            mend = "give elements, not oxides, by mass of the product as bought"
            yield error("contents-above-whole", one.at("contents"), found, "at most 100 %", mend)


def products_say_what_they_are_worth(parts: SharedParts) -> Iterator[Problem]:
    """A lime has a neutralising value, a gypsum a purity, a fertiliser or manure contents."""
    for one in parts.products:
        product = one.value
        if product.kind is ProductKind.LIME and product.neutralising_percent is None:
            found, mend = f"the lime {product.id} has no neutralising_percent", "write it from the analysis"
            yield error("neutralising-value-missing", one.at(), found, "a neutralising value [%]", mend)
        if product.kind is ProductKind.GYPSUM and product.purity_percent is None:
            found, mend = f"the gypsum {product.id} has no purity_percent", "write it from the analysis"
            yield error("purity-missing", one.at(), found, "a share of pure gypsum [%]", mend)
        if product.kind in {ProductKind.FERTILISER, ProductKind.MANURE} and not any(product.contents.values()):
            found, mend = f"the {product.kind} {product.id} holds nothing", "write contents from the analysis"
            yield error("contents-missing", one.at(), found, "at least one element [%]", mend)


def grain_sizes_are_sound(parts: SharedParts) -> Iterator[Problem]:
    """Grain sizes run from small to large, share no size, and their masses sum to 100."""
    for one in parts.products:
        fractions = one.value.fractions
        for number, fraction in enumerate(fractions):
            if fraction.low_mm >= fraction.high_mm:
                found = f"grains above {fraction.low_mm:g} mm and up to {fraction.high_mm:g} mm"
                mend = "write the smaller size as low_mm"
                yield error("grain-size-empty", one.at("fractions", number), found, "low_mm below high_mm", mend)
        by_size = sorted(enumerate(fractions), key=lambda item: (item[1].low_mm, item[1].high_mm))
        for (_, finer), (number, coarser) in pairwise(by_size):
            if coarser.low_mm < finer.high_mm:
                found = f"{coarser.low_mm:g}-{coarser.high_mm:g} mm overlaps {finer.low_mm:g}-{finer.high_mm:g} mm"
                mend = "let each size start where the finer one ends"
                yield error("grain-sizes-overlap", one.at("fractions", number), found, "sizes apart", mend)
        total = sum(fraction.mass_percent for fraction in fractions)
        if fractions and abs(total - _WHOLE) > _ROUNDING:
            found, mend = f"masses of {one.value.id} add up to {total:g} %", "write all grain sizes of the analysis"
            yield error("grain-sizes-not-whole", one.at("fractions"), found, "100 %", mend)


def rates_can_be_spread(parts: SharedParts) -> Iterator[Problem]:
    """The least rate is not above the most, and a multiple of the step lies between them."""
    for one in parts.products:
        product = one.value
        if product.least_kg_ha > product.most_kg_ha:
            found = f"least {product.least_kg_ha:g} kg/ha, most {product.most_kg_ha:g} kg/ha"
            yield error("rates-reversed", one.at("least_kg_ha"), found, "least at most as high as most", "swap them")
        elif _no_step(product):
            found = (
                f"no multiple of {product.step_kg_ha:g} kg/ha from {product.least_kg_ha:g} to {product.most_kg_ha:g}"
            )
            mend = "make the step smaller, or the range wider"
            yield error("no-rate", one.at("step_kg_ha"), found, "at least one rate", mend)


def _no_step(product: Product) -> bool:
    """Return whether no rate of a product is a whole number of steps."""
    step = product.step_kg_ha
    return ceil(product.least_kg_ha / step - _SAME) > floor(product.most_kg_ha / step + _SAME)
