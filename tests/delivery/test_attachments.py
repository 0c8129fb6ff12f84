"""Which files go along, within the limit."""

from __future__ import annotations

from dataclasses import replace

import pytest

from soilrota.delivery.attachments import FileKind, FoundFile, WantedFile, attach, wanted_files
from soilrota.delivery.gathering import gather
from soilrota.model.reminder_choices import ReminderKind
from soilrota.model.reminders import Recipient
from tests.delivery.other_words import not_said
from tests.delivery.reminding import JO, MARA, NED, NIGHT, reminder


def kinds(to: Recipient, *what: ReminderKind) -> list[FileKind]:
    """Return the kinds of files that a packet wants."""
    (packet,) = gather([reminder(kind, to, name=kind.value) for kind in what], NIGHT)
    return [one.kind for one in wanted_files(packet)]


@pytest.mark.parametrize("kind", list(ReminderKind))
def test_a_draft_goes_along_to_the_adviser_alone(kind: ReminderKind) -> None:
    """Whatever a contact or a crew member is told, no draft goes along."""
    assert FileKind.DRAFT not in kinds(JO, kind) + kinds(NED, kind)
    assert (FileKind.DRAFT in kinds(MARA, kind)) is (kind is ReminderKind.DRAFT)


def test_each_file_once_the_most_needed_first() -> None:
    """Several reminders want the calendar; it goes along once, after what matters more."""
    assert kinds(JO, ReminderKind.REPORT, ReminderKind.OPENS_SOON, ReminderKind.OVERDUE, ReminderKind.VISIT) == [
        FileKind.REPORT,
        FileKind.PROGRAMME,
        FileKind.CALENDAR,
    ]
    gone = reminder(ReminderKind.VISIT, NED, facts={"gone": NIGHT})
    (packet,) = gather([gone], NIGHT)
    assert [(one.kind, one.person) for one in wanted_files(packet)] == [(FileKind.CALENDAR, "ned-marlow")]


def test_what_does_not_fit_is_named_with_where_it_lies() -> None:
    """The limit holds for all files together; who is of the practice is told where it lies, a client to ask."""
    big, small = (
        FoundFile("report.pdf", b"x" * 900_000, "clients/a/farm_report.pdf"),
        FoundFile("c.ics", b"y" * 90_000, "out"),
    )
    wanted = (WantedFile(FileKind.REPORT, "a", "Anvil"), WantedFile(FileKind.CALENDAR, "a", "Anvil"))

    def source(one: WantedFile) -> FoundFile:
        return big if one.kind is FileKind.REPORT else small

    both, notes = attach(wanted, source, 1.0, JO)
    assert [one.name for one in both] == ["report.pdf", "c.ics"]
    assert both[1].media_type.startswith("text/calendar")
    assert notes[0] == "Attached: report.pdf, the farm report of Anvil."
    few, notes = attach(wanted, source, 0.5, MARA)
    assert [one.name for one in few] == ["c.ics"]
    assert notes[0] == "The farm report of Anvil (0.9 MB) is too large to send. It lies in clients/a/farm_report.pdf."
    _, notes = attach(wanted, source, 0.5, JO)
    assert notes[0].endswith("Answer this message and we bring it to you.")
    _, notes = attach((WantedFile(FileKind.CALENDAR, person="ned-marlow"),), source, 0.5, NED)
    assert notes == ("Attached: c.ics, the calendar of your visits; open it to bring your calendar up to date.",)
    _, notes = attach((wanted[0],), lambda _: None, 0.5, JO)
    assert notes == ()


def test_two_files_of_one_name_are_told_apart() -> None:
    """Calendars of two clients have the same name; the second has its client before it."""
    wanted = [WantedFile(FileKind.CALENDAR, name, name) for name in ("a", "b")]
    attached, _ = attach(wanted, lambda _: FoundFile("windows.ics", b"", "out"), 1, MARA)
    assert [one.name for one in attached] == ["windows.ics", "b-windows.ics"]


@pytest.mark.usefixtures("other_words")
@pytest.mark.parametrize("to", [JO, MARA])
@pytest.mark.parametrize("kind", list(FileKind))
def test_files_are_spoken_of_in_the_readers_language(kind: FileKind, to: Recipient) -> None:
    """Names of files and clients stay; a size has the comma of the language."""
    reader, wanted = replace(to, language="es"), (WantedFile(kind, "a", "Anvil"),)
    file = FoundFile("a.pdf", b"x" * 900_000, "out")
    (attached,), fits = attach(wanted, lambda _: file, 1, reader)
    none, too_large = attach(wanted, lambda _: file, 0.5, reader)
    assert attached.name == "a.pdf"
    assert none == ()
    assert "0,9 " in too_large[0]
    assert not_said(fits[0] + too_large[0], "Anvil a.pdf out") == []
