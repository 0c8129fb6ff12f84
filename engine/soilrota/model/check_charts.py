"""How a laboratory measures check materials: one chart a laboratory, material and analysis."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum


class CheckState(StrEnum):
    """How a laboratory stands by its check samples; `untold` where a value says too little."""

    IN_LINE = "in line"
    WATCH = "watch"
    OFF = "off"
    UNTOLD = "cannot be told"


class CheckRule(StrEnum):
    """What a check sample broke."""

    #: One check beyond the action line.
    ACTION = "action"
    #: Two of three checks beyond the warning line, on the same side.
    PAIR = "pair"
    #: The sum of deviations beyond the slack ran over its limit: a slow drift.
    DRIFT = "drift"
    #: Many checks in a row on one side.
    ONE_SIDE = "one-side"
    #: One check beyond the warning line.
    WARNING = "warning"


@dataclass(frozen=True, slots=True)
class CheckLimits:
    """The figures of the rules, in standard deviations of the check material unless said otherwise.

    Attributes:
        action, warning: distance of the two lines from the assigned value [sd].
        one_side: so many checks in a row on one side [-].
        slack: what a check may deviate before it counts towards a drift [sd].
        drift: limit of the sum of what counts [sd].
        back: a laboratory that was off is in line again with a check as near as this [sd].
        states: the state that follows from each rule.
    """

    action: float
    warning: float
    one_side: int
    slack: float
    drift: float
    back: float
    states: dict[CheckRule, CheckState]


@dataclass(frozen=True, slots=True)
class CheckPoint:
    """One check sample on a chart.

    Attributes:
        day: day of the laboratory's report.
        bag, report: ids.
        qualifier, value: what was reported [unit].
        z: (value - assigned) / sd [sd]; where a qualifier stands, the least that it deviates; None where that is
            nothing that can be told.
        state: how the laboratory stood after this check.
        rule: by which rule; None where it was in line, or where nothing can be told.
    """

    day: date
    bag: str
    report: str
    qualifier: str
    value: float
    z: float | None
    state: CheckState
    rule: CheckRule | None


@dataclass(frozen=True, slots=True)
class OffSpell:
    """A time during which a laboratory was off.

    Attributes:
        rule: the rule that showed it.
        since: day of the first check that the rule speaks of.
        shown: day of the check that showed it.
        z: deviation of that check [sd].
        in_line_before: day of the last check in line before `since`; None where there was none.
        until: day of the check that was in line again; None where there was none yet.
    """

    rule: CheckRule
    since: date
    shown: date
    z: float
    in_line_before: date | None
    until: date | None = None

    def doubts(self, reported: date) -> bool:
        """Return whether a value that the laboratory reported on a day may be off too."""
        begun = self.in_line_before is None or self.in_line_before <= reported
        return begun and (self.until is None or reported < self.until)


@dataclass(frozen=True, slots=True)
class CheckChart:
    """How one laboratory measured one analysis of one check material.

    Attributes:
        laboratory, material: ids.
        analyte, method, unit: as in the glossary.
        assigned, sd: what the material holds, and the standard deviation between runs [unit].
        points: in order of day, then bag.
        spells: when the laboratory was off, in order.
        state: how it stands.
        rule: by which rule; None where it is in line, or where nothing can be told.
        since: day of the first check that the rule speaks of; None where no rule is broken.
    """

    laboratory: str
    material: str
    analyte: str
    method: str
    unit: str
    assigned: float
    sd: float
    points: tuple[CheckPoint, ...]
    spells: tuple[OffSpell, ...]
    state: CheckState
    rule: CheckRule | None
    since: date | None

    @property
    def analysis(self) -> str:
        """Return the code of the analysis, for instance `phosphorus.colwell`."""
        return f"{self.analyte}.{self.method}"
