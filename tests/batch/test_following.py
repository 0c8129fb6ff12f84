"""Signed advice is followed up from the book's records."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from soilrota.batch.advice_records import FOLDER, read_advice
from soilrota.batch.following import follow_up_client
from soilrota.batch.reading import read_sound_client
from soilrota.batch.signing_off import SignRequest, propose_signature, write_signature
from soilrota.model.advice import Input
from soilrota.model.follow_up import Done
from tests.acceptance.signed_book import CLIENT, DAY, make_signable, signatures_file
from tests.acceptance.small_book import edit

LATER = date(2028, 6, 1)


@pytest.fixture
def signed(book: Path) -> Path:
    """Return a book of which one client's report is signed."""
    make_signable(book)
    edit(book / "clients" / CLIENT / "client.yaml", "country: AU", "country: AU\nsubdivision: VIC")
    edit(
        book / "clients" / CLIENT / "client.yaml",
        "soil_type: grey clay",
        "soil_type: grey clay\n        texture: clay-loam",
    )
    request = SignRequest(book, CLIENT, "", date.fromisoformat(DAY), "2027-03-15T09:00:00")
    write_signature(request, propose_signature(request, lambda _: LATER))
    return book


def test_signing_remembers_what_is_advised(signed: Path) -> None:
    """Under the digest and the day of the signature; the same again writes nothing."""
    (record,), problems = read_advice(signed, CLIENT)
    assert problems == ()
    assert record.day == date.fromisoformat(DAY)
    assert record.digest in signatures_file(signed).read_text(encoding="utf-8")
    request = SignRequest(signed, CLIENT, "", LATER, "2028-06-01T09:00:00")
    write_signature(request, propose_signature(request, lambda _: LATER))
    assert len(list((signed / FOLDER / CLIENT).iterdir())) == 1


def test_what_came_of_it_is_told(signed: Path) -> None:
    """Every need that was advised; nothing was spread, and the applications log says so."""
    client = read_sound_client(signed, CLIENT)
    found, problems = follow_up_client(signed, client, LATER)
    (record,), _ = read_advice(signed, CLIENT)
    assert problems == ()
    assert len(found) == len(record.needs) > 0
    lime = next(one for one in found if one.need.input is Input.LIME)
    assert lime.need.amount > 0
    assert lime.done is Done.NOTHING
    assert follow_up_client(signed, client, date(2027, 3, 1))[0] == ()


def test_advice_without_its_signature_is_none(signed: Path) -> None:
    """A signing that was cut off has advised nothing; a client that nobody signed for neither."""
    client = read_sound_client(signed, CLIENT)
    signatures_file(signed).unlink()
    assert follow_up_client(signed, client, LATER) == ((), ())
    for path in (signed / FOLDER / CLIENT).iterdir():
        path.unlink()
    assert follow_up_client(signed, client, LATER) == ((), ())


def test_damage_comes_with_what_can_be_told(signed: Path) -> None:
    """Of the advice, and of the signatures."""
    client = read_sound_client(signed, CLIENT)
    signatures_file(signed).write_text("x\n", encoding="utf-8")
    found, problems = follow_up_client(signed, client, LATER)
    assert found == ()
    assert [one.code for one in problems] == ["damaged-signature"]
    (file,) = (signed / FOLDER / CLIENT).iterdir()
    file.write_text("x\n", encoding="utf-8")
    assert [one.code for one in follow_up_client(signed, client, LATER)[1]] == ["damaged-advice"]
