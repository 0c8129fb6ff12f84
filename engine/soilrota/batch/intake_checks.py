"""Blind check samples of a laboratory file: their values, what contradicts earlier ones, the laboratory's charts."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from pathlib import Path

from soilrota.batch.check_records import contradicted, read_check_values
from soilrota.model.check_charts import CheckChart
from soilrota.model.check_values import CheckValue
from soilrota.model.intake import CheckRow, SetAsideRow
from soilrota.model.practice import CheckMaterial
from soilrota.problems import Problem, error
from soilrota.results import laboratory_state

_MEND = "ask the laboratory which is right; a corrected report has an issue number of its own"


class ChecksOfFile:
    """The check samples of one file beside those that are known of its laboratory."""

    def __init__(self, root: Path, laboratory: str, short: str, as_of: date) -> None:
        """Read what is known; `problems` are those of the records."""
        self._laboratory = laboratory
        self._short = short
        self._as_of = as_of
        known, self.problems = read_check_values(root, laboratory)
        self._known: tuple[CheckValue, ...] = known or ()

    def take(self, rows: Sequence[CheckRow]) -> tuple[tuple[CheckValue, ...], tuple[SetAsideRow, ...]]:
        """Return the values of rows, and the rows that contradict what is known."""
        values = {row.row.number: tuple(self._values_of(row)) for row in rows}
        every = [value for some in values.values() for value in some]
        wrong = {int(value.origin.rpartition(":")[2]) for value in contradicted(self._known, every)}
        aside = tuple(
            SetAsideRow(row.row.number, row.row.origin, row.row.cells, (_contradicts(row),))
            for row in rows
            if row.row.number in wrong
        )
        return tuple(value for number, some in values.items() if number not in wrong for value in some), aside

    def charts(self, fresh: Sequence[CheckValue], materials: dict[str, CheckMaterial]) -> tuple[CheckChart, ...]:
        """Return how the laboratory stands by its check samples, fresh ones among them."""
        return laboratory_state(dict.fromkeys((*self._known, *fresh)), materials, self._as_of)

    def _values_of(self, row: CheckRow) -> Iterator[CheckValue]:
        """Yield the values of one check sample."""
        for value in row.row.values:
            yield CheckValue(
                laboratory=self._laboratory,
                report=row.row.report,
                issue=row.row.issue or 1,
                bag=row.bag,
                material=row.material,
                sent=row.sent,
                received=row.row.received,
                reported=row.row.reported or self._as_of,
                analyte=value.analyte,
                method=value.method,
                qualifier=value.qualifier,
                value=value.value,
                unit=value.unit,
                origin=f"{self._short}:{row.row.number}",
            )


def _contradicts(row: CheckRow) -> Problem:
    """Return that a check sample came back with other values before."""
    found = f"check sample {row.bag} came back with other values in the same issue of report {row.row.report}"
    return error("check-contradicts", row.row.place, found, "", _MEND)
