"""An adviser signs a client's report: what would be signed is looked at first, then written under the night's lock."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from soilrota.agronomy.remembering import remembered
from soilrota.batch.advice_records import FOLDER as ADVICE_FOLDER
from soilrota.batch.advice_records import write_advice
from soilrota.batch.advising import advice_on
from soilrota.batch.faults import CannotStartError, DamagedRecordsError
from soilrota.batch.opening import open_book
from soilrota.batch.reading import read_sound_client
from soilrota.batch.signatures import FOLDER, add_signature, read_signatures, standing_signature
from soilrota.batch.signing import digest_of, parts_of, signed_values
from soilrota.documents.signature_sentences import (
    RECORD_ONLY,
    change_sentences,
    contents_sentences,
    signature_words,
    state_sentences,
)
from soilrota.files import sweep_leftovers
from soilrota.model.advice import Signature
from soilrota.model.client import Client
from soilrota.model.practice import Person
from soilrota.model.signing import SignState
from soilrota.problems import Place, Problem, error


@dataclass(frozen=True, slots=True)
class SignRequest:
    """What is asked.

    Attributes:
        root: the book's folder.
        client: id of the client.
        person: id of the person who signs; empty for the client's adviser.
        as_of: the day of signing; None for today in the practice's time zone.
        started: when the command started, ISO 8601, for the lock.
    """

    root: Path
    client: str
    person: str
    as_of: date | None
    started: str


@dataclass(frozen=True, slots=True)
class Proposal:
    """What would be signed.

    Attributes:
        client: the client.
        signature: as it would be written.
        state: what stands now.
        lines: what is being signed and what stands now, in words.
    """

    client: Client
    signature: Signature
    state: SignState
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Listing:
    """The signatures of a client's report in words, the latest first, and whether the last one stands."""

    lines: tuple[str, ...]
    is_signed: bool


def propose_signature(request: SignRequest, today: Callable[[str], date]) -> Proposal:
    """Return what would be signed; nothing is written and no lock is held, so that a person may take their time.

    Args:
        request: what is asked.
        today: returns today's date in a time zone (IANA name); asked only where no as-of date is given.

    Raises:
        CannotStartError: it cannot be signed; the text and the problems say why, and how to mend it.
    """
    client = read_sound_client(request.root, request.client)
    day = request.as_of or today(client.practice.time_zone)
    problems = tuple(_in_the_way(client, request.person or client.adviser))
    if problems:
        raise CannotStartError(f"the report for {client.id} cannot be signed", problems)
    _check_results(client, day)
    parts = parts_of(signed_values(client))
    state = standing_signature(request.root, client, parts)
    if state.problems:
        raise CannotStartError(f"the signatures for {client.id} cannot be read; nothing was touched", state.problems)
    person = client.practice.people[client.adviser]
    signature = Signature(client.id, person.id, person.name, person.qualification, day, digest_of(parts), parts)
    lines = (*contents_sentences(client, signature.digest), *state_sentences(state, client.language))
    return Proposal(client, signature, state, lines)


def write_signature(request: SignRequest, proposal: Proposal) -> str:
    """Sign what was proposed, and return in words that it is signed; the same digest is never signed twice.

    The book is read again under the lock: what a person saw is what they sign, or nothing is signed. What is advised
    on that day is remembered with it.

    Raises:
        CannotStartError: the book changed since, its records are damaged, or the record cannot be written.
        AnotherRunError: another process is at work on the book.
    """
    shown = proposal.signature
    advice = advice_on(request.root, proposal.client, shown.day)
    record = remembered(proposal.client, shown.day, shown.digest, advice.needs, advice.mixes)
    with open_book(request.root, request.started):
        for folder in (request.root / FOLDER, request.root / ADVICE_FOLDER / shown.client):
            if folder.is_dir():
                sweep_leftovers(folder)
        now = parts_of(signed_values(read_sound_client(request.root, request.client)))
        changed = change_sentences(shown.parts, now, proposal.client.language)
        if changed:
            raise CannotStartError(f"nothing was signed, for meanwhile {', '.join(changed)}; look at it again")
        try:
            # The advice comes first: a signature whose advice nobody remembers could never be followed up.
            if not _stands(request.root, shown):
                write_advice(request.root, record)
            add_signature(request.root, shown)
        except DamagedRecordsError as fault:
            raise CannotStartError("the signatures cannot be read; nothing was touched", fault.problems) from fault
        except OSError as fault:
            raise CannotStartError(f"the signature cannot be written: {fault.strerror}; nothing was signed") from fault
    return f"Now {signature_words(shown, proposal.client.language)}. {RECORD_ONLY}."


def _stands(root: Path, shown: Signature) -> bool:
    """Return whether the last signature of a client is of the same digest already."""
    signatures, _ = read_signatures(root, shown.client)
    return bool(signatures) and signatures is not None and signatures[-1].digest == shown.digest


def list_signatures(root: Path, client_id: str) -> Listing:
    """Return the signatures of a client's report, and whether the last one stands; nothing is written.

    Raises:
        CannotStartError: the client is not there or has errors, or the record of its signatures is damaged.
    """
    client = read_sound_client(root, client_id)
    signatures, problems = read_signatures(root, client_id)
    if signatures is None:
        raise CannotStartError(f"the signatures for {client_id} cannot be read", problems)
    state = standing_signature(root, client, parts_of(signed_values(client)))
    words = (signature_words(one, client.language) for one in reversed(signatures))
    lines = (*(f"{one[0].upper()}{one[1:]}" for one in words), *state_sentences(state, client.language))
    return Listing((*lines, *([f"{RECORD_ONLY}."] if signatures else [])), state.is_signed)


def _in_the_way(client: Client, person: str) -> Iterator[Problem]:
    """Yield why a person cannot sign for a client."""
    if person != client.adviser:
        mend = f"have {client.adviser} sign, or write 'adviser: {person}' into {client.place.file} where that is right"
        place = Place(client.place.file, path="adviser")
        yield error("not-the-adviser", place, f"{person} is not the adviser of {client.id}", client.adviser, mend)
        return
    adviser: Person = client.practice.people[person]
    if not adviser.qualification.strip():
        mend = f"write the qualification of {person} into {adviser.place.file}"
        found = f"{adviser.name} has no qualification written down, and it is printed with a signature"
        yield error("no-qualification", adviser.place, found, "a qualification", mend)


def _check_results(client: Client, day: date) -> None:
    """See that there is something to sign on a day.

    Raises:
        CannotStartError: there are no results, or they came after that day.
    """
    if not client.results:
        raise CannotStartError(
            f"there is nothing to sign: {client.id} has no results yet; put the laboratory's file into the inbox"
        )
    last = max(result.reported for result in client.results)
    if day < last:
        raise CannotStartError(f"results were reported on {last}, after the day of signing {day}; name a later day")
