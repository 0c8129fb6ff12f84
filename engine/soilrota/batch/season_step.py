"""The season in the night: the table and the page of every task of every client.

The table holds nothing that changes with every day. The page tells what needs somebody *today*, and a reader must see
of which day that is, so each night puts its own as-of date into it. The page is made anew only where what it says
changed; otherwise the night replaces the day in the file that stands there, which needs nothing that sets documents.
The page says itself how a day is written in its language, so that this needs nothing that knows languages either. The
ledger keeps the digest of what the page was made of, without its day, and as the last day on which it holds the one
that it bears.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import asdict
from datetime import date
from hashlib import sha256
from pathlib import Path

from soilrota.batch.ledger import Ledger, SharedRecord
from soilrota.batch.outputs import DOCUMENTS, WINDOWS_FEED, remove_departed
from soilrota.batch.redating import PAGE_FILE, redated
from soilrota.batch.report_step import remove_reports
from soilrota.batch.season import SEASON_FILE, season_table
from soilrota.batch.season_facts import SeasonFacts, SeasonRequest, season_facts
from soilrota.files import replace_file

_PAGE = "season page"


def write_season(request: SeasonRequest, ledger: Ledger) -> Iterator[str]:
    """Write the season table and remove what departed clients left; yield what could not be done, in words."""
    packs = ledger.packs()
    departed = {
        client: (*DOCUMENTS, WINDOWS_FEED, *(packs[client].files if client in packs else ()))
        for client in sorted(set(request.known) - set(request.in_book))
    }
    try:
        _replace_if_other(request.out / SEASON_FILE, season_table(request.rows()))
        remove_departed(request.out, departed)
        remove_reports(request.out, ledger, departed)
    except OSError as fault:
        yield f"{fault.filename or SEASON_FILE} could not be written: {fault.strerror}"


def keep_season_page(request: SeasonRequest, ledger: Ledger) -> Iterator[str]:
    """See that the page stands and bears the as-of date; yield what could not be done, in words.

    It comes after every other document, because it links to those that stand in the output folder.
    """
    facts = season_facts(request, ledger)
    inputs = _digest(request.facts.engine, facts)
    place, known = request.out / PAGE_FILE, ledger.shared(_PAGE)
    try:
        page = place.read_bytes() if place.is_file() else b""
        stands = known is not None and known.inputs == inputs and _is_of(page, known)
        content = redated(page, request.as_of) if stands else _made(facts, request.as_of)
        if content != page:
            replace_file(place, content)
    except OSError as fault:
        yield f"{fault.filename or PAGE_FILE} could not be written: {fault.strerror}"
        return
    if known is not None and stands and known.holds_until == request.as_of:
        return
    made_on = known.made_on if known is not None and stands else request.as_of
    files = {PAGE_FILE: sha256(content).hexdigest()}
    ledger.keep_shared(SharedRecord(_PAGE, inputs, made_on, request.as_of, files))


def _is_of(page: bytes, known: SharedRecord) -> bool:
    """Return whether a page is the one that is known, whichever day a later night put into it."""
    return known.files == {PAGE_FILE: sha256(redated(page, known.holds_until)).hexdigest()}


def _digest(engine: str, facts: SeasonFacts) -> str:
    """Return the digest of everything that the page is made of, its day apart."""
    parts = [
        engine,
        facts.practice,
        facts.language,
        facts.rows,
        facts.visits,
        facts.placed,
        facts.papers,
        facts.shared,
        [asdict(one) for one in facts.wanting],
    ]
    return sha256(json.dumps(parts, sort_keys=True).encode()).hexdigest()


def _made(facts: SeasonFacts, day: date) -> bytes:
    """Return the page, made anew."""
    from soilrota.batch.season_tasks import season_view  # noqa: PLC0415 - loads what makes documents
    from soilrota.documents import render_season_page  # noqa: PLC0415 - as above

    return render_season_page(season_view(facts), day)


def _replace_if_other(path: Path, content: bytes) -> None:
    """Replace a file where it does not hold this content already."""
    if not path.is_file() or path.read_bytes() != content:
        replace_file(path, content)
