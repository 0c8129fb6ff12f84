"""Every rule has a sentence that a farm manager understands."""

from __future__ import annotations

from datetime import date

import pytest

from soilrota.documents.sentences import (
    overdue_words,
    reason_sentence,
    weekday_words,
)
from soilrota.model.windows import Reason, Rule, Span

FACTS = {
    "season": "late-summer",
    "label": "2027",
    "first": date(2027, 1, 20),
    "last": date(2027, 3, 31),
    "day": date(2026, 2, 20),
    "reported": date(2026, 3, 6),
    "due_on": date(2027, 2, 20),
    "interval_months": 12,
    "months": 1,
    "usual_months": 3,
    "class": "lime",
    "material": "ground limestone",
    "first_day": date(2026, 12, 8),
    "last_day": date(2026, 12, 9),
    "open_again": date(2027, 3, 9),
    "farm": "home",
    "reason": "Agreed.",
    "standing": "done",
    "target": date(2027, 2, 20),
    "anniversary": date(2027, 2, 20),
    "tolerance_days": 30,
    "analysis": "ph.cacl2",
    "ready": date(2027, 12, 9),
    "bags": ("A-1",),
    "weekdays": ("monday", "tuesday"),
    "holidays": ("2027-03-08",),
    "days": 2,
    "what": "the autumn order",
    "last_useful": date(2027, 3, 5),
    "station": "merrow",
    "years": 12,
    "wanted": "moist",
    "likelihood": "mostly",
    "recorded": date(2027, 2, 14),
    "state": "dry",
}


@pytest.mark.parametrize("rule", list(Rule))
def test_every_rule_has_a_sentence(rule: Rule) -> None:
    """Each ends with a full stop, names no code, and uses the singular for one month."""
    reason = Reason(rule, taken=(Span(date(2027, 1, 20), date(2027, 3, 8)),), facts=FACTS)
    said = reason_sentence(reason, "Late summer", "en-AU")
    assert said.endswith(".")
    assert said[0].isupper() or said.startswith("pH")
    for wrong in ("None", "1 months", "late-summer", "ph.cacl2", "{", "  ", ".."):
        assert wrong not in said


def test_an_unknown_first_day_is_said() -> None:
    """'At the latest on' where only the last day is known."""
    facts = {key: value for key, value in FACTS.items() if key != "first_day"}
    said = reason_sentence(Reason(Rule.SPREAD, facts=facts), "Late summer", "en-AU")
    assert "at the latest on 9 December 2026" in said


def test_how_late_in_words() -> None:
    """Less than a month, one month, several."""
    assert overdue_words(0) == "by less than a month"
    assert overdue_words(1) == "by 1 month"
    assert overdue_words(10) == "by 10 months"


def test_weekdays_in_words() -> None:
    """A working week is a span; other days are listed; none of them leaves no day."""
    assert weekday_words(("monday", "tuesday", "wednesday", "thursday", "friday")) == "weekdays, Monday to Friday"
    assert weekday_words(("monday",)) == "Mondays"
    said = reason_sentence(Reason(Rule.HOLDING, facts={**FACTS, "weekdays": ()}), "Late summer", "en-AU")
    assert "no day of the season allows that" in said


def test_what_the_soil_was_is_not_in_a_reason() -> None:
    """It changes with every night, so only an explanation says it."""
    assert "14 February" not in reason_sentence(Reason(Rule.MOISTURE, facts=FACTS), "Late summer", "en-AU")


def test_a_product_keeps_its_letters_at_the_head_of_a_sentence() -> None:
    """The first letter is made large, the others stay."""
    facts = {**FACTS, "class": "mineral-fertiliser", "material": "MAP", "reason": ""}
    said = reason_sentence(Reason(Rule.CLASS_DOES_NOT_COUNT, facts=facts), "Late summer", "en-AU")
    assert said == "Mineral fertiliser (MAP) from 8 December to 9 December 2026 does not close sampling."
