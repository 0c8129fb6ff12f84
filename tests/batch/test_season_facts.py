"""What the season is made of: clients of the book, their rows, and the papers that stand."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from soilrota.batch.book_facts import BookFacts
from soilrota.batch.ledger import ClientRecord, PackRecord, SharedRecord, open_ledger
from soilrota.batch.season_facts import SeasonRequest, season_facts
from soilrota.batch.values import KnownDocument, Outcome

DAY = date(2027, 2, 15)
DOCUMENT = KnownDocument("v", DAY, "o")


def _request(tmp_path: Path) -> SeasonRequest:
    """Return what the step is asked for two clients of the book and one that left it."""
    facts = BookFacts("", "", "", "UTC", "", 1.0, 1, ("elm", "ash"), (), (), practice="Small")
    known = {
        name: ClientRecord(
            name, "", "", DAY, DAY, Outcome.MADE, ({"client": name},), (), documents={"programme.pdf": DOCUMENT}
        )
        for name in ("ash", "elm", "gone")
    }
    return SeasonRequest(tmp_path, DAY, facts, known, frozenset({"ash"}), {})


def test_rows_say_whether_their_client_is_as_its_files_say(tmp_path: Path) -> None:
    """By id; a client that left the book has none."""
    rows = list(_request(tmp_path).rows())
    assert rows == [{"client": "ash", "standing": "current"}, {"client": "elm", "standing": "last-known"}]


def test_papers_of_clients_and_practice(tmp_path: Path) -> None:
    """Documents and packs of the ledger, files of the practice, days of the field calendar."""
    placed = ({"visit": "ash/home/1", "day": "2027-02-20", "person": "Cy"},)
    with open_ledger(tmp_path / "ledger.sqlite") as ledger:
        assert season_facts(_request(tmp_path), ledger).placed == ()
        ledger.keep_packs(PackRecord("ash", "", DAY, {"labels-home-1.pdf": "x"}))
        ledger.keep_shared(SharedRecord("field calendar", "", DAY, DAY, {"field_calendar.pdf": "x"}, placed))
        facts = season_facts(_request(tmp_path), ledger)
    assert facts.papers == {"ash": ("programme.pdf", "labels-home-1.pdf"), "elm": ("programme.pdf",)}
    assert (facts.shared, facts.placed, facts.practice) == (("field_calendar.pdf", "season.csv"), placed, "Small")
