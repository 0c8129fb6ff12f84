"""What speaks against a row of a laboratory's file: its days, its layer, its report, its ground. One function a rule.

Tolerances stand in `guidelines/intake.yaml`. House defaults, where the rules leave it open:

- The field note's day and layer stand before the file's and the label's.
- The laboratory's days are held against the day that stands, not against the one in its file.
- Of a blind check sample the day and depth in the file say nothing: the practice made them up.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from itertools import combinations

from soilrota.guidelines.intake import intake_figures
from soilrota.model.field_pack import Bag
from soilrota.model.intake import ClientBags, ReportedRow
from soilrota.model.samples import FieldNote
from soilrota.problems import Problem, error, warning

#: Longest report number that the records hold [character], as in `schemas/results.table.json`.
_LONGEST_REPORT = 80


def report_reasons(row: ReportedRow) -> Iterator[Problem]:
    """Yield that a row has no report number, or one that no file can be named by."""
    if not row.report:
        found = "the row names no report, so nobody could say which report a later one corrects"
        mend = "say in the laboratory's file where the report number stands, or write it into the rows"
        yield error("report-number-missing", row.place, found, "the number of the laboratory's report", mend)
    elif len(row.report) > _LONGEST_REPORT or not row.report.isprintable() or row.report != row.report.strip():
        found = f"the report number has {len(row.report)} characters, or some that cannot be seen"
        expected = f"at most {_LONGEST_REPORT} characters that can be seen"
        mend = "check which column holds the report number, or correct it"
        yield error("report-number-form", row.place, found, expected, mend)


def value_reasons(row: ReportedRow) -> Iterator[Problem]:
    """Yield each analysis that a row gives more than one value."""
    counts = Counter((value.analyte, value.method) for value in row.values)
    for (analyte, method), times in counts.items():
        if times > 1:
            found = f"{analyte}.{method} has {times} values in one row"
            mend = "name one of the columns in the laboratory's file, and pass the others over"
            yield error("analysis-twice", row.place, found, "one value an analysis", mend)


def ground_reasons(
    row: ReportedRow, bag: Bag | None, note: FieldNote | None, others: Sequence[FieldNote], client: ClientBags
) -> Iterator[Problem]:
    """Yield what is wrong with the ground of a bag.

    Args:
        row: the row.
        bag: the bag as it was given out.
        note: the field note that stands.
        others: notes of other soil that name the same bag.
        client: whose bag it is.
    """
    for other in others:
        found = f"field notes name bag {other.bag} for different soil: {_noted(note)} and {_noted(other)}"
        yield error("bag-noted-twice", row.place, found, "one soil", "correct the bag id of one of the field notes")
    if bag is not None and note is not None and (bag.farm, bag.zone) != (note.farm, note.zone):
        found = f"bag {bag.id} was given out for {bag.farm}/{bag.zone}, and {_noted(note)} names it"
        mend = "correct the field note, or where the label was used on purpose give the note the id of another bag"
        yield error("label-against-note", row.place, found, "label and field note of one zone", mend)
        return
    soil = note or bag
    if soil is None:
        return
    if client.zones and (soil.farm, soil.zone) not in client.zones:
        found = f"{soil.farm}/{soil.zone} is no zone of {client.client} any more"
        mend = "name it in `follows` of the zone that took its place"
        yield error("zone-gone", row.place, found, "a zone of the client's file", mend)
    if client.protocols and soil.protocol not in client.protocols:
        found = f"protocol {soil.protocol}, under which the bag was given out, is gone"
        yield error("protocol-gone", row.place, found, "a protocol of the book", "declare the protocol again")


def depth_reasons(row: ReportedRow, bag: Bag | None, note: FieldNote | None) -> Iterator[Problem]:
    """Yield that the layer in the file is another than the note's, or the label's where there is no note."""
    soil = note or bag
    if row.depth is None or soil is None:
        return
    apart = max(abs(row.depth[0] - soil.top_cm), abs(row.depth[1] - soil.bottom_cm))
    if apart > intake_figures().depth_cm_apart:
        said = f"field note line {note.place.line}" if note else "the label"
        found = f"a layer of {row.depth[0]:g}-{row.depth[1]:g} cm, and {soil.top_cm:g}-{soil.bottom_cm:g} cm in {said}"
        mend = "find out which bag this is; correct the row, or the field note"
        yield error("depth-contradicts", row.place, found, f"{soil.top_cm:g}-{soil.bottom_cm:g} cm", mend)


def sampling_reasons(row: ReportedRow, bag: Bag | None, note: FieldNote | None) -> Iterator[Problem]:
    """Yield what is wrong with the day of sampling: not known, against the note, or before the bag was given out."""
    if note is None and row.sampled is None:
        found = f"no field note names bag {row.sample.strip()}, and the file gives no day of sampling"
        mend = "write the field note; the row is tried again every night"
        yield error("no-sampling-day", row.place, found, "a field note, or the day of sampling", mend)
        return
    apart = 0 if note is None or row.sampled is None else abs((row.sampled - note.day).days)
    if note is not None and row.sampled is not None and apart > intake_figures().sampled_days_apart:
        found = f"sampled on {row.sampled.isoformat()}, and on {note.day.isoformat()} in field note line "
        found += f"{note.place.line}: {apart} days apart"
        expected = f"at most {intake_figures().sampled_days_apart} days"
        mend = "find out which bag this is; correct the row, or the field note"
        yield error("sampled-day-contradicts", row.place, found, expected, mend)
    day = note.day if note else row.sampled
    if bag is not None and day is not None:
        first = season_begins(bag) - timedelta(days=intake_figures().days_before_season)
        if day < first:
            found = f"sampled on {day.isoformat()}, before bag {bag.id} was given out for {bag.season}"
            mend = "correct the day, or find out which bag this is"
            yield error("sampled-before-issue", row.place, found, f"not before {first.isoformat()}", mend)


def season_begins(bag: Bag) -> date:
    """Return the first day of the season that a bag was given out for; of its year where only that is known."""
    try:
        return date.fromisoformat(bag.season)
    except ValueError:
        return date(int(bag.season[:4]), 1, 1)


def order_reasons(row: ReportedRow, first: date | None, first_is: str, received_on: date) -> Iterator[Problem]:
    """Yield each pair of days that follow one another the wrong way round.

    Args:
        row: the row.
        first: the day from which the laboratory's days are counted; None where it is not known.
        first_is: what happened on it, in a word.
        received_on: day of the night; nothing can have happened after it.
    """
    days = ((first_is, first), ("received", row.received), ("reported", row.reported), ("taken in", received_on))
    known = [(what, day) for what, day in days if day is not None]
    for (what, day), (later_what, later) in combinations(known, 2):
        if later < day:
            found = f"{later_what} on {later.isoformat()}, before it was {what} on {day.isoformat()}"
            mend = "correct one of the two days, or the order of day and month in the laboratory's file"
            yield error("days-reversed", row.place, found, f"{what} first", mend)


def match_notes(row: ReportedRow, bag: Bag | None, note: FieldNote | None) -> Iterator[Problem]:
    """Yield what a person should know of a row that is matched nevertheless."""
    if note is None:
        found = f"no field note names bag {row.sample.strip()}; the day of sampling is the laboratory's"
        yield warning("no-field-note", row.place, found, "a field note", "write the field note")
        return
    if row.sampled is not None and row.sampled != note.day:
        found = f"sampled on {row.sampled.isoformat()}, and on {note.day.isoformat()} in the field note, which stands"
        yield warning("sampled-day-differs", row.place, found, note.day.isoformat(), "correct the note if it is wrong")
    if bag is not None and (bag.top_cm, bag.bottom_cm) != (note.top_cm, note.bottom_cm):
        found = f"bag {bag.id} was given out for {bag.top_cm:g}-{bag.bottom_cm:g} cm, and the field note says "
        found += f"{note.top_cm:g}-{note.bottom_cm:g} cm, which stands"
        yield warning("layer-differs", row.place, found, "the layer of the label", "correct the note if it is wrong")


def _noted(note: FieldNote | None) -> str:
    """Return a note in words."""
    if note is None:
        return ""
    soil = f"{note.farm}/{note.zone}, {note.top_cm:g}-{note.bottom_cm:g} cm"
    return f"field note line {note.place.line} ({soil}, {note.day.isoformat()})"
