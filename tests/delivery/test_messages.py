"""Messages read back: head, facts, files."""

from __future__ import annotations

from datetime import timedelta

from soilrota.delivery.attachments import FileKind, FoundFile, WantedFile
from soilrota.delivery.messages import NIGHTLY, messages_of, no_files
from soilrota.model.messages import MessageKey, Urgency
from soilrota.model.reminder_choices import ReminderKind
from soilrota.model.reminders import Said
from tests.delivery.reminding import JO, MARA, NED, NIGHT, clients, practice, reminder


def files(wanted: WantedFile) -> FoundFile | None:
    """Return a small file for whatever is wanted, but no programme."""
    if wanted.kind is FileKind.PROGRAMME:
        return None
    return FoundFile(f"{wanted.kind.name.lower()}.pdf", b"%PDF-1.7", "out")


def test_a_message_is_named_and_says_what_it_is_about() -> None:
    """Key, name, address, urgency and facts; the same arguments give the same message."""
    told = [reminder(urgency=Urgency.URGENT), reminder(ReminderKind.OVERDUE, name="overdue/x")]
    made = messages_of(told, (), NIGHT, practice(), clients())
    assert made == messages_of(told, (), NIGHT, practice(), clients())
    (message,) = made
    assert message.key == MessageKey(JO.person, NIGHTLY, NIGHT, "anvil-creek")
    assert (message.to_name, message.to_address, message.urgency) == (JO.name, JO.address, Urgency.URGENT)
    assert message.about == (told[0].about, told[1].about)
    assert message.attachments == ()


def test_nothing_to_say_is_no_message() -> None:
    """Without reminders, and with reminders that were said, nobody is written to."""
    one = reminder()
    said = [Said(JO.person, one.event.name, one.event.day, NIGHT - timedelta(days=1))]
    assert messages_of([], (), NIGHT, practice(), clients()) == ()
    assert messages_of([one], said, NIGHT, practice(), clients()) == ()


def test_files_go_along_and_are_named_in_the_text() -> None:
    """The signed report to the client, the pack and calendar to the crew, the draft to the adviser alone."""
    told = [
        reminder(ReminderKind.REPORT, JO, name="r"),
        reminder(ReminderKind.VISIT, NED, name="v"),
        reminder(ReminderKind.DRAFT, MARA, name="d"),
    ]
    made = {one.to_address: one for one in messages_of(told, (), NIGHT, practice(), clients(), files=files)}
    names = {address: [file.name for file in one.attachments] for address, one in made.items()}
    assert names == {
        JO.address: ["report.pdf"],
        NED.address: ["pack.pdf", "calendar.pdf"],
        MARA.address: ["draft.pdf"],
    }
    for one in made.values():
        assert all(f"Attached: {file.name}," in one.text for file in one.attachments)
    assert no_files(WantedFile(FileKind.REPORT)) is None
