"""Facts as a reader says them."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from soilrota.delivery.sentence_words import Words, what_where
from soilrota.model.reminder_choices import ReminderKind
from soilrota.model.reminders import TaskName
from tests.delivery.reminding import FACTS, JO, NIGHT, event

SCHEMA = Path(__file__).resolve().parents[2] / "schemas" / "common.schema.json"
CLASSES = json.loads(SCHEMA.read_text(encoding="utf-8"))["definitions"]["class"]["enum"]


def test_zones_stand_under_their_protocol() -> None:
    """Each zone once, in order."""
    tasks = (TaskName("Barn", "Topsoil"), TaskName("Ridge", "Topsoil"), TaskName("Ridge", "Acidity"))
    assert what_where(tasks) == ("Topsoil: Barn and Ridge", "Acidity: Ridge")


@pytest.mark.parametrize("material_class", CLASSES)
def test_every_class_has_words(material_class: str) -> None:
    """A material is named where the book names it; else its class is, without a code."""
    facts = {**FACTS[ReminderKind.SPREADING], "class": material_class}
    assert Words(event(facts=facts), (), JO, NIGHT).material == "ground limestone"
    unnamed = Words(event(facts={**facts, "material": " "}), (), JO, NIGHT).material
    assert unnamed
    assert "-" not in unnamed
