"""How a laboratory writes its files: where each thing stands, what each column means."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum
from typing import TYPE_CHECKING

from soilrota.problems import Place

if TYPE_CHECKING:  # it reads YAML, which a night in which nothing changed does without
    from soilrota.quantities import NumberForm, Soil


class FileKind(StrEnum):
    """What kind of file a table came in."""

    CSV = "csv"
    XLSX = "xlsx"


class RowShape(StrEnum):
    """What one row of a laboratory's table holds: all values of one sample, or one value."""

    SAMPLE = "sample-a-row"
    VALUE = "value-a-row"


@dataclass(frozen=True, slots=True)
class GridForm:
    """How the cells of a file are told apart; whatever is empty is found out.

    Attributes:
        delimiter: one character between cells of a CSV file; empty to find it out.
        encoding: name of the text encoding of a CSV file, for instance `windows-1252`; empty to find it out.
        sheet: name of the sheet of a workbook; empty for the first one that is not hidden.
    """

    delimiter: str = ""
    encoding: str = ""
    sheet: str = ""


@dataclass(frozen=True, slots=True)
class Spot:
    """Where a fact stands: under a heading of the table, or beside a label in the rows above it.

    Attributes:
        heading: heading of a column; empty where it stands above the table.
        label: text of a cell above the table; the fact is the next filled cell of that row, or what follows a colon in
            the cell itself. Empty where it stands in a column.
    """

    heading: str = ""
    label: str = ""


@dataclass(frozen=True, slots=True)
class AnalysisColumn:
    """What a column (one sample a row) or a name (one value a row) means.

    Attributes:
        heading: heading of the column, or the laboratory's name of the analysis.
        analyte, method: ids in the glossary.
        unit: unit as the laboratory writes it; empty where it stands in the file.
        unit_row: whether the unit stands in the row below the headings.
        low, high: what the laboratory can tell, for words such as `<LOD` [unit, or that of the glossary where the unit
            stands in the file]; None where not given.
        laboratory_density: mass of a volume of soil in the laboratory's scoop [g/cm3]; None where not given.
        layer: name of the convention by which values by area were reckoned; empty for none.
        place: where it is declared.
    """

    heading: str
    analyte: str
    method: str
    unit: str
    unit_row: bool
    low: float | None
    high: float | None
    laboratory_density: float | None
    layer: str
    place: Place

    @property
    def code(self) -> str:
        """Return the code of the analysis, for instance `phosphorus.colwell`."""
        return f"{self.analyte}.{self.method}"

    @property
    def soil(self) -> Soil:
        """Return what is declared of the soil that was measured."""
        from soilrota.quantities import Soil, convention_soil  # noqa: PLC0415 - as said above

        soil = convention_soil(self.layer) if self.layer else Soil()
        return replace(soil, laboratory_density=self.laboratory_density)


@dataclass(frozen=True, slots=True)
class LaboratoryForm:
    """One way in which a laboratory writes its results.

    Attributes:
        name: what the laboratory's file calls it, for instance `web-export`.
        laboratory: id of the laboratory.
        kind: kind of file; None for either.
        grid: how cells are told apart.
        shape: what a row holds.
        numbers: how numbers are written; None to find it out column by column.
        nd: what `n.d.` means where `numbers` is None; empty where not declared.
        day_form: order of days: `year-month-day`, `day-month-year` or `month-day-year`.
        sample: where the bag id stands; always a column.
        report, issue, sampled, received, reported: where they stand; None where the file does not give them.
        depth: where a depth such as `0-10` stands; top, bottom: where its two edges stand [cm]. None where not given.
        analysis, value, unit, method: of one value a row: the columns of name, value, unit and method; None otherwise.
        columns: what the columns, or the names, mean.
        ignored: headings, or names of analyses, that are passed over on purpose.
        place: where it is declared.
    """

    name: str
    laboratory: str
    kind: FileKind | None
    grid: GridForm
    shape: RowShape
    numbers: NumberForm | None
    nd: str
    day_form: str
    sample: Spot
    report: Spot | None
    issue: Spot | None
    sampled: Spot | None
    received: Spot | None
    reported: Spot | None
    depth: Spot | None
    top: Spot | None
    bottom: Spot | None
    analysis: Spot | None
    value: Spot | None
    unit: Spot | None
    method: Spot | None
    columns: tuple[AnalysisColumn, ...]
    ignored: tuple[str, ...]
    place: Place
