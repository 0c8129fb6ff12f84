"""Every row of a laboratory's file finds its bag, or is set aside with every reason why not.

An id is never guessed: what is near it is proposed to a person. Which id names which bag stands in `bag_directory`,
what else speaks against a row in `row_reasons` and `repeated_rows`.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from soilrota.bag_ids import has_the_form, is_bag_id
from soilrota.model.field_pack import Bag
from soilrota.model.intake import CheckRow, ClientBags, MatchedRow, ReportedRow, SetAsideRow
from soilrota.model.practice import CheckBag
from soilrota.model.samples import FieldNote
from soilrota.problems import Problem, error, has_errors, in_order
from soilrota.results.bag_directory import BagDirectory, Claim, bag_key
from soilrota.results.repeated_rows import repeated_rows
from soilrota.results.row_reasons import (
    depth_reasons,
    ground_reasons,
    match_notes,
    order_reasons,
    report_reasons,
    sampling_reasons,
    value_reasons,
)


@dataclass(frozen=True, slots=True)
class Matching:
    """What became of the rows of a file; every row stands in exactly one of the three, in the order of the file."""

    matched: tuple[MatchedRow, ...]
    check_rows: tuple[CheckRow, ...]
    set_aside: tuple[SetAsideRow, ...]


def match_rows(
    rows: Sequence[ReportedRow], clients: Sequence[ClientBags], checks: Sequence[CheckBag], received_on: date
) -> Matching:
    """Return which row belongs to which bag.

    Args:
        rows: the rows of one file, in its order.
        clients: the bags of every client.
        checks: the blind check samples of the practice.
        received_on: day of the night on which the file was taken in.

    Returns:
        The rows by what became of them. Reasons, all at the row's cell of the bag id: `bag-missing`,
        `bag-check-character`, `bag-unknown`, `bag-of-several`, `bag-noted-twice`, `bag-contradicts`, `bag-two-days`,
        `repeated-row`, `label-against-note`, `zone-gone`, `protocol-gone`, `depth-contradicts`,
        `sampled-day-contradicts`, `sampled-before-issue`, `no-sampling-day`, `days-reversed`, `report-number-missing`,
        `report-number-form`, `analysis-twice`. Notes: `no-field-note`, `sampled-day-differs`, `layer-differs`.
    """
    matcher = _Matcher(
        BagDirectory.of(clients, checks),
        {one.client: one for one in clients},
        repeated_rows(rows, bag_key),
        _two_days(rows),
        received_on,
    )
    found = [matcher.match(index, row) for index, row in enumerate(rows)]
    return Matching(
        matched=tuple(one for one in found if isinstance(one, MatchedRow)),
        check_rows=tuple(one for one in found if isinstance(one, CheckRow)),
        set_aside=tuple(one for one in found if isinstance(one, SetAsideRow)),
    )


def set_aside(row: ReportedRow, reasons: Sequence[Problem]) -> SetAsideRow:
    """Return a row with the reasons why it waits."""
    return SetAsideRow(row.number, row.origin, row.cells, in_order(reasons))


def _two_days(rows: Sequence[ReportedRow]) -> dict[str, tuple[date, ...]]:
    """Return the days of sampling that the rows of a file give a bag, of bags that are given several."""
    days: dict[str, dict[date, None]] = {}
    for row in rows:
        if row.sampled is not None:
            days.setdefault(bag_key(row.sample), {})[row.sampled] = None
    return {key: tuple(some) for key, some in days.items() if len(some) > 1}


@dataclass(frozen=True, slots=True)
class _Matcher:
    """Matches the rows of one file.

    Attributes:
        bags: what every id stands for.
        clients: by id.
        repeats: why a row cannot stand beside the others, by its place in the file's order.
        two_days: days of sampling of bags to which the file gives several.
        received_on: day of the night.
    """

    bags: BagDirectory
    clients: Mapping[str, ClientBags]
    repeats: Mapping[int, Problem]
    two_days: Mapping[str, tuple[date, ...]]
    received_on: date

    def match(self, index: int, row: ReportedRow) -> MatchedRow | CheckRow | SetAsideRow:
        """Return what becomes of a row."""
        key = bag_key(row.sample)
        reasons = [*report_reasons(row), *value_reasons(row), *([self.repeats[index]] if index in self.repeats else [])]
        wrong_id = list(self._id_reasons(row, key))
        if wrong_id:
            return set_aside(row, reasons + wrong_id)
        if key in self.bags.checks:
            return self._checked(row, self.bags.checks[key], reasons)
        return self._matched(row, self.bags.claims[key][0], reasons)

    def _id_reasons(self, row: ReportedRow, key: str) -> Iterator[Problem]:
        """Yield why an id names no bag, or more than one."""
        written = row.sample.strip()
        claims = self.bags.claims.get(key, ())
        blind = self.bags.checks.get(key)
        if not key:
            mend = "write the bag id into the row"
            yield error("bag-missing", row.place, "the row names no bag", "a bag id", mend)
        elif not claims and blind is None and has_the_form(key) and not is_bag_id(key):
            found = f"the check character of bag {written} is wrong"
            yield error("bag-check-character", row.place, found, "an id as it is printed", self._proposal(key))
        elif not claims and blind is None:
            found = f"bag {written} was never given out, and no field note names it"
            yield error("bag-unknown", row.place, found, "the id of a bag", self._proposal(key))
        elif blind is None and self.bags.misread(key):
            found = f"the check character of bag {written} is wrong, in the field notes too"
            yield error("bag-check-character", row.place, found, "an id as it is printed", self._proposal(key))
        elif len(claims) > 1 or (blind is not None and any(claim.notes for claim in claims)):
            sent = [f"blind check sample of {blind.sent.isoformat()}"] if blind else []
            found = f"bag {written} may be several: " + "; ".join([*map(str, claims), *sent])
            mend = "correct the bag id where it is wrong: in a client's field notes, or among the check samples"
            yield error("bag-of-several", row.place, found, "one bag", mend)

    def _proposal(self, key: str) -> str:
        """Return how to mend an id that names no bag."""
        near = self.bags.near(key)
        if not near:
            return "read the id on the bag's label, or write the field note; then drop the row again"
        return f"read the id on the bag's label; near it {'is' if len(near) == 1 else 'are'} {', '.join(near)}"

    def _checked(self, row: ReportedRow, check: CheckBag, reasons: list[Problem]) -> CheckRow | SetAsideRow:
        """Return a row of a blind check sample."""
        reasons += order_reasons(row, check.sent, "sent", self.received_on)
        return set_aside(row, reasons) if reasons else CheckRow(row, check.bag, check.material, check.sent)

    def _matched(self, row: ReportedRow, claim: Claim, reasons: list[Problem]) -> MatchedRow | SetAsideRow:
        """Return a row of a client's bag."""
        bag, note, others = claim.bag, *_standing(claim)
        reasons += ground_reasons(row, bag, note, others, self.clients[claim.client])
        reasons += depth_reasons(row, bag, note)
        reasons += sampling_reasons(row, bag, note)
        days = self.two_days.get(bag_key(row.sample), ()) if note is None else ()
        if days:
            found = f"bag {row.sample.strip()} was sampled on {' and '.join(day.isoformat() for day in sorted(days))}"
            mend = "write the field note, or correct the day of sampling"
            reasons.append(error("bag-two-days", row.place, found, "one day of sampling", mend))
        sampled = note.day if note else row.sampled
        reasons += order_reasons(row, sampled, "sampled", self.received_on)
        soil = note or bag
        if has_errors(reasons) or soil is None or sampled is None:
            return set_aside(row, reasons)
        return MatchedRow(
            row=row,
            client=claim.client,
            farm=soil.farm,
            zone=soil.zone,
            protocol=soil.protocol,
            bag=_written(bag, note),
            top_cm=soil.top_cm,
            bottom_cm=soil.bottom_cm,
            sampled=sampled,
            notes=tuple(match_notes(row, bag, note)),
        )


def _standing(claim: Claim) -> tuple[FieldNote | None, tuple[FieldNote, ...]]:
    """Return the note that stands, of the label's protocol where there are several; and those of other soil."""
    if not claim.notes:
        return None, ()
    asked = claim.bag.protocol if claim.bag else ""
    first = min(claim.notes, key=lambda note: note.protocol != asked)
    return first, tuple(note for note in claim.notes if _soil(note) != _soil(first))


def _soil(note: FieldNote) -> tuple[object, ...]:
    """Return which soil a note is about, whatever protocol asked for it."""
    return note.farm, note.zone, note.top_cm, note.bottom_cm, note.day


def _written(bag: Bag | None, note: FieldNote | None) -> str:
    """Return the id as it is kept: that of the label, or else as the field note has it."""
    if bag is not None:
        return bag.id
    return bag_key(note.bag) if note and is_bag_id(bag_key(note.bag)) else (note.bag if note else "")
