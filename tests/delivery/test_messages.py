"""Messages read back: head, facts, files."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from email import message_from_bytes
from email.message import EmailMessage
from email.policy import default

import pytest

from soilrota.delivery.attachments import FileKind, FoundFile, WantedFile
from soilrota.delivery.gathering import said_by
from soilrota.delivery.messages import NIGHTLY, messages_of, no_files
from soilrota.delivery.mime import Sender, compose
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


def test_another_language_says_nothing_again() -> None:
    """What a person was told in one language is known to be told in every other."""
    told = [reminder(kind, name=kind.value) for kind in ReminderKind]
    (message,) = messages_of(told, (), NIGHT, practice(), clients())
    said, after = tuple(said_by([message])), NIGHT + timedelta(days=1)
    spanish = [replace(one, to=replace(one.to, language="es")) for one in told]
    assert messages_of(spanish, said, after, practice(), clients()) == ()
    (again,) = messages_of(spanish, (), NIGHT, practice(), clients())
    assert (again.key, again.about) == (message.key, message.about)
    assert again.text != message.text


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


@pytest.mark.parametrize(
    "name", ["Home block", "A\r\nBcc: x@y.example", "A =?UTF-8?Q?=0A?=Bcc: x", "\u05d0\u05d1 \u202edrow", "L" * 300]
)
def test_what_arrives_is_what_was_meant(name: str) -> None:
    """Read back by an e-mail parser: one recipient, both texts, the files; whatever the farm is called."""
    told = [reminder(farm_name=name), reminder(ReminderKind.REPORT, name="r", farm_name=name)]
    (message,) = messages_of(told, (), NIGHT, practice(), clients(), files=files)
    entry = compose(message, Sender("Practice", "office@merrow-tarn.example"), datetime(2027, 2, 1, 3, tzinfo=UTC))
    assert entry.unfit == ""
    mail = message_from_bytes(entry.eml, _class=EmailMessage, policy=default)
    assert isinstance(mail, EmailMessage)
    assert mail["Bcc"] is None
    assert [one.addr_spec for one in mail["To"].addresses] == [JO.address]
    plain, html = mail.get_body(("plain",)), mail.get_body(("html",))
    assert plain is not None
    assert html is not None
    assert plain.get_content().splitlines() == message.text.splitlines()
    assert html.get_content().splitlines() == message.html.splitlines()
    assert [(one.get_filename(), one.get_content()) for one in mail.iter_attachments()] == [("report.pdf", b"%PDF-1.7")]


def test_an_address_in_capitals_is_the_same_person() -> None:
    """Two clients that write one person's address differently: one message."""
    other = replace(JO, address=JO.address.upper())
    made = messages_of([reminder(), reminder(to=other, name="b", client="x")], (), NIGHT, practice(), clients())
    assert len(made) == 1
