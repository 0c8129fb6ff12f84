"""The season in the night: when the page is made anew, when it only gets a new day, what departs."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from soilrota.batch import season_step
from soilrota.batch.book_facts import BookFacts
from soilrota.batch.ledger import ClientRecord, Ledger, open_ledger
from soilrota.batch.redating import PAGE_FILE
from soilrota.batch.season_facts import SeasonRequest
from soilrota.batch.season_step import keep_season_page, write_season
from soilrota.batch.values import Outcome

DAY, NEXT = date(2027, 2, 15), date(2027, 2, 16)
ROW = {"client": "ash", "client_name": "Ash Farm", "zone": "flat", "state": "overdue"}


@pytest.fixture
def made(monkeypatch: pytest.MonkeyPatch) -> list[date]:
    """Return the days for which a page was made anew."""
    days: list[date] = []
    real = season_step._made

    def counted(facts: season_step.SeasonFacts, day: date) -> bytes:
        days.append(day)
        return real(facts, day)

    monkeypatch.setattr(season_step, "_made", counted)
    return days


def _request(out: Path, day: date = DAY, row: dict[str, str] = ROW) -> SeasonRequest:
    """Return what the step is asked for a book of one client."""
    facts = BookFacts("", "", "engine", "UTC", "", 1.0, 1, ("ash",), (), (), practice="Small")
    record = ClientRecord("ash", "", "", DAY, DAY, Outcome.MADE, (row,), ())
    return SeasonRequest(out, day, facts, {"ash": record}, frozenset({"ash"}), {})


def _page(request: SeasonRequest, ledger: Ledger) -> bytes:
    """Have the page kept, and return it."""
    assert list(keep_season_page(request, ledger)) == []
    return (request.out / PAGE_FILE).read_bytes()


def test_another_day_is_put_into_the_page_that_stands(tmp_path: Path, made: list[date]) -> None:
    """Same day: not touched. Another day: the bytes of a page made on that day, without making it."""
    with open_ledger(tmp_path / "ledger.sqlite") as ledger:
        first = _page(_request(tmp_path), ledger)
        when = (tmp_path / PAGE_FILE).stat().st_mtime_ns
        assert _page(_request(tmp_path), ledger) == first
        assert (tmp_path / PAGE_FILE).stat().st_mtime_ns == when
        second = _page(_request(tmp_path, NEXT), ledger)
        assert made == [DAY]
        (tmp_path / PAGE_FILE).unlink()
        assert _page(_request(tmp_path, NEXT), ledger) == second != first
        assert made == [DAY, NEXT]


def test_a_change_or_damage_makes_it_anew(tmp_path: Path, made: list[date]) -> None:
    """Another row, another client name, or a page that somebody changed."""
    with open_ledger(tmp_path / "ledger.sqlite") as ledger:
        first = _page(_request(tmp_path), ledger)
        assert _page(_request(tmp_path, row={**ROW, "zone": "ridge"}), ledger) != first
        assert _page(_request(tmp_path), ledger) == first
        (tmp_path / PAGE_FILE).write_bytes(first + b"x")
        assert _page(_request(tmp_path), ledger) == first
        assert made == [DAY] * 4


def test_the_practice_speaks_another_language(tmp_path: Path, made: list[date]) -> None:
    """The page is made anew in it, and bears its day on the next night without being made."""
    with open_ledger(tmp_path / "ledger.sqlite") as ledger:
        english = _request(tmp_path)
        _page(english, ledger)
        spanish = replace(english, facts=replace(english.facts, language="es"))
        assert b">15 de febrero de 2027</time>" in _page(spanish, ledger)
        assert b">16 de febrero de 2027</time>" in _page(replace(spanish, as_of=NEXT), ledger)
        assert made == [DAY, DAY]


def test_what_cannot_be_written_is_said(tmp_path: Path) -> None:
    """A folder in the way of table and page gives words, and the ledger claims nothing."""
    for name in ("season.csv", PAGE_FILE):
        (tmp_path / name).mkdir()
    with open_ledger(tmp_path / "ledger.sqlite") as ledger:
        said = [*write_season(_request(tmp_path), ledger), *keep_season_page(_request(tmp_path), ledger)]
        assert ledger.shared("season page") is None
    assert ["could not be written" in words for words in said] == [True, True]


def test_papers_of_a_client_that_left_the_book_go(tmp_path: Path) -> None:
    """Its documents are removed, its folder too where nothing else is in it."""
    request = _request(tmp_path)
    gone = replace(request.known["ash"], client="gone")
    papers = [tmp_path / "clients" / "gone" / name for name in ("programme.pdf", "results.xlsx", "results.csv")]
    papers[0].parent.mkdir(parents=True)
    for paper in papers:
        paper.write_bytes(b"x")
    with open_ledger(tmp_path / "ledger.sqlite") as ledger:
        known = {**request.known, "gone": gone}
        assert list(write_season(replace(request, known=known), ledger)) == []
    assert not papers[0].parent.exists()
    assert b"gone" not in (tmp_path / "season.csv").read_bytes()
