"""What a night needs to know of the whole book before it looks at any client; from the ledger while nothing changed."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path

from soilrota.batch.faults import CannotStartError
from soilrota.batch.fingerprints import listing_digest, shared_digest
from soilrota.problems import Problem, Severity


@dataclass(frozen=True, slots=True)
class BookFacts:
    """What a night needs to know of a book.

    Attributes:
        shared: digest of the files that all clients share.
        listing: digest of which clients there are.
        engine: digest of the engine that read them.
        time_zone: IANA name, the practice's.
        logo: the practice's logo, relative to the book's folder; may be empty.
        deadline_s: time that one client may take [s].
        memory_mb: memory that one client may take [MB].
        clients: ids of the clients that can be read, sorted.
        unreadable: names of the folders of clients that have an error themselves, sorted.
        problems: of the shared files and of the clients' folder.
        pack_days: field packs are made for visits up to so many days ahead [d].
        report_days: a first farm report waits so long for bags that have not come back [d].
        language: language tag of the practice's own documents.
        quiet_s: how long a file of the inbox must have been quiet [s].
        practice: the practice's name.
        sends: whether the practice names a mail server.
    """

    shared: str
    listing: str
    engine: str
    time_zone: str
    logo: str
    deadline_s: float
    memory_mb: int
    clients: tuple[str, ...]
    unreadable: tuple[str, ...]
    problems: tuple[Problem, ...]
    pack_days: int = 60
    quiet_s: float = 10.0
    practice: str = ""
    sends: bool = False
    report_days: int = 30
    language: str = "en-GB"

    def hold(self, root: Path, engine: str) -> bool:
        """Return whether the book still stands as it did when these facts were read by the same engine."""
        return (self.engine, self.shared, self.listing) == (
            engine,
            shared_digest(root, self.logo),
            listing_digest(root),
        )


def read_book_facts(root: Path, engine: str) -> BookFacts:
    """Read what all clients share, and which clients there are.

    Args:
        root: the book's folder.
        engine: digest of the engine.

    Raises:
        CannotStartError: there is no practice, its files have errors, or there is no client.
    """
    from soilrota.batch.reading import read_clients, read_shared  # noqa: PLC0415 - loads what reads YAML

    listing, before = listing_digest(root), shared_digest(root, "")
    shared, problems = read_shared(root)
    if shared is None:
        raise CannotStartError("the files that all clients share have errors; nothing was begun", problems)
    clients, found = read_clients(root)
    problems += found
    if not clients:
        raise CannotStartError(f"there is no client to work on in {root / 'clients'}", problems)
    practice = shared.practice
    facts = BookFacts(
        shared=before,
        listing=listing,
        engine=engine,
        time_zone=practice.time_zone,
        logo=practice.logo,
        deadline_s=practice.night.deadline_s,
        memory_mb=practice.night.memory_mb,
        clients=clients,
        unreadable=_unreadable(found),
        problems=problems,
        pack_days=practice.field_packs.days_before,
        quiet_s=practice.inbox.quiet_s,
        practice=practice.name,
        sends=bool(practice.mail.host),
        report_days=practice.report.wait_days,
        language=practice.language,
    )
    return replace(facts, shared=shared_digest(root, practice.logo)) if practice.logo else facts


def _unreadable(problems: tuple[Problem, ...]) -> tuple[str, ...]:
    """Return the names of the folders of clients that have an error."""
    wrong = (problem.place.file.split("/") for problem in problems if problem.severity is Severity.ERROR)
    return tuple(sorted({parts[1] for parts in wrong if len(parts) > 1 and parts[0] == "clients"}))
