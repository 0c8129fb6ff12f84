"""From what a file says of reminders to the model: when, and who is told of what."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields
from typing import Any

from soilrota.model.reminder_choices import WHO_GETS, Audience, LeadTimes, ReminderChoices, ReminderKind

_TIMES = tuple(field.name for field in fields(LeadTimes))


def build_choices(practice: Mapping[str, Any]) -> ReminderChoices:
    """Return the practice's choices, with the defaults of the model where its file is silent."""
    data = practice.get("reminders", {})
    gets = data.get("gets", {})
    usual = ReminderChoices()
    return ReminderChoices(
        times=LeadTimes(**times(data)),
        gets={
            audience: frozenset(map(ReminderKind, gets[audience])) if audience in gets else WHO_GETS[audience]
            for audience in Audience
        },
        attachments_mb=float(data.get("attachments_mb", usual.attachments_mb)),
        alarm_hours=data.get("alarm_hours", usual.alarm_hours),
        asked_for="reminders" in practice,
    )


def times(data: Mapping[str, Any]) -> dict[str, int]:
    """Return the lead times that are written, by name [d]."""
    return {name: data[name] for name in _TIMES if name in data}


def kinds(data: Mapping[str, Any]) -> frozenset[ReminderKind] | None:
    """Return the kinds that a person's entry names under `gets`; None where it names none."""
    return frozenset(map(ReminderKind, data["gets"])) if "gets" in data else None
