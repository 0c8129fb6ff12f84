"""Which files go along with a message, and what is said of those that are too large."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from enum import StrEnum

from soilrota.delivery.gathering import Packet
from soilrota.delivery.ical import MEDIA_TYPE
from soilrota.language import marked, say, speaking
from soilrota.language.figures import digits
from soilrota.model.messages import Attachment
from soilrota.model.reminder_choices import Audience, ReminderKind
from soilrota.model.reminders import Recipient, Reminder

_PDF = "application/pdf"
_MEGABYTE = 1_000_000


class FileKind(StrEnum):
    """Kinds of files that go along."""

    REPORT = "report"
    DRAFT = "draft"
    PACK = "pack"
    PROGRAMME = "programme"
    CALENDAR = "calendar"


@dataclass(frozen=True, slots=True)
class WantedFile:
    """A file that a message wants.

    Attributes:
        kind: what it is.
        client: id of the client; empty for a crew member's calendar.
        client_name: what people call the client.
        visit: id of the visit of a field pack; empty for the other kinds.
        person: id of the crew member of a calendar; empty for a client's.
    """

    kind: FileKind
    client: str = ""
    client_name: str = ""
    visit: str = ""
    person: str = ""


@dataclass(frozen=True, slots=True)
class FoundFile:
    """A file that there is: its bytes, its name, and where it lies, as people of the practice find it."""

    name: str
    content: bytes
    lies: str


#: Returns a file, or None where there is none.
FileSource = Callable[[WantedFile], FoundFile | None]

#: What goes along with a kind of reminder; what a reader is sent is also limited by who reads.
_WITH: dict[ReminderKind, tuple[FileKind, ...]] = {
    ReminderKind.REPORT: (FileKind.REPORT,),
    ReminderKind.DRAFT: (FileKind.DRAFT,),
    ReminderKind.VISIT: (FileKind.PACK, FileKind.CALENDAR),
    ReminderKind.OPENS_SOON: (FileKind.CALENDAR, FileKind.PROGRAMME),
    ReminderKind.BEST_DAY: (FileKind.CALENDAR,),
    ReminderKind.SPREADING: (FileKind.PROGRAMME,),
    ReminderKind.OVERDUE: (FileKind.PROGRAMME,),
}
#: A field pack is for the crew; the calendar of a client is for its people; a draft is for the adviser alone.
_FOR: dict[FileKind, frozenset[Audience]] = {
    FileKind.REPORT: frozenset({Audience.CONTACT, Audience.ADVISER}),
    FileKind.DRAFT: frozenset({Audience.ADVISER}),
    FileKind.PACK: frozenset({Audience.SAMPLER}),
    FileKind.PROGRAMME: frozenset({Audience.CONTACT}),
    FileKind.CALENDAR: frozenset({Audience.CONTACT, Audience.SAMPLER}),
}
_ORDER = list(FileKind)
#: What a file is, inside a sentence.
_WHAT = {
    FileKind.REPORT: marked("the farm report of {client}"),
    FileKind.DRAFT: marked("the draft of the farm report of {client}"),
    FileKind.PACK: marked("the field pack of {client}"),
    FileKind.PROGRAMME: marked("the sampling programme of {client}"),
    FileKind.CALENDAR: marked("the calendar of {client}"),
}


def wanted_files(packet: Packet) -> tuple[WantedFile, ...]:
    """Return the files that a packet wants, the most needed first, each once."""
    found = dict.fromkeys(one for reminder in packet.reminders for one in _wanted(reminder))
    return tuple(sorted(found, key=lambda one: _ORDER.index(one.kind)))


def _wanted(reminder: Reminder) -> Iterator[WantedFile]:
    """Yield the files that one reminder wants."""
    event, to = reminder.event, reminder.to
    for kind in _WITH.get(event.kind, ()):
        if to.audience not in _FOR[kind] or (kind is FileKind.PACK and "visit" not in event.facts):
            continue
        if kind is FileKind.CALENDAR and to.audience is Audience.SAMPLER:
            yield WantedFile(kind, person=to.id)
        else:
            visit = str(event.facts["visit"]) if kind is FileKind.PACK else ""
            yield WantedFile(kind, event.client, event.client_name, visit)


def attach(
    wanted: Iterable[WantedFile], source: FileSource, limit_mb: float, to: Recipient
) -> tuple[tuple[Attachment, ...], tuple[str, ...]]:
    """Return the files that fit, and sentences about those that go along and those that do not, for who reads.

    Args:
        wanted: the files, the most needed first.
        source: where they come from; what is not there is not spoken of.
        limit_mb: all files together at most [MB].
        to: who reads.
    """
    room = int(limit_mb * _MEGABYTE)
    attached: list[Attachment] = []
    notes: list[str] = []
    with speaking(to.language):
        for one in wanted:
            file = source(one)
            if file is None:
                continue
            if len(file.content) > room:
                notes.append(_too_large(one, file, to))
                continue
            room -= len(file.content)
            media = MEDIA_TYPE if one.kind is FileKind.CALENDAR else _PDF
            name = _free_name(file.name, {known.name for known in attached}, one.client)
            attached.append(Attachment(name, media, file.content))
            notes.append(_attached(one, name))
    return tuple(attached), tuple(notes)


def _attached(one: WantedFile, name: str) -> str:
    """Return that a file goes along, and what to do with it where that is not plain."""
    if one.kind is FileKind.CALENDAR:
        return say("Attached: {file}, {what}; open it to bring your calendar up to date.", file=name, what=_what(one))
    return say("Attached: {file}, {what}.", file=name, what=_what(one))


def _what(one: WantedFile) -> str:
    """Return what a file is, inside a sentence."""
    return say(_WHAT[one.kind], client=one.client_name) if one.client_name else say("the calendar of your visits")


def _too_large(one: WantedFile, file: FoundFile, to: Recipient) -> str:
    """Return where a file lies that is too large to send; who is not of the practice cannot get there."""
    what, size = _what(one), digits(f"{len(file.content) / _MEGABYTE:.1f}")
    if to.id:
        told = say(
            "{what} ({size} MB) is too large to send. It lies in {place}.", what=what, size=size, place=file.lies
        )
    else:
        told = say(
            "{what} ({size} MB) is too large to send. Answer this message and we bring it to you.",
            what=what,
            size=size,
        )
    return f"{told[:1].upper()}{told[1:]}"


def _free_name(name: str, used: set[str], client: str) -> str:
    """Return a file's name, with the client's id before it where another file has it."""
    return f"{client}-{name}" if name in used and client else name
