"""Exchange capacity, its shares, and ratios of calcium to magnesium to potassium; in cmol(+)/kg and % of charge.

The capacity is the sum of calcium, magnesium, sodium, potassium and exchange acidity (method book, 15J1). Where the sum
lacks a part, shares are of the capacity that the laboratory reports, and that is said.

Facts:

- `capacity_from`: `sum`, or the method of the laboratory's own, `effective` or `ammonium-acetate`;
- `capacity`: the capacity that a share is of [cmol(+)/kg];
- `acidity`: `measured`, `aluminium-alone` (hydrogen was not measured), or `taken-as-none` (the pH leaves none);
- `salts`: `fresh` (EC 1:5 is not above the line), `not-measured`, `corrected` (chloride was taken off the sodium) or
  `chloride-not-measured`;
- `conductivity`, `salts_above`: EC 1:5, and the line above which salts count [dS/m], where it was measured;
- `chloride`, `sodium_measured`, `sodium_corrected`: where it was corrected [mg/kg, cmol(+)/kg, cmol(+)/kg].

Cautions: `ratio-weak`, a ratio of cations alone is weak evidence; `sodium-uncorrected`, salts are high and chloride was
not measured, so sodium and the capacity are too high; `salts-in-capacity`, the laboratory's own capacity holds the
soluble salts that were taken off the sodium.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

from soilrota.agronomy.derived.inputs import Bag, Reading
from soilrota.agronomy.derived.intervals import Scale
from soilrota.agronomy.derived.outcomes import Outcome, Working, reckoned, refused
from soilrota.guidelines.cations import cation_formula, chloride_a_charge, no_acidity_from, salts_above
from soilrota.model.findings import Fact
from soilrota.model.judgement import Refused, WhyNot

_UNIT = "cmol(+)/kg"
CAPACITY = "exchange-capacity"
_CALCIUM, _MAGNESIUM = "calcium.exchangeable", "magnesium.exchangeable"
_SODIUM, _ALUMINIUM = "sodium.exchangeable", "aluminium.exchangeable"
_POTASSIUM = "potassium.exchangeable"
_BASES = (_CALCIUM, _MAGNESIUM, _POTASSIUM, _SODIUM)
_ACIDITY, _HYDROGEN = "exchange-acidity.kcl", "hydrogen.exchangeable"
_REPORTED = ("exchange-capacity.effective", "exchange-capacity.ammonium-acetate")
_CONDUCTIVITY, _CHLORIDE = "conductivity.ec-1-5", "chloride.water-1-5"
#: Quantity by the analysis whose share it is.
SHARES = {
    _CALCIUM: "calcium-share",
    _MAGNESIUM: "magnesium-share",
    _POTASSIUM: "potassium-share",
    _SODIUM: "sodium-share",
    _ALUMINIUM: "aluminium-share",
}
#: Quantity by the two analyses that it sets against each other, the one above the stroke first.
RATIOS = {
    (_CALCIUM, _MAGNESIUM): "calcium-magnesium-ratio",
    (_MAGNESIUM, _POTASSIUM): "magnesium-potassium-ratio",
}


def cation_quantities(bag: Bag) -> Iterator[Outcome]:
    """Yield the capacity, the shares of what was measured, and the ratios; or why each is not there."""
    measured = [code for code in SHARES if bag.has(code)]
    if not measured:
        return
    summed = _summed(bag)
    yield refused(bag, CAPACITY, summed) if isinstance(summed, Refused) else _capacity(bag, summed)
    whole = _reported(bag, summed) if isinstance(summed, Refused) else summed
    for code in measured:
        yield _share(bag, code, whole)
    for pair, quantity in RATIOS.items():
        if bag.first(*pair):
            yield _ratio(bag, pair, quantity)


@dataclass(frozen=True, slots=True)
class _Whole:
    """What shares are of.

    Attributes:
        codes: analyses that add up to it [cmol(+)/kg].
        salt: analyses whose chloride is taken off the sodium; empty where none is.
        facts, cautions: of the whole.
    """

    codes: tuple[str, ...]
    salt: tuple[str, ...] = ()
    facts: dict[str, Fact] = field(default_factory=dict)
    cautions: tuple[str, ...] = ()


def _summed(bag: Bag) -> _Whole | Refused:
    """Return the cations of a bag that add up to its capacity; what is lacking where they do not."""
    acids = _acids(bag)
    lacking = tuple(code for code in _BASES if not bag.has(code)) + (() if acids else (_ACIDITY,))
    if acids is None or lacking:
        return Refused(WhyNot.NOT_MEASURED, {"needs": lacking})
    codes, acidity = acids
    return _with_salts(bag, _Whole((*_BASES, *codes), facts={"capacity_from": "sum", "acidity": acidity}))


def _acids(bag: Bag) -> tuple[tuple[str, ...], str] | None:
    """Return the analyses of acid cations, and how much they say; None where it is not known whether there are any."""
    if bag.has(_ACIDITY):
        return (_ACIDITY,), "measured"
    if bag.has(_ALUMINIUM):
        return ((_ALUMINIUM, _HYDROGEN), "measured") if bag.has(_HYDROGEN) else ((_ALUMINIUM,), "aluminium-alone")
    for code, line in no_acidity_from().items():
        result = bag.results.get(code)
        if result is not None and result.qualifier != "<" and result.value >= line.value:
            return (), "taken-as-none"
    return None


def _with_salts(bag: Bag, whole: _Whole) -> _Whole:
    """Return a whole with what soluble salts do to it."""
    readings = bag.read(_CONDUCTIVITY)
    if isinstance(readings, Refused):
        return _noted(whole, {"salts": "not-measured"})
    amount, line = readings[0].amount, salts_above().value
    facts: dict[str, Fact] = {"conductivity": amount.value, "salts_above": line}
    # A conductivity below a limit is fresh for certain only where the limit is.
    if (amount.high if amount.is_censored else amount.value) <= line:
        return _noted(whole, {"salts": "fresh", **facts})
    if amount.is_censored:
        return _noted(whole, {"salts": "not-measured", **facts})
    if not bag.has(_CHLORIDE):
        return _noted(whole, {"salts": "chloride-not-measured", **facts}, "sodium-uncorrected")
    return replace(_noted(whole, {"salts": "corrected", **facts}), salt=(_CHLORIDE,))


def _noted(whole: _Whole, facts: dict[str, Fact], *cautions: str) -> _Whole:
    """Return a whole with further facts and cautions."""
    return replace(whole, facts={**whole.facts, **facts}, cautions=(*whole.cautions, *cautions))


def _reported(bag: Bag, lacking: Refused) -> _Whole | Refused:
    """Return the capacity that the laboratory reports; what the sum lacks where it reports none."""
    code = bag.first(*_REPORTED)
    if not code:
        return lacking
    method = code.partition(".")[2]
    whole = _with_salts(bag, _Whole((code,), facts={"capacity_from": method}))
    return _noted(whole, {}, "salts-in-capacity") if whole.salt and method == "effective" else whole


def _capacity(bag: Bag, whole: _Whole) -> Outcome:
    """Return the capacity as the sum of its cations."""
    readings = _readings(bag, whole.codes, whole.salt)
    if isinstance(readings, Refused):
        return refused(bag, CAPACITY, readings)
    charges = _Charges(readings)
    return reckoned(
        bag.top_cm,
        bag.bottom_cm,
        Working(
            code=CAPACITY,
            unit=_UNIT,
            formula=lambda *values: charges.total(values, whole.codes),
            readings=readings,
            scale=Scale.PLAIN,
            cited=cation_formula(CAPACITY),
            facts={**whole.facts, **charges.sodium_facts()},
            cautions=whole.cautions,
        ),
    )


def _share(bag: Bag, code: str, whole: _Whole | Refused) -> Outcome:
    """Return the share of one cation [%]."""
    quantity = SHARES[code]
    if isinstance(whole, Refused):
        return refused(bag, quantity, whole)
    if code == _ALUMINIUM and whole.facts["capacity_from"] == "ammonium-acetate":
        return refused(bag, quantity, Refused(WhyNot.NOT_MEASURED, {"needs": ("exchange-capacity.effective",)}))
    salt = whole.salt if _SODIUM in (code, *whole.codes) else ()
    # A part of a sum is never more than it; a capacity that was measured by itself may come out below one base.
    is_part = code in whole.codes
    readings = _readings(bag, (*whole.codes, *(() if is_part else (code,))), salt)
    if isinstance(readings, Refused):
        return refused(bag, quantity, readings)
    charges = _Charges(readings)
    total = charges.total(charges.values(), whole.codes)
    return reckoned(
        bag.top_cm,
        bag.bottom_cm,
        Working(
            code=quantity,
            unit="%",
            formula=lambda *values: 100 * charges.of(values)[code] / charges.total(values, whole.codes),
            readings=readings,
            scale=Scale.LOGIT if is_part else Scale.LOG,
            cited=cation_formula(quantity),
            facts={**whole.facts, "capacity": total, **charges.sodium_facts()},
            cautions=whole.cautions,
        ),
    )


def _ratio(bag: Bag, pair: tuple[str, str], quantity: str) -> Outcome:
    """Return one cation over another, by charge."""
    readings = bag.read(*pair, unit=_UNIT)
    if isinstance(readings, Refused):
        return refused(bag, quantity, readings)
    return reckoned(
        bag.top_cm,
        bag.bottom_cm,
        Working(
            code=quantity,
            unit="ratio",
            formula=lambda above, below: above / below,
            readings=readings,
            cited=cation_formula(quantity),
            cautions=("ratio-weak",),
        ),
    )


def _readings(bag: Bag, codes: tuple[str, ...], salt: tuple[str, ...]) -> tuple[Reading, ...] | Refused:
    """Return the readings of cations [cmol(+)/kg], then of chloride [mg/kg]; or why not."""
    cations, salts = bag.read(*codes, unit=_UNIT), bag.read(*salt)
    if isinstance(cations, Refused):
        return cations
    return salts if isinstance(salts, Refused) else (*cations, *salts)


@dataclass(frozen=True, slots=True)
class _Charges:
    """Charges by analysis, of numbers in the order of some readings, with chloride taken off the sodium."""

    readings: tuple[Reading, ...]

    def values(self) -> tuple[float, ...]:
        """Return the numbers as they were read."""
        return tuple(one.amount.value for one in self.readings)

    def of(self, values: Sequence[float]) -> dict[str, float]:
        """Return each charge [cmol(+)/kg]; sodium is not below nought, however much chloride there is."""
        found = {one.code: value for one, value in zip(self.readings, values, strict=True)}
        chloride = found.pop(_CHLORIDE, 0.0)
        if _SODIUM in found:
            found[_SODIUM] = max(0.0, found[_SODIUM] - chloride / chloride_a_charge().value)
        return found

    def total(self, values: Sequence[float], codes: tuple[str, ...]) -> float:
        """Return the sum of some charges [cmol(+)/kg]."""
        found = self.of(values)
        return sum(found[code] for code in codes)

    def sodium_facts(self) -> dict[str, Fact]:
        """Return what was taken off the sodium; nothing where nothing was."""
        read = {one.code: one.amount.value for one in self.readings}
        if _CHLORIDE not in read or _SODIUM not in read:
            return {}
        return {
            "chloride": read[_CHLORIDE],
            "sodium_measured": read[_SODIUM],
            "sodium_corrected": self.of(self.values())[_SODIUM],
        }
