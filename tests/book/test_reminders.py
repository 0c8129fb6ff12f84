"""What files say of reminders, and what holds where they are silent."""

from __future__ import annotations

from dataclasses import fields

from soilrota.book.reminders import build_choices, kinds, times
from soilrota.files.schemas import shipped_schemas
from soilrota.model.reminder_choices import WHO_GETS, Audience, LeadTimes, ReminderChoices, ReminderKind


def test_a_silent_file_has_the_defaults() -> None:
    """Without the section nothing is asked for, and the model's defaults hold."""
    assert build_choices({}) == ReminderChoices()
    assert build_choices({"reminders": {}}).asked_for


def test_what_is_written_holds() -> None:
    """Lead times, lists of one audience, the limit; the other audiences keep theirs."""
    made = build_choices({"reminders": {"opens_days": 30, "attachments_mb": 2, "gets": {"office": ["overdue"]}}})
    assert (made.times.opens_days, made.times.closing_days, made.attachments_mb) == (30, 14, 2.0)
    assert made.gets[Audience.OFFICE] == {ReminderKind.OVERDUE}
    assert made.gets[Audience.CONTACT] == WHO_GETS[Audience.CONTACT]


def test_lists_of_people() -> None:
    """No list is the audience's; an empty one is nothing."""
    assert kinds({}) is None
    assert kinds({"gets": []}) == frozenset()
    assert kinds({"gets": ["visit"]}) == {ReminderKind.VISIT}
    assert times({"opens_days": 3, "gets": {}}) == {"opens_days": 3}


def test_the_schema_tells_the_defaults_that_hold() -> None:
    """Every lead time stands in the schema with its default, every kind in its list."""
    schema = shipped_schemas().by_name["practice.schema.json"]["properties"]["reminders"]["properties"]
    for field in fields(LeadTimes):
        assert f"Default {field.default} " in schema[field.name]["description"]
    common = shipped_schemas().by_name["common.schema.json"]["definitions"]["reminder-kinds"]
    assert common["items"]["enum"] == [kind.value for kind in ReminderKind]
    for audience in Audience:
        named = schema["gets"]["properties"][audience.value]["description"].partition("Default: ")[2].partition(" (")[0]
        assert set(named.split(", ")) == {kind.value for kind in WHO_GETS[audience]}
