"""What passes between the steps of taking laboratory results in: rows read, rows matched, rows set aside."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from soilrota.model.samples import FieldNote
from soilrota.problems import Place, Problem

if TYPE_CHECKING:
    from soilrota.model.field_pack import Bag


@dataclass(frozen=True, slots=True)
class ReportedValue:
    """One value as a laboratory reported it, already in the unit of the glossary.

    Attributes:
        analyte, method: ids in the glossary.
        qualifier: empty, `<` or `>`.
        value: the number [unit].
        unit: unit of the method in the glossary.
        as_reported: the cell with the unit of the file, for instance `1.234,5 mg/kg P2O5`.
        place: the cell.
    """

    analyte: str
    method: str
    qualifier: str
    value: float
    unit: str
    as_reported: str
    place: Place


@dataclass(frozen=True, slots=True)
class ReportedRow:
    """One row of a laboratory's table that could be read.

    Attributes:
        number: its line in a CSV file or its row in a sheet, from 1: the row's name together with the file's digest.
        origin: `digest:number` of the row set aside that it is the mended form of; empty for a row of a new file.
        cells: its cells as they stand in the file, so that it can be set aside later on.
        sample: what stands for the bag id, as written.
        report: number of the laboratory's report; empty where the file gives none.
        issue: issue of the report, from 1; None where the file gives none.
        sampled, received, reported: days; None where the file does not give them.
        depth: top and bottom of the layer [cm]; None where the file does not give them.
        values: what was measured; may be empty where every cell says that nothing was.
        place: the cell of the bag id.
    """

    number: int
    origin: str
    cells: tuple[str, ...]
    sample: str
    report: str
    issue: int | None
    sampled: date | None
    received: date | None
    reported: date | None
    depth: tuple[float, float] | None
    values: tuple[ReportedValue, ...]
    place: Place


@dataclass(frozen=True, slots=True)
class SetAsideRow:
    """One row that cannot be accepted as it is: its number, its origin, its cells, and every reason."""

    number: int
    origin: str
    cells: tuple[str, ...]
    reasons: tuple[Problem, ...]


@dataclass(frozen=True, slots=True)
class LaboratoryFile:
    """A laboratory's file, read: every row below the headings is in `rows` or in `set_aside`.

    Attributes:
        name: the file's name, for places.
        laboratory: id of the laboratory.
        form: name of the form by which it was read.
        above: the rows above the headings.
        headings: the headings.
        rows: rows that could be read, in the order of the file.
        set_aside: rows that could not, in the order of the file.
        notes: what a person should know of the file as a whole; warnings only.
        units: the row of units below the headings; empty where there is none.
    """

    name: str
    laboratory: str
    form: str
    above: tuple[tuple[str, ...], ...]
    headings: tuple[str, ...]
    rows: tuple[ReportedRow, ...]
    set_aside: tuple[SetAsideRow, ...]
    notes: tuple[Problem, ...] = ()
    units: tuple[str, ...] = ()

    @property
    def rows_read(self) -> int:
        """Return how many rows stand below the headings [-]."""
        return len(self.rows) + len(self.set_aside)


@dataclass(frozen=True, slots=True)
class ClientBags:
    """The bags of one client: those that were given out, and those that its field notes name.

    Attributes:
        client: id of the client.
        bags: bags that were given out.
        notes: its field notes.
        zones: (farm, zone) that its records may name; empty where that is not held against a row.
        protocols: ids that its records may name; empty where that is not held against a row.
    """

    client: str
    bags: tuple[Bag, ...]
    notes: tuple[FieldNote, ...]
    zones: frozenset[tuple[str, str]] = frozenset()
    protocols: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class MatchedRow:
    """A row that belongs to a bag: which client, ground, protocol, layer [cm] and day.

    `notes` are warnings that do not stand in its way, for instance a day of sampling that the file writes otherwise.
    """

    row: ReportedRow
    client: str
    farm: str
    zone: str
    protocol: str
    bag: str
    top_cm: float
    bottom_cm: float
    sampled: date
    notes: tuple[Problem, ...] = ()


@dataclass(frozen=True, slots=True)
class CheckRow:
    """A row that belongs to a blind check sample: of which material, sent on which day."""

    row: ReportedRow
    bag: str
    material: str
    sent: date


@dataclass(frozen=True, slots=True)
class MissingBag:
    """A bag that was taken and has not come back.

    Attributes:
        client, farm, zone, protocol: ids.
        bag: its id; empty where none was written down.
        top_cm, bottom_cm: its layer [cm].
        since: day of sampling.
        due: day by which its results were to be expected; None where its laboratory is not known.
        laboratory: id of the laboratory; empty where none is known.
    """

    client: str
    farm: str
    zone: str
    protocol: str
    bag: str
    top_cm: float
    bottom_cm: float
    since: date
    due: date | None
    laboratory: str
