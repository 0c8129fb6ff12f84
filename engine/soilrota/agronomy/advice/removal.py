"""What harvests take off of a nutrient, as steps of a working [kg/ha of the element].

Steps: `removal` with `crop`, `leaves`, `year`, `target_yield`, `per_unit` (the middle of what is printed), `unit`,
`edition`; `removal-unknown` of nought with `crop`, `year` and `reason`: `crop-not-in-edition`, `no-target-yield`,
`not-in-edition` (the edition prints no figure for the nutrient).
"""

from __future__ import annotations

from collections.abc import Sequence

from soilrota.agronomy.advice.working import Part, part
from soilrota.agronomy.derived.intervals import Doubtful
from soilrota.guidelines.crop_produce import NOTHING, Produce, plain, produce_of
from soilrota.guidelines.removal import Per
from soilrota.model.advice import Input
from soilrota.model.cropping import CropYear
from soilrota.model.findings import Fact
from soilrota.quantities import Refusal, convert, factor

REMOVAL, UNKNOWN = "removal", "removal-unknown"
#: How tables count a nutrient, and the analyte of the glossary that its forms belong to.
_FORMS = {
    Input.NITROGEN: ("N",),
    Input.PHOSPHORUS: ("P", "P2O5"),
    Input.POTASSIUM: ("K", "K2O"),
    Input.SULPHUR: ("S",),
    Input.MAGNESIUM: ("Mg", "MgO"),
}
_KG_A_TONNE = 1000


def removed(row: CropYear, editions: Sequence[str], nutrient: Input) -> Part | None:
    """Return what one harvest takes off, or that it is not known; None where the plan says that nothing leaves.

    Args:
        row: the harvest.
        editions: removal editions, the one that goes first first.
        nutrient: of what.
    """
    if plain(row.leaves) == NOTHING:
        return None
    produce = produce_of(editions, row.crop, row.leaves)
    if produce is None:
        return _unknown(row, "crop-not-in-edition")
    form = next((one for one in _FORMS[nutrient] if one in produce.removal.amounts), "")
    if not form:
        return _unknown(row, "not-in-edition")
    if row.target_yield is None:
        return _unknown(row, "no-target-yield")
    low, high = (
        _of_element(amount, row.target_yield, produce, form, nutrient) for amount in produce.removal.amounts[form]
    )
    facts: dict[str, Fact] = {
        "crop": produce.crop,
        "leaves": produce.leaves,
        "year": row.year,
        "target_yield": row.target_yield,
        "per_unit": sum(produce.removal.amounts[form]) / 2,
        "unit": f"{'lb' if produce.removal.per is Per.BUSHEL else 'kg'} {form}/{produce.removal.per}",
        "edition": produce.removal.edition,
    }
    return part(REMOVAL, Doubtful((low + high) / 2, low, high), facts, produce.removal.cited)


def to_element(amount: float, form: str, nutrient: Input, *, per_acre: bool = False) -> float:
    """Return an amount of a form [kg/ha, or lb/ac where `per_acre`] as the element [kg/ha].

    >>> round(to_element(100, "P2O5", Input.PHOSPHORUS), 2)
    43.64
    """
    if nutrient is Input.NITROGEN:
        return amount
    found = convert(amount, f"{'lb/ac' if per_acre else 'kg/ha'} {form}".rstrip(), "kg/ha", nutrient.value)
    assert not isinstance(found, Refusal), found  # tables name forms that the glossary has
    return found


def _of_element(amount: float, harvest: float, produce: Produce, form: str, nutrient: Input) -> float:
    """Return what a harvest [t/ha or kL/ha] holds of the element [kg/ha], by the amount in one unit of it."""
    if produce.bushel_lb is None:
        return to_element(amount * harvest, form, nutrient)
    pounds = factor("kg/ha", "lb/ac", nutrient.value)
    assert not isinstance(pounds, Refusal)  # both are masses by area
    bushels = harvest * _KG_A_TONNE * pounds / produce.bushel_lb
    return to_element(amount * bushels, form, nutrient, per_acre=True)


def _unknown(row: CropYear, reason: str) -> Part:
    """Return that what a harvest takes off is not known."""
    return part(UNKNOWN, 0.0, {"crop": row.crop, "year": row.year, "reason": reason})
