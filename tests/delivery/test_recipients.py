"""Who is told of what."""

from __future__ import annotations

from dataclasses import replace

import pytest

from soilrota.delivery.recipients import address_key, office_of, recipients_of
from soilrota.model.reminder_choices import Audience, ReminderKind
from tests.delivery.reminding import anvil, event, practice


@pytest.mark.parametrize(
    ("kind", "names"),
    [
        (ReminderKind.OPENS_SOON, {"Jo Tern"}),
        (ReminderKind.VISIT, {"Ned Marlow", "Jo Tern"}),
        (ReminderKind.DECISION, {"Jo Tern", "Pat Tern", "Mara Ellis"}),
        (ReminderKind.BAGS_OUT, {"Iris Cole"}),
        (ReminderKind.DRAFT, {"Mara Ellis"}),
    ],
)
def test_who_gets_what(kind: ReminderKind, names: set[str]) -> None:
    """By role, by the practice's lists, by a person's own list; one client's people only."""
    assert {one.name for one in recipients_of(anvil(), event(kind, person="ned-marlow"))} == names


def test_without_an_address_nobody_is_told() -> None:
    """A contact and a crew member without an address are left out."""
    mute = replace(anvil(), contacts=tuple(replace(one, email="") for one in anvil().contacts))
    assert {one.name for one in recipients_of(mute, event(ReminderKind.OPENS_SOON))} == set()


def test_one_address_is_one_person() -> None:
    """Capitals make no second person; who is the crew member here is addressed as that."""
    jo = anvil().contacts[0]
    twice = replace(
        anvil(), contacts=(jo, replace(jo, email=jo.email.upper()), replace(jo, email="NED@merrow-tarn.example"))
    )
    found = recipients_of(twice, event(ReminderKind.VISIT, person="ned-marlow"))
    assert [(one.person, one.audience) for one in found] == [
        ("ned@merrow-tarn.example", Audience.SAMPLER),
        (address_key(jo.email), Audience.CONTACT),
    ]


def test_the_office_alone_hears_of_the_office() -> None:
    """An event without a client reaches those who keep the office and get its kind."""
    assert [one.id for one in office_of(practice(), event(ReminderKind.SET_ASIDE))] == ["front-desk"]
    assert office_of(practice(), event(ReminderKind.DRAFT)) == ()


def test_a_contact_reads_the_clients_language_and_the_practice_its_own() -> None:
    """Whatever a client speaks, who works for the practice is written to in the practice's language."""
    own = replace(practice(), language="en-US")
    client = replace(anvil(), language="es", practice=own)
    found = recipients_of(client, event(ReminderKind.DECISION))
    assert {(one.name, one.language) for one in found} == {
        ("Jo Tern", "es"),
        ("Pat Tern", "es"),
        ("Mara Ellis", "en-US"),
    }
    crew = recipients_of(client, event(ReminderKind.VISIT, person="ned-marlow"))
    assert {one.language for one in crew if one.audience is Audience.SAMPLER} == {"en-US"}
    assert {one.language for one in office_of(own, event(ReminderKind.SET_ASIDE))} == {"en-US"}
