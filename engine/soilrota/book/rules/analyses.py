"""Analyses: every analyte, method and unit stands in the glossary, and values are such as a soil can have."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from soilrota.book.parts import ClientParts, Located, SharedParts
from soilrota.book.rules.references import unknown
from soilrota.model.protocol import Protocol
from soilrota.model.results import Result, Target
from soilrota.problems import Problem, error
from soilrota.quantities import Method, all_codes, analyte, analytes, method, unit_name


def shared_analyses_exist(parts: SharedParts) -> Iterator[Problem]:
    """The shared protocols ask for analyses of the glossary."""
    yield from _analyses(parts.protocols)


def own_analyses_exist(parts: ClientParts) -> Iterator[Problem]:
    """The client's own protocols ask for analyses of the glossary."""
    yield from _analyses(parts.own_protocols)


def _analyses(protocols: Iterable[Located[Protocol]]) -> Iterator[Problem]:
    """Yield the written analyses that the glossary does not have."""
    for protocol in protocols:
        for i, code in enumerate(protocol.data.get("analyses", ())):
            if code not in all_codes():
                yield unknown("unknown-analysis", protocol.at("analyses", i), "analysis", code, all_codes())


def waits_name_analytes(parts: SharedParts) -> Iterator[Problem]:
    """The practice's longer waits name analytes, or analyses, of the glossary."""
    for i, wait in enumerate(parts.practice.data.get("analysis_waits", ())):
        for j, word in enumerate(wait["analytes"]):
            if analyte(word) is None and word not in all_codes():
                place = parts.practice.at("analysis_waits", i, "analytes", j)
                yield unknown("unknown-analyte", place, "analyte", word, (*analytes(), *all_codes()))


def targets_name_methods(parts: ClientParts) -> Iterator[Problem]:
    """A target names an analyte, one of its methods, and the unit of that method."""
    for target in parts.targets:
        yield from _named(target)


def results_name_methods(parts: ClientParts) -> Iterator[Problem]:
    """A result names an analyte, one of its methods, and the unit of that method."""
    for result in parts.results:
        yield from _named(result)


def _named(owner: Located[Target] | Located[Result]) -> Iterator[Problem]:
    """Yield which of analyte, method and unit is wrong: the first of them, because the others hang on it."""
    value = owner.value
    known = analyte(value.analyte)
    if known is None:
        yield unknown("unknown-analyte", owner.at("analyte"), "analyte", value.analyte, analytes())
        return
    found = known.methods.get(value.method)
    if found is None:
        what = f"method of {value.analyte}"
        yield unknown("unknown-method", owner.at("method"), what, value.method, known.methods)
    elif value.unit != found.unit:
        mend = f"convert the figures and write {found.unit}, or name the method that has this unit"
        expected = f"{found.unit} ({unit_name(found.unit)})"
        yield error("wrong-unit", owner.at("unit"), f"{value.unit} for {found.name}", expected, mend)


def targets_are_possible(parts: ClientParts) -> Iterator[Problem]:
    """The ends of a target lie within the hard limits of the glossary."""
    for target in parts.targets:
        known = method(target.value.analyte, target.value.method)
        for end, number in (("low", target.value.low), ("high", target.value.high)):
            if known is not None and known.unit == target.value.unit and number is not None:
                yield from _possible(target, end, number, known)


def results_are_possible(parts: ClientParts) -> Iterator[Problem]:
    """The value of a result lies within the hard limits of the glossary."""
    for result in parts.results:
        known = method(result.value.analyte, result.value.method)
        if known is not None and known.unit == result.value.unit:
            yield from _possible(result, "value", result.value.value, known)


def _possible(owner: Located[Target] | Located[Result], column: str, number: float, known: Method) -> Iterator[Problem]:
    """Yield that a number is one that no soil has."""
    if not known.low <= number <= known.high:
        expected = f"{known.low:g} to {known.high:g} {known.unit}"
        mend = "check the figure, its unit and its method"
        yield error("value-not-possible", owner.at(column), f"{known.name} of {number:g}", expected, mend)
