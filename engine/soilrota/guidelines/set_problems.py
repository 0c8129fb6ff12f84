"""What is wrong with a guideline set: rows that could not be used, or that would say two things of one value."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator
from decimal import Decimal
from itertools import combinations, pairwise

from soilrota.files import nearest_name
from soilrota.guidelines.derived_codes import DERIVED, derived_codes, unit_of
from soilrota.model.guideline import GuidelineRow, GuidelineSet, RatingClass, Sense, Status
from soilrota.problems import Place, Problem, error, warning
from soilrota.quantities import analyte, analytes, split_code

#: A covariate that is a property of the zone and no analysis.
CLAY = "clay-percent"
_MOST_NAMES = 12


def set_problems(guideline: GuidelineSet) -> Iterator[Problem]:
    """Yield what is wrong with a set, as it stands in its own file.

    Problems: `repeated-id`, `unknown-analyte`, `unknown-method`, `wrong-unit`, `unknown-covariate`, `unknown-source`,
    `layer-upside-down`, `range-empty`, `class-repeated`, `class-order`, `class-gap`, `class-overlap`, `class-open`,
    `edge-decimals`, `critical-twice`, `critical-outside-interval`, `interval-upside-down`, `description-with-line`,
    `rows-overlap`, `goal-missing`, `goal-unserved`, and the warning `unverified-without-note`.
    """
    yield from _repeated(guideline)
    for row in guideline.rows:
        yield from _names(row)
        yield from _source(guideline, row)
        yield from _ground(row)
        yield from class_problems(row)
        yield from _lines(row)
        if row.status is Status.UNVERIFIED and not row.note:
            found, mend = f"the row {row.id} is unverified and has no note", "say in its note what was not read"
            yield warning("unverified-without-note", row.place, found, "a note", mend)
    yield from _overlaps(guideline.rows)
    yield from _goals(guideline)


def _repeated(guideline: GuidelineSet) -> Iterator[Problem]:
    """Yield rows whose id an earlier row has."""
    seen: set[str] = set()
    for row in guideline.rows:
        if row.id in seen:
            mend = "give one of them another id"
            yield error("repeated-id", row.place, f"the row {row.id} stands twice", "an id of its own", mend)
        seen.add(row.id)


def _unknown(code: str, place: Place, what: str, word: str, names: Collection[str]) -> Problem:
    """Return the error that a word names nothing, with the nearest name that does."""
    nearest = nearest_name(word, sorted(names))
    expected = "one of " + ", ".join(sorted(names)) if len(names) <= _MOST_NAMES else f"the id of a {what}"
    mend = f"write {nearest}" if nearest else f"name a {what} that exists"
    return error(code, place, f"there is no {what} '{word}'", expected, mend)


def _names(row: GuidelineRow) -> Iterator[Problem]:
    """Yield which of analyte, method and unit is wrong: the first of them, because the others hang on it."""
    known: Collection[str]
    if row.method == DERIVED:
        if row.analyte not in derived_codes():
            yield _unknown("unknown-analyte", row.place, "derived quantity", row.analyte, derived_codes())
            return
    elif (found := analyte(row.analyte)) is None:
        known = (*analytes(), *derived_codes())
        yield _unknown("unknown-analyte", row.place, "analyte", row.analyte, known)
        return
    elif row.method not in found.methods:
        yield _unknown("unknown-method", row.place, f"method of {row.analyte}", row.method, found.methods)
        return
    unit = unit_of(row.analyte, row.method)
    if unit != row.unit:
        mend = f"convert the figures and write {unit}, or name the method that has this unit"
        yield error("wrong-unit", row.place, f"{row.unit} for {row.analyte} by {row.method}", str(unit), mend)


def _source(guideline: GuidelineSet, row: GuidelineRow) -> Iterator[Problem]:
    """Yield that a row refers to a source that the set does not declare."""
    if row.source not in guideline.sources:
        yield _unknown("unknown-source", row.place, "source", row.source.id, {one.id for one in guideline.sources})


def _ground(row: GuidelineRow) -> Iterator[Problem]:
    """Yield what is wrong with the layer and the covariates of a row."""
    if row.top_cm >= row.bottom_cm:
        found = f"a layer from {row.top_cm:g} to {row.bottom_cm:g} cm"
        yield error("layer-upside-down", row.place, found, "a top above its bottom", "mend the depths")
    named = [one.covariate for one in row.ranges] + ([row.line.covariate] if row.line else [])
    for word in named:
        if not _is_covariate(word):
            yield _unknown("unknown-covariate", row.place, "covariate", word, (CLAY, *analytes(), *derived_codes()))
    for one in row.ranges:
        if one.low is None and one.high is None:
            mend = "write low or high, or leave the range out"
            yield error("range-empty", row.place, f"a range of {one.covariate} without an edge", "an edge", mend)
        elif one.low is not None and one.high is not None and one.low >= one.high:
            found = f"{one.covariate} from {one.low:g} to below {one.high:g}"
            yield error("range-empty", row.place, found, "low below high", "mend the edges")


def _is_covariate(word: str) -> bool:
    """Return whether a word names something that a row can hang on."""
    analyte_id, method_id = split_code(word)
    if not method_id:
        return word == CLAY or word in derived_codes() or analyte(word) is not None
    return unit_of(analyte_id, method_id) is not None


def class_problems(row: GuidelineRow) -> Iterator[Problem]:
    """Yield what keeps a row's classes from covering every value once; nothing for a row without classes."""
    classes = row.classes
    if not classes:
        return
    if len({one.name for one in classes}) < len(classes):
        yield error("class-repeated", row.place, "two classes of one name", "a name each", "rename one of them")
    ends = ((classes[0].low, "lowest", "low"), (classes[-1].high, "highest", "high"))
    for edge, which, key in ends:
        if edge is not None:
            found, mend = f"the {which} class ends at {edge:g}", f"leave {key} of that class out"
            yield error("class-open", row.place, found, "an open end, so that every value has a class", mend)
    for one in classes:
        if one.low is not None and one.high is not None and one.low >= one.high:
            found = f"class {one.name} from {one.low:g} to below {one.high:g}"
            yield error("class-order", row.place, found, "edges that ascend", "mend the edges")
    for lower, upper in pairwise(classes):
        yield from _join(row, lower, upper)
    yield from _edge_decimals(row)


def _join(row: GuidelineRow, lower: RatingClass, upper: RatingClass) -> Iterator[Problem]:
    """Yield that one class does not begin where the one below it ends."""
    if lower.high is None or upper.low is None:
        found = f"an open end between {lower.name} and {upper.name}"
        yield error("class-gap", row.place, found, "one edge that both have", "write the edge in both classes")
    elif lower.high < upper.low:
        found = f"no class from {lower.high:g} to below {upper.low:g}"
        mend = "let a class begin where the one below it ends; where whole numbers are printed, set decimals to 0"
        yield error("class-gap", row.place, found, "a class for every value", mend)
    elif lower.high > upper.low:
        found = f"two classes from {upper.low:g} to below {lower.high:g}"
        mend = "let a class begin where the one below it ends"
        yield error("class-overlap", row.place, found, "one class for every value", mend)


def _edge_decimals(row: GuidelineRow) -> Iterator[Problem]:
    """Yield an edge that lies between two values after rounding, so that it would move by the rounding."""
    if row.decimals is None:
        return
    for edge in {one.low for one in row.classes if one.low is not None}:
        if -int(Decimal(repr(edge)).normalize().as_tuple().exponent) > row.decimals:
            found, expected = f"the edge {edge:g}", f"at most {row.decimals} decimals, as values are rounded"
            yield error("edge-decimals", row.place, found, expected, "mend the edge or decimals")


def _lines(row: GuidelineRow) -> Iterator[Problem]:
    """Yield what is wrong with the critical value of a row."""
    if row.critical is not None and row.line is not None:
        mend = "leave critical or line out"
        yield error("critical-twice", row.place, "a critical value and a line that gives it", "one of them", mend)
    if row.sense is Sense.DESCRIPTION and (row.critical is not None or row.line is not None):
        mend = "say sufficiency or excess, or leave the line out"
        yield error("description-with-line", row.place, "a description with a critical value", "classes alone", mend)
    low, high = row.critical_low, row.critical_high
    if low is not None and high is not None and low > high:
        found = f"an interval from {low:g} to {high:g}"
        yield error("interval-upside-down", row.place, found, "the lower end first", "mend the ends")
    elif row.critical is not None and not _inside(row.critical, low, high):
        found, expected = f"a critical value of {row.critical:g}", "a value inside its own interval"
        yield error("critical-outside-interval", row.place, found, expected, "mend the value or the interval")


def _inside(value: float, low: float | None, high: float | None) -> bool:
    """Return whether a value lies in a closed interval."""
    return (low is None or low <= value) and (high is None or value <= high)


def _overlaps(rows: Iterable[GuidelineRow]) -> Iterator[Problem]:
    """Yield pairs of rows that name the same kinds of conditions and could both speak of one result."""
    alike: defaultdict[tuple[object, ...], list[GuidelineRow]] = defaultdict(list)
    for row in rows:
        kinds = tuple(bool(one) for one in _words(row))
        covariates = tuple(sorted(one.covariate for one in row.ranges))
        alike[row.analyte, row.method, row.any_layer_within, kinds, covariates].append(row)
    for group in alike.values():
        for first, second in combinations(group, 2):
            if first.id != second.id and _both_speak(first, second):
                mend = "mend their layers, ranges or other conditions so that one of them speaks"
                found = f"the rows {first.id} and {second.id} speak of the same ground"
                yield error("rows-overlap", second.place, found, "one row for each ground", mend)


def _words(row: GuidelineRow) -> tuple[tuple[str, ...], ...]:
    """Return the conditions of a row that are words."""
    return (row.land_uses, row.crops, row.textures, row.rainfall_zones, row.goals)


def _both_speak(first: GuidelineRow, second: GuidelineRow) -> bool:
    """Return whether two rows of the same kinds of conditions can both hold."""
    if not _share_a_layer(first, second):
        return False
    if any(here and not set(here) & set(there) for here, there in zip(_words(first), _words(second), strict=True)):
        return False
    for one in first.ranges:
        for other in second.ranges:
            if one.covariate == other.covariate:
                ends_before = one.high is not None and other.low is not None and one.high <= other.low
                begins_after = other.high is not None and one.low is not None and other.high <= one.low
                if ends_before or begins_after:
                    return False
    return True


def _share_a_layer(first: GuidelineRow, second: GuidelineRow) -> bool:
    """Return whether there is a layer that two rows, both exact or both wide, speak of."""
    one, other = (first.top_cm, first.bottom_cm), (second.top_cm, second.bottom_cm)
    return max(one[0], other[0]) < min(one[1], other[1]) if first.any_layer_within else one == other


def _goals(guideline: GuidelineSet) -> Iterator[Problem]:
    """Yield that the set names no goal where rows do, or one that none of them serves; an overriding set may."""
    served = {goal for row in guideline.rows for goal in row.goals}
    if guideline.overrides or not guideline.rows or guideline.goal in served:
        return
    place = Place(guideline.rows[0].place.file)
    if guideline.goal:
        found, mend = f"no row serves the goal {guideline.goal}", "name a goal that rows serve"
        yield error("goal-unserved", place, found, "one of " + ", ".join(sorted(served)) if served else "", mend)
    elif served:
        mend = "write goal: and one of them at the top of the file"
        yield error("goal-missing", place, "rows name yield goals, the set none", ", ".join(sorted(served)), mend)
