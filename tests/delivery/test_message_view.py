"""From a packet to what a message shows."""

from __future__ import annotations

from dataclasses import replace

from soilrota.delivery.gathering import gather
from soilrota.delivery.message_view import MessageView, message_view
from soilrota.model.messages import Urgency
from soilrota.model.reminder_choices import ReminderKind
from soilrota.model.reminders import Reminder, TaskName
from tests.delivery.reminding import MARA, NED, NIGHT, clients, practice, reminder


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
