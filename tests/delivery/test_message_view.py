"""From a packet to what a message shows."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from soilrota.delivery.gathering import gather
from soilrota.delivery.message_view import MessageView, message_view
from soilrota.delivery.templates import message_html, message_text
from soilrota.model.messages import Urgency
from soilrota.model.reminder_choices import ReminderKind
from soilrota.model.reminders import Recipient, Reminder, TaskName
from tests.delivery.other_words import not_said
from tests.delivery.reminding import JO, MARA, NED, NIGHT, clients, practice, reminder


def shown(*reminders: Reminder) -> MessageView:
    """Return the view of what one person is told."""
    (packet,) = gather(reminders, NIGHT)
    return message_view(packet, practice(), clients())


def test_the_subject_says_farm_and_what() -> None:
    """For a contact the farm; for the practice whose farm; how much more there is."""
    assert shown(reminder()).subject == "Home block: last days to sample"
    assert shown(reminder(to=MARA)).subject == "Anvil Creek Pastoral, Home block: last days to sample"
    more = reminder(ReminderKind.OVERDUE, name="overdue/x")
    assert shown(reminder(urgency=Urgency.URGENT), more).subject == "Home block: last days to sample (and 1 more)"
    report = reminder(ReminderKind.REPORT, farm="", farm_name="", tasks=())
    assert shown(report).subject == "Anvil Creek Pastoral: farm report ready"
    office = reminder(ReminderKind.SET_ASIDE, MARA, client="", client_name="", farm="", farm_name="", tasks=())
    assert shown(office).subject == "Laboratory rows set aside"


def test_a_contact_of_two_clients_reads_whose_farm_it_is() -> None:
    """With farms of two clients the client stands before the farm; a farm named as its client stands once."""
    other = reminder(name="b", client="ellery-orchard", client_name="Ellery Orchard", farm_name="Ellery Orchard")
    titles = [section.title for section in shown(reminder(), other).sections]
    assert titles == ["Anvil Creek Pastoral, Home block", "Ellery Orchard"]
    assert shown(reminder(), other).why.startswith(
        "You get this because you are a contact of Anvil Creek Pastoral and Ellery Orchard"
    )


def test_zones_of_which_the_same_is_said_are_told_in_one() -> None:
    """Same kind, farm and facts: one item with all zones; another day is another item."""
    barn, ridge = reminder(), reminder(name="b", tasks=(TaskName("Ridge", "Topsoil under pasture"),))
    (section,) = shown(barn, ridge).sections
    (item,) = section.items
    assert item.lines[-1] == "Topsoil under pasture: Barn and Ridge"
    later = replace(ridge, event=replace(ridge.event, facts={"last": NIGHT}))
    assert len(shown(barn, later).sections[0].items) == 2


def test_one_message_has_one_way_of_writing_days() -> None:
    """A crew member who works in two countries reads every day in one form."""
    american = replace(NED, language="en-US")
    view = shown(
        reminder(ReminderKind.VISIT, NED, name="a"), reminder(ReminderKind.VISIT, american, name="b", farm="x")
    )
    heads = [item.head for section in view.sections for item in section.items]
    assert len(heads) == 2
    assert len(set(heads)) == 1


def test_a_long_name_leaves_room_for_what_is_said() -> None:
    """Names of 300 characters are cut in the subject, not what is said."""
    subject = shown(reminder(farm_name="Long " * 60)).subject
    assert len(subject) < 120
    assert subject.endswith("…: last days to sample")


def test_what_is_about_no_client_is_not_put_under_a_farm() -> None:
    """Beside a farm it has a heading of its own."""
    office = reminder(
        ReminderKind.SET_ASIDE, MARA, name="s", client="", client_name="", farm="", farm_name="", tasks=()
    )
    assert [one.title for one in shown(reminder(to=MARA), office).sections][-1] == "Anvil Creek Pastoral, Home block"
    assert "For the office" in [one.title for one in shown(reminder(to=MARA), office).sections]


def test_no_name_steers_a_screen() -> None:
    """Line breaks, controls and forced directions in names reach no line of a message; letters of any script do."""
    view = shown(reminder(farm_name="Barn\r\n\x1b[2J\u202eflat \u05d0\u05d1", tasks=(TaskName("a\nb", "c\x00d"),)))
    assert view.sections[0].title == "Barn [2J flat \u05d0\u05d1"
    assert view.sections[0].items[0].lines[-1] == "c d: a b"
    assert view.subject == "Barn [2J flat \u05d0\u05d1: last days to sample"


@pytest.mark.usefixtures("other_words")
@pytest.mark.parametrize("to", [JO, MARA])
def test_a_message_is_in_the_language_of_its_reader(to: Recipient) -> None:
    """Every word of it, of whichever client it speaks, in text and HTML alike; names and days apart."""
    reader, other = replace(to, language="es"), replace(to, language="fr")
    told = [
        reminder(to=reader, urgency=Urgency.URGENT),
        reminder(ReminderKind.OVERDUE, other, name="b", client="x", client_name="Ellery Orchard"),
        reminder(ReminderKind.SET_ASIDE, reader, name="s", client="", client_name="", farm="", farm_name="", tasks=()),
    ]
    view = shown(*told)
    names = "Anvil Creek Pastoral Ellery Orchard Home block Barn Topsoil under pasture results.csv intake.txt"
    known = (names, "practice.yaml", to.name, practice().name, practice().contact)
    days = "lunes miércoles sábado enero febrero marzo de"
    assert view.language == "es"
    assert not_said(message_text(view), *known, days) == []
    assert not_said(view.subject, *known) == []
    body = message_html(view).partition("<body")[2]
    assert not_said(re.sub(r"<[^>]*>", " ", f"<{body}"), *known, days) == []


@pytest.mark.usefixtures("other_words")
def test_who_is_no_contact_of_a_known_client_reads_why_all_the_same() -> None:
    """A client that left is not named, and nothing is said in another language than the rest."""
    view = shown(reminder(to=replace(JO, language="es"), client="gone"))
    assert not_said(view.why, practice().name) == []
