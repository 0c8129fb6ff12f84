"""What laboratories reported for blind check samples."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True)
class CheckValue:
    """One value that a laboratory reported for one blind check sample, in the unit of the glossary.

    Attributes:
        laboratory, report, issue: which issue of which report of which laboratory; issues count from 1.
        bag, material: id of the bag and of the check material in it.
        sent: day on which the bag was sent.
        received: day on which the laboratory received it; None where it is not known.
        reported: day of the laboratory's report.
        analyte, method: ids in the glossary.
        qualifier: empty, `<` or `>`.
        value: the number [unit].
        unit: unit of the method in the glossary.
        origin: row of the laboratory's file, `digest:number`; may be empty.
    """

    laboratory: str
    report: str
    issue: int
    bag: str
    material: str
    sent: date
    received: date | None
    reported: date
    analyte: str
    method: str
    qualifier: str
    value: float
    unit: str
    origin: str = ""

    @property
    def key(self) -> tuple[str, str, int, str, str, str]:
        """Return what names the value: laboratory, report, issue, bag, analyte, method."""
        return self.laboratory, self.report, self.issue, self.bag, self.analyte, self.method
