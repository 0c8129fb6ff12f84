"""Digests change with everything that a document depends on, and with nothing else."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from soilrota.batch.fingerprints import (
    client_digest,
    engine_digest,
    listing_digest,
    made_by,
    same_file,
    shared_digest,
)
from soilrota.book import input_files
from soilrota.model.documents import DocumentKind
from tests.acceptance.small_book import edit


def _client(book: Path) -> str:
    """Return the digest of the first client."""
    return client_digest(book, "alder-farm", shared_digest(book, "logo.png"))


def _complete(book: Path) -> None:
    """Give the first client every file that it may have."""
    (book / "logo.png").write_bytes(b"a logo")
    (book / "products.yaml").write_text("text", encoding="utf-8")
    for name in ("laboratories/bench.yaml", "guidelines/own.yaml", "records/results/alder-farm/r1.csv"):
        (book / name).parent.mkdir(parents=True)
        (book / name).write_text("text", encoding="utf-8")
    for name in ("map.geojson", "field_notes.csv", "cropping.csv"):
        (book / "clients" / "alder-farm" / name).write_text("text", encoding="utf-8")


def test_every_input_file_of_the_book_counts(book: Path) -> None:
    """Whatever file `soilrota.book` names as an input: changing it, or taking it away, changes the digest."""
    _complete(book)
    files = input_files(book, "alder-farm", "logo.png")
    assert len(files) == 12
    for path in files:
        before, content = _client(book), path.read_bytes()
        path.write_bytes(content + b" ")
        assert _client(book) != before, path
        path.unlink()
        assert _client(book) != before, path
        path.write_bytes(content)
        assert _client(book) == before, path


def test_other_clients_and_dates_of_files_do_not_count(book: Path) -> None:
    """Touching, other clients, hidden files and notes that nobody reads change nothing."""
    before = _client(book)
    os.utime(book / "clients" / "alder-farm" / "client.yaml", (1, 1))
    edit(book / "clients" / "birch-farm" / "client.yaml", "Lou", "Kim")
    (book / "clients" / "alder-farm" / ".hidden.yaml").write_text("x", encoding="utf-8")
    (book / "clients" / "alder-farm" / "notes.txt").write_text("x", encoding="utf-8")
    assert _client(book) == before


def test_a_new_file_beside_the_others_counts(book: Path) -> None:
    """A stray file is a warning, so it must be looked at."""
    before = _client(book)
    (book / "clients" / "alder-farm" / "aplications.csv").write_text("x", encoding="utf-8")
    assert _client(book) != before


def test_a_link_is_told_from_a_file_and_followed_in_the_book_alone(book: Path, tmp_path: Path) -> None:
    """The same content behind a link is another digest; a link out of the book is never opened."""
    path = book / "clients" / "alder-farm" / "applications.csv"
    before = _client(book)
    inside = book / "shared.csv"
    path.rename(inside)
    path.symlink_to(inside)
    linked = _client(book)
    assert linked != before
    edit(inside, "120", "130")
    assert _client(book) != linked
    path.unlink()
    outside = tmp_path / "endless"
    os.mkfifo(outside)
    path.symlink_to(outside)
    assert _client(book) not in (before, linked)


def test_a_pipe_in_place_of_a_file_does_not_block(book: Path) -> None:
    """What is not a regular file is never opened."""
    os.mkfifo(book / "clients" / "alder-farm" / "map.geojson")
    assert len(_client(book)) == 64


@pytest.mark.parametrize("name", ["new-farm", "stray.txt"])
def test_the_listing_knows_which_clients_there_are(book: Path, name: str) -> None:
    """A new folder, a client file that comes, a stray file: each changes the listing; content does not."""
    before = listing_digest(book)
    edit(book / "clients" / "alder-farm" / "client.yaml", "Lou", "Kim")
    assert listing_digest(book) == before
    entry = book / "clients" / name
    entry.mkdir() if "." not in name else entry.touch()
    empty = listing_digest(book)
    assert empty != before
    if entry.is_dir():
        (entry / "client.yaml").touch()
        assert listing_digest(book) != empty


def test_the_engine_s_digest_is_the_same_in_one_engine() -> None:
    """Twice the same engine, twice the same digest."""
    assert engine_digest() == engine_digest()


def test_same_file(tmp_path: Path) -> None:
    """A file is the same by content; a missing one is not."""
    path = tmp_path / "file"
    assert not same_file(path, "")
    path.write_bytes(b"")
    assert same_file(path, "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855")


def test_weather_is_shared(tmp_path: Path) -> None:
    """A day more in a station's record changes what the clients depend on."""
    (tmp_path / "weather").mkdir()
    record = tmp_path / "weather" / "merrow.csv"
    record.write_text("date,rain_mm,tmin_c,tmax_c\n2027-01-01,0,9,20\n", encoding="utf-8")
    before = shared_digest(tmp_path, "")
    record.write_text(record.read_text(encoding="utf-8") + "2027-01-02,0,9,20\n", encoding="utf-8")
    assert shared_digest(tmp_path, "") != before


def test_check_samples_are_shared(tmp_path: Path) -> None:
    """A check sample more, or the first one, changes what the clients depend on."""
    digests = [shared_digest(tmp_path, "")]
    table = tmp_path / "check_samples.csv"
    for text in ("bag,material,laboratory,sent\n", "bag,material,laboratory,sent\nZ9000-W,loam,north,2026-02-16\n"):
        table.write_text(text, encoding="utf-8")
        digests.append(shared_digest(tmp_path, ""))
    assert len(set(digests)) == 3


def test_what_laboratories_reported_of_check_samples_counts(book: Path) -> None:
    """A value more of a check sample may put results in doubt, so the clients are looked at again."""
    before = _client(book)
    values = book / "records" / "check_samples" / "north-bench.csv"
    values.parent.mkdir(parents=True)
    values.write_text("laboratory,report\n", encoding="utf-8")
    first = _client(book)
    values.write_text("laboratory,report\nnorth-bench,r1\n", encoding="utf-8")
    assert len({before, first, _client(book)}) == 3


def test_a_practice_s_templates_count_for_their_documents_alone(book: Path, tmp_path: Path) -> None:
    """Its own template and parts, for each document that has one; taken away, it is the engine alone again."""

    def digests() -> dict[DocumentKind, str]:
        return {kind: made_by("engine", book, kind) for kind in DocumentKind}

    plain = digests()
    assert set(plain.values()) == {"engine"}
    folder = book / "templates"
    folder.mkdir()
    (folder / "parts.jinja").write_text("x", encoding="utf-8")
    (folder / "programme.html.jinja").write_text("x", encoding="utf-8")
    first = digests()
    assert {kind for kind in DocumentKind if first[kind] != "engine"} == {DocumentKind.PROGRAMME}
    for name in ("parts.jinja", "programme.html.jinja"):
        before = digests()
        (folder / name).write_text("y", encoding="utf-8")
        assert {kind for kind in DocumentKind if digests()[kind] != before[kind]} == {DocumentKind.PROGRAMME}
    both = made_by("engine", book, DocumentKind.PROGRAMME, DocumentKind.LABELS)
    (folder / "labels.html.jinja").write_text("x", encoding="utf-8")
    assert made_by("engine", book, DocumentKind.PROGRAMME, DocumentKind.LABELS) != both
    before = digests()
    (folder / "labels.html.jinja").unlink()
    (folder / "labels.html.jinja").symlink_to(tmp_path / "nowhere")
    assert digests()[DocumentKind.LABELS] not in (before[DocumentKind.LABELS], "engine")
    for file in folder.iterdir():
        file.unlink()
    folder.rmdir()
    assert digests() == plain
    folder.symlink_to(tmp_path)
    assert "engine" not in digests().values()
