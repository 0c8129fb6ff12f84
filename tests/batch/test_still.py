"""A night that finds every file as an earlier one left it, and each way in which one is not so any more."""

from __future__ import annotations

import json
import os
import shutil
import time
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from soilrota.batch import still
from soilrota.batch.lock import night_lock
from soilrota.batch.still import Still, UnseenError, keep_still, look, settled_look, still_night

DAY, NEXT, LAST = date(2027, 2, 15), date(2027, 2, 16), date(2027, 2, 20)
PAGE = (
    b'<time class="as-of" data-form="{day} {month} {year}" data-months="January|February|March|April|May|June|July'
    b'|August|September|October|November|December" datetime="2027-02-15">15 February 2027</time>'
)
REPORT = '{"engine": "1", "as_of": "2027-02-15", "started": "then", "took_s": 0.25, "clients": []}\n'


class Book:
    """A book with an output folder of which a night saw that there is nothing to do."""

    def __init__(self, folder: Path) -> None:
        """Write both, and keep what was seen."""
        self.root, self.out = folder / "book", folder / "out"
        for path, content in {
            self.root / "practice.yaml": b"name: Small",
            self.root / "clients" / "ash" / "client.yaml": b"name: Ash",
            self.root / "records" / "ledger.sqlite": b"ledger",
            self.out / "clients" / "ash" / "programme.pdf": b"%PDF",
            self.out / "season.html": PAGE,
            self.out / "run.json": REPORT.encode(),
        }.items():
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(content)
        self.keep()

    def keep(self) -> None:
        """Keep what is there now."""
        seen = settled_look(self.root, self.out, time.sleep)
        said = {"clients": "ash: unchanged\n", "problems": "", "sum": "as of {day}: {took} s", "report": REPORT}
        days = {"first": str(DAY), "last": str(LAST), "time_zone": "Australia/Melbourne"}
        keep_still(self.root, self.out, {"look": seen, **days, **said})

    def night(self, day: date = DAY) -> Still | None:
        """Run a night."""
        return still_night(self.root, self.out, "now", lambda _zone: day)


@pytest.fixture
def book(tmp_path: Path) -> Book:
    """Return a book of which everything stands."""
    return Book(tmp_path)


def test_nothing_is_written_but_the_report(book: Book) -> None:
    """The page bears its day already; what is told was told before."""
    written = (book.out / "season.html").stat().st_mtime_ns
    night = book.night()
    assert night is not None
    assert (night.as_of, night.clients, night.sum) == (DAY, "ash: unchanged\n", "as of {day}: {took} s")
    assert (book.out / "season.html").stat().st_mtime_ns == written
    run = json.loads((book.out / "run.json").read_text())
    assert (run["as_of"], run["started"], run["took_s"] < 10) == ("2027-02-15", "now", True)
    assert list(run) == ["engine", "as_of", "started", "took_s", "clients"]


def test_every_night_up_to_the_last_day_bears_its_own_date(book: Book) -> None:
    """Forth and back; the day after the last, and the day before the first, are other nights."""
    for day in (NEXT, LAST, DAY, NEXT):
        assert book.night(day) is not None
        assert f'datetime="{day}">{day.day} February 2027<'.encode() in (book.out / "season.html").read_bytes()
        assert json.loads((book.out / "run.json").read_text())["as_of"] == str(day)
    assert book.night(date(2027, 2, 21)) is None
    assert book.night(date(2027, 2, 14)) is None


def test_a_lost_report_comes_back(book: Book) -> None:
    """It is written every night, whoever removed it."""
    (book.out / "run.json").unlink()
    assert book.night() is not None
    assert json.loads((book.out / "run.json").read_text())["clients"] == []


def _touched_back(path: Path) -> None:
    """Change a file without changing its size, and put its time of modification back."""
    before = path.stat()
    path.write_bytes(path.read_bytes()[::-1])
    os.utime(path, ns=(before.st_atime_ns, before.st_mtime_ns))


CHANGES: dict[str, Callable[[Book], object]] = {
    "a file of the book": lambda book: (book.root / "practice.yaml").write_text("name: Other"),
    "its bytes alone": lambda book: _touched_back(book.root / "clients" / "ash" / "client.yaml"),
    "a new client": lambda book: (book.root / "clients" / "birch").mkdir(),
    "a file in the inbox": lambda book: _put(book.root / "inbox" / "file.csv"),
    "a document": lambda book: _touched_back(book.out / "clients" / "ash" / "programme.pdf"),
    "a document that is gone": lambda book: (book.out / "clients" / "ash" / "programme.pdf").unlink(),
    "the season page": lambda book: (book.out / "season.html").write_bytes(PAGE + b"x"),
    "the season page that is gone": lambda book: (book.out / "season.html").unlink(),
    "the ledger": lambda book: _touched_back(book.root / "records" / "ledger.sqlite"),
    "a ledger that is gone": lambda book: (book.root / "records" / "ledger.sqlite").unlink(),
    "the output folder": lambda book: shutil.rmtree(book.out),
    "what was kept": lambda book: (book.root / "records" / "still.json").write_text("{}"),
    "what was kept, cut": lambda book: (book.root / "records" / "still.json").write_text('{"form": 1,'),
    "what was kept, of another kind": lambda book: (book.root / "records" / "still.json").write_text("[]"),
    "a folder behind a link": lambda book: (book.root / "more").symlink_to(book.out),
}


def _put(path: Path) -> None:
    """Write a file in a folder of its own."""
    path.parent.mkdir()
    path.write_text("x")


@pytest.mark.parametrize("change", CHANGES)
def test_whatever_changed_is_seen(book: Book, change: str) -> None:
    """Then nothing is written, and the night looks at every client."""
    CHANGES[change](book)
    before = (book.out / "run.json").read_bytes() if book.out.exists() else b""
    assert book.night(NEXT) is None
    assert not book.out.exists() or (book.out / "run.json").read_bytes() == before


def test_another_engine_or_another_folder_is_another_night(book: Book, monkeypatch: pytest.MonkeyPatch) -> None:
    """A changed engine may have something to do; another output folder lacks everything."""
    shutil.copytree(book.out, book.out.with_name("other"))
    assert still_night(book.root, book.out.with_name("other"), "now", lambda _zone: DAY) is None
    engine = book.root.parent / "engine"
    _put(engine / "module.py")
    monkeypatch.setattr(still, "engine_folders", lambda: (engine,))
    assert book.night() is None


def test_a_book_at_work_is_left_alone(book: Book) -> None:
    """The night that looks at every client says who holds the lock."""
    with night_lock(book.root / "records" / "night.lock", "before"):
        assert book.night() is None
    assert book.night() is not None


def test_hidden_files_and_links_that_lead_nowhere_are_no_hindrance(book: Book) -> None:
    """An editor's own files come and go; a link is told by where it leads."""
    (book.root / ".editor").write_text("x")
    assert book.night() is not None
    link = book.root / "clients" / "ash" / "map.geojson"
    link.symlink_to(book.root / "nowhere")
    book.keep()
    assert book.night() is not None
    (book.root / "nowhere").write_text("{}")
    assert book.night() is None


def test_times_in_whole_seconds_tell_too_little(book: Book) -> None:
    """Two changes within a second would look alike."""

    class Coarse:
        """Tells times as a coarse file system does."""

        def __init__(self, path: Path) -> None:
            self._path = path

        @property
        def parent(self) -> Coarse:
            return Coarse(self._path.parent)

        def __truediv__(self, name: str) -> Coarse:
            return Coarse(self._path / name)

        def stat(self) -> os.stat_result:
            real = self._path.stat()
            whole = {"st_ctime_ns": real.st_ctime_ns // 10**9 * 10**9}
            return os.stat_result(tuple(real), whole)

    with pytest.raises(UnseenError):
        settled_look(Coarse(book.root), book.out, time.sleep)  # type: ignore[arg-type]


def test_a_change_right_after_the_look_is_another_look(book: Book) -> None:
    """The wait lets the clock of the kernel go on."""
    path = book.root / "practice.yaml"
    for number in range(20):
        path.write_bytes(b"name: A")
        seen = settled_look(book.root, book.out, time.sleep)
        before = path.stat()
        path.write_bytes(b"name: B" if number % 2 else b"name: C")
        os.utime(path, ns=(before.st_atime_ns, before.st_mtime_ns))
        assert look(book.root, book.out) != seen
