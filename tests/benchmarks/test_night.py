"""What the benchmark of the night stands on: a sound book, the same files from both writers, the growth it tells."""

from __future__ import annotations

from hashlib import sha256
from pathlib import Path

import pytest

from soilrota.batch.reading import read_client, read_shared
from soilrota.files import shipped
from tests.benchmarks.night.bare import engine_writer, naive_writer, shared_writer
from tests.benchmarks.night.book import write_book
from tests.benchmarks.night.catching import Caught
from tests.benchmarks.night.memory import growth


@pytest.mark.parametrize("small", [False, True])
def test_generated_clients_have_no_problems(tmp_path: Path, *, small: bool) -> None:
    """Every client is read without a warning; the same seed gives the same files."""
    book = write_book(tmp_path / "book", 3, visited=2, small=small)
    again = write_book(tmp_path / "again", 3, visited=2, small=small)
    shared, problems = read_shared(book)
    assert problems == ()
    assert shared is not None
    for folder in sorted((book / "clients").iterdir()):
        client, problems = read_client(book, folder.name, shared)
        assert (client is not None, problems) == (True, ())
    assert _tree(book) == _tree(again)


def _tree(folder: Path) -> dict[str, str]:
    """Return the digest of every file of a folder, by path."""
    files = (path for path in folder.rglob("*") if path.is_file())
    return {path.relative_to(folder).as_posix(): sha256(path.read_bytes()).hexdigest() for path in files}


def test_both_writers_make_the_same_file() -> None:
    """What is shared changes nothing in a document."""
    sheet = (("filename", str(shipped("report_templates") / "programme.css")),)
    options = {"pdf_variant": "pdf/ua-1"}
    html = '<html lang="en"><head><title>t</title></head><body><h1>Programme</h1></body></html>'
    one = Caught(html, "book:", {}, (sheet,), options, "0", is_shipped=True)
    assert shared_writer()(one) == naive_writer()(one) == engine_writer()(one)


def test_growth_is_that_after_the_first_documents() -> None:
    """Memory that rises at first and then by a hundredth of a megabyte a document."""
    held = [100.0 + number for number in range(50)] + [150 + 0.01 * number for number in range(200)]
    assert growth(held) == pytest.approx((0.01, 0.01))
