"""What needs somebody beside the tasks: clients with problems, rows that wait, bags that are late."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from soilrota.batch.ledger import ClientRecord
from soilrota.batch.received import Received
from soilrota.batch.season_wanted import wanting
from soilrota.batch.values import Entry, Outcome
from soilrota.documents.dates import long_day
from soilrota.language import said_again, speaking
from soilrota.model.intake import MissingBag
from soilrota.problems import Place, Problem, Severity

DAY = date(2027, 2, 15)


def _problem(found: str, severity: Severity = Severity.ERROR) -> Problem:
    """Return a problem."""
    return Problem(severity, "a-code", Place("clients/x/client.yaml", 4, 2), found, "", "write it")


def _bag(client: str, due: date | None, bag: str = "B-1") -> MissingBag:
    """Return a bag that has not come back."""
    return MissingBag(client, "home", "flat", "topsoil", bag, 0.0, 10.0, date(2027, 1, 5), due, "lab")


def _record(
    client: str,
    *,
    outcome: Outcome = Outcome.MADE,
    problems: tuple[Problem, ...] = (),
    missing: tuple[MissingBag, ...] = (),
) -> ClientRecord:
    """Return what the ledger knows of a client."""
    row = {"client": client, "client_name": f"{client} farm", "farm": "home", "zone": "flat", "zone_name": "River flat"}
    return ClientRecord(client, "", "", DAY, DAY, outcome, (row,), problems, missing=missing)


def test_nothing_where_nothing_is_wrong() -> None:
    """Warnings need nobody; a bag that is not due yet, or whose laboratory is not known, neither."""
    problems = (_problem("odd", Severity.WARNING),)
    record = _record("ash", problems=problems, missing=(_bag("ash", DAY), _bag("ash", None)))
    assert wanting({"ash": Entry("ash", Outcome.UNCHANGED, problems=problems)}, {"ash": record}, (), DAY) == ()


def test_clients_with_problems_say_where_and_what() -> None:
    """The first error with its place and its mend, how many more; a failure with its reason; also one not looked at."""
    errors = (_problem("odd", Severity.WARNING), _problem("no name"), _problem("no farm"))
    entries = {
        "ash": Entry("ash", Outcome.PROBLEMS, problems=errors),
        "elm": Entry("elm", Outcome.FAILED, "took too long"),
        "fir": Entry("fir", Outcome.MADE),
    }
    known = {"ash": _record("ash"), "oak": _record("oak", outcome=Outcome.PROBLEMS, problems=errors[:2])}
    (group,) = wanting(entries, known, (), DAY)
    assert group.lines == (
        "ash farm: clients/x/client.yaml:4:2: no name. To mend: write it. And 1 more error.",
        "elm: took too long",
        "oak farm: clients/x/client.yaml:4:2: no name. To mend: write it.",
    )
    assert group.count == 3


def test_rows_that_wait_name_their_table() -> None:
    """A file with two rows that wait and one that cannot be read are three things to do."""
    waiting = Received("a" * 64, "results.csv", DAY, waiting={7: (_problem("no such bag"),), 9: (_problem("bad"),)})
    unread = Received("b" * 64, "odd.xlsx", DAY, refused=(_problem("a drawing"),))
    done = Received("c" * 64, "done.csv", DAY)
    (group,) = wanting({}, {}, (waiting, unread, done), DAY)
    assert group.lines == (
        "results.csv: 2 rows in records/set_aside/results-aaaaaaaaaaaa.csv; row 7: no such bag",
        "odd.xlsx: nothing of it could be read: a drawing",
    )
    assert group.count == 3


def test_late_bags_the_longest_awaited_first() -> None:
    """By the day on which they were due; a bag without an id is named by its zone and layer."""
    missing = (_bag("ash", date(2027, 2, 10)), _bag("ash", date(2027, 2, 1), ""))
    (group,) = wanting({}, {"ash": _record("ash", missing=missing)}, (), DAY)
    assert group.lines == (
        "ash farm, River flat: 0 to 10 cm, taken 5 January 2027, due 1 February 2027",
        "ash farm, River flat: bag B-1, 0 to 10 cm, taken 5 January 2027, due 10 February 2027",
    )


@pytest.mark.parametrize("month", range(1, 13))
def test_days_are_written_as_documents_write_them(month: int) -> None:
    """The same words as with the library that knows all languages."""
    missing = (replace(_bag("ash", date(2027, 12, 31)), since=date(2027, month, 9)),)
    (group,) = wanting({}, {"ash": _record("ash", missing=missing)}, (), date(2028, 1, 1))
    assert f"taken {long_day(date(2027, month, 9), 'en-GB')}, due 31 December 2027" in group.lines[0]


def test_what_is_kept_is_english_and_can_be_said_again() -> None:
    """Days and depths of a line are put in words when it is said."""
    missing = (replace(_bag("ash", date(2027, 2, 10)), bottom_cm=7.5),)
    (group,) = wanting({}, {"ash": _record("ash", missing=missing)}, (), DAY)
    english = "ash farm, River flat: bag B-1, 0 to 7.5 cm, taken 5 January 2027, due 10 February 2027"
    assert group.lines == (english,)
    assert said_again(group.lines[0]) == english
    with speaking("es"):
        said = said_again(group.lines[0])
    assert all(words in said for words in ("7,5", "5 de enero de 2027", "10 de febrero de 2027", "River flat"))
