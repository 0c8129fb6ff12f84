"""An adviser signs: refusals with their mends, and what is written."""

from __future__ import annotations

import json
import os
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from soilrota.batch.faults import AnotherRunError, CannotStartError
from soilrota.batch.lock import night_lock
from soilrota.batch.signing_off import SignRequest, list_signatures, propose_signature, write_signature
from tests.acceptance.signed_book import CLIENT, DAY, make_signable, results_file, signatures_file
from tests.acceptance.small_book import edit


@pytest.fixture
def signable(book: Path) -> Path:
    """Return a book of which one client can be signed for."""
    return make_signable(book)


def _never(_: str) -> date:
    """Fail: the clock is not asked where a date is given."""
    raise AssertionError("the clock was read")


def _request(book: Path, person: str = "", as_of: str | None = DAY, client: str = CLIENT) -> SignRequest:
    """Return a request."""
    return SignRequest(book, client, person, date.fromisoformat(as_of) if as_of else None, "2027-03-15T09:00:00")


def _sign(book: Path) -> str:
    """Sign, and return what is said."""
    request = _request(book)
    return write_signature(request, propose_signature(request, _never))


def test_a_proposal_shows_and_writes_nothing(signable: Path) -> None:
    """Counts, the last day of sampling and that it is a draft; no record, no lock."""
    proposal = propose_signature(_request(signable, "ann-lee"), _never)
    assert proposal.lines[0].startswith("Report for Alder Farm (alder-farm), digest ")
    assert proposal.lines[1:] == (
        "2 results of 1 zone from 1 report, last sampled on 4 February 2027",
        "A draft: nobody has signed it",
    )
    assert not signatures_file(signable).exists()
    assert not (signable / "records" / "night.lock").exists()


def test_today_is_asked_in_the_time_zone_of_the_practice(signable: Path) -> None:
    """The clock belongs to the edge."""
    asked: list[str] = []

    def today(zone: str) -> date:
        asked.append(zone)
        return date(2027, 4, 1)

    assert propose_signature(_request(signable, as_of=None), today).signature.day == date(2027, 4, 1)
    assert asked == ["Australia/Melbourne"]


def test_what_is_written(signable: Path) -> None:
    """Name, qualification, day and digests as they stand; said to be no proof of identity."""
    words = _sign(signable)
    assert words.startswith("Now signed by Ann Lee (Agronomist) on 15 March 2027, digest ")
    assert words.endswith("It is no proof of identity.")
    (line,) = signatures_file(signable).read_text(encoding="utf-8").splitlines()
    record = json.loads(line)
    assert (record["client"], record["person"], record["day"]) == (CLIENT, "ann-lee", DAY)
    assert propose_signature(_request(signable), _never).state.is_signed


def test_leftovers_of_a_killed_signing_are_swept(signable: Path) -> None:
    """A command that was killed while it wrote has not signed, and leaves nothing for ever."""
    leftover = signatures_file(signable).with_name(f".~{CLIENT}.jsonl.7.tmp")
    leftover.parent.mkdir(parents=True)
    leftover.write_text("{", encoding="utf-8")
    assert not list_signatures(signable, CLIENT).is_signed
    _sign(signable)
    assert not leftover.exists()
    assert list_signatures(signable, CLIENT).is_signed


def _no_qualification(book: Path) -> None:
    edit(book / "practice.yaml", ", qualification: Agronomist", "")


def _blank_qualification(book: Path) -> None:
    edit(book / "practice.yaml", "qualification: Agronomist", 'qualification: " "')


def _no_results(book: Path) -> None:
    results_file(book).unlink()


def _error(book: Path) -> None:
    edit(book / "clients" / CLIENT / "client.yaml", "area_ha: 9", "area_ha: nine")


def _shared_error(book: Path) -> None:
    edit(book / "practice.yaml", "time_zone: Australia/Melbourne", "time_zone: Nowhere")


def _damage(book: Path) -> None:
    signatures_file(book).parent.mkdir(parents=True)
    signatures_file(book).write_text("{", encoding="utf-8")


def _nothing(_: Path) -> None:
    pass


@pytest.mark.parametrize(
    ("make", "request_", "words", "code"),
    [
        (_nothing, {"person": "ned-marlow"}, "cannot be signed", "not-the-adviser"),
        (_no_qualification, {}, "cannot be signed", "no-qualification"),
        (_no_results, {}, "has no results yet", ""),
        (_nothing, {"as_of": "2027-02-19"}, "results were reported on 2027-02-20", ""),
        (_error, {}, "have errors", "not-a-number"),
        (_shared_error, {}, "all clients share have errors", "bad-time-zone"),
        (_damage, {}, "nothing was touched", "damaged-signature"),
        (_nothing, {"client": "alder-frm"}, "did you mean alder-farm", ""),
    ],
)
def test_refusals(
    signable: Path, make: Callable[[Path], None], request_: dict[str, str], words: str, code: str
) -> None:
    """Each says what is wrong and, where it is in a file, where and how to mend it; nothing is written."""
    make(signable)
    before = signatures_file(signable).read_bytes() if signatures_file(signable).exists() else None
    with pytest.raises(CannotStartError, match=words) as refused:
        propose_signature(_request(signable, **request_), _never)
    assert [problem.code for problem in refused.value.problems] == ([code] if code else [])
    assert all(problem.mend and problem.place.file for problem in refused.value.problems)
    after = signatures_file(signable).read_bytes() if signatures_file(signable).exists() else None
    assert after == before


def test_what_changed_while_somebody_looked_is_not_signed(signable: Path) -> None:
    """The digest that was shown is signed, or none."""
    request = _request(signable)
    proposal = propose_signature(request, _never)
    edit(signable / "clients" / CLIENT / "applications.csv", "120", "150")
    with pytest.raises(CannotStartError, match="the application of mineral fertiliser to home on 1 October 2026 chan"):
        write_signature(request, proposal)
    assert not signatures_file(signable).exists()


def test_a_record_that_was_damaged_meanwhile_is_left_alone(signable: Path) -> None:
    """Under the lock it is read again."""
    request = _request(signable)
    proposal = propose_signature(request, _never)
    _damage(signable)
    with pytest.raises(CannotStartError, match="nothing was touched"):
        write_signature(request, proposal)
    assert signatures_file(signable).read_text(encoding="utf-8") == "{"


def test_a_night_at_work_comes_first(signable: Path) -> None:
    """Signing waits for nobody: it is refused while the lock is held."""
    request = _request(signable)
    proposal = propose_signature(request, _never)
    with night_lock(signable / "records" / "night.lock", "now"), pytest.raises(AnotherRunError):
        write_signature(request, proposal)
    assert not signatures_file(signable).exists()


def test_a_signature_that_cannot_be_written_is_said(signable: Path) -> None:
    """A file stands where the folder belongs."""
    (signable / "records" / "signatures").write_text("", encoding="utf-8")
    with pytest.raises(CannotStartError, match="nothing was signed"):
        _sign(signable)


def test_the_list(signable: Path) -> None:
    """The latest first, and whether it stands."""
    assert list_signatures(signable, CLIENT).lines == ("A draft: nobody has signed it",)
    _sign(signable)
    edit(signable / "clients" / CLIENT / "client.yaml", "area_ha: 9", "area_ha: 10")
    listing = list_signatures(signable, CLIENT)
    assert not listing.is_signed
    assert listing.lines[0].startswith("Signed by Ann Lee (Agronomist) on 15 March 2027")
    assert listing.lines[2:] == (
        "  the zone home/flat changed",
        "A signature is a record of who signed what on which day. It is no proof of identity.",
    )
    _sign(signable)
    listing = list_signatures(signable, CLIENT)
    assert listing.is_signed
    assert sum(line.startswith("Signed by") for line in listing.lines) == 2
    signatures_file(signable).write_text("{", encoding="utf-8")
    with pytest.raises(CannotStartError, match="cannot be read"):
        list_signatures(signable, CLIENT)
    assert os.listdir(signatures_file(signable).parent) == [f"{CLIENT}.jsonl"]  # noqa: PTH208 - names alone
