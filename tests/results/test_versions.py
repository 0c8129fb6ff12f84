"""Issues of reports: what is written, what is known already, what contradicts it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from itertools import permutations
from pathlib import Path
from random import Random

from soilrota.book.corrections import standing
from soilrota.book.records import build_results
from soilrota.files import read_csv
from soilrota.model.intake import MatchedRow
from soilrota.model.results import Result
from soilrota.problems import Place
from soilrota.results.accepting import results_table
from soilrota.results.versions import Versions, versions_of
from tests.results.intake_worlds import NIGHT, WORLDS, matched, value

LATER = date(2027, 3, 5)


class Records:
    """Accepted results by file, as they would lie on disk."""

    def __init__(self) -> None:
        self.files: dict[str, tuple[Result, ...]] = {}

    @property
    def results(self) -> tuple[Result, ...]:
        """Return everything on disk, in the order of the files."""
        return tuple(one for _, some in sorted(self.files.items()) for one in some)

    def take(self, *rows: MatchedRow, digest: str = "d1") -> Versions:
        """Take a file in and write what it asks for."""
        found = versions_of(rows, {"anvil": self.results}, "north-bench", digest, NIGHT)
        for one in found.files:
            path = f"records/results/anvil/{one.name}"
            self.files[path] = tuple(replace(result, place=Place(path, 2)) for result in one.results)
        return found

    def stands(self) -> dict[str, tuple[float, int]]:
        """Return value and issue of what stands, by bag and analyte."""
        return {f"{one.bag} {one.analyte}": (one.value, one.issue) for one in standing(self.results)[0]}


def one(bag: str, number: float = 31.0, analyte: str = "phosphorus", **changes: object) -> MatchedRow:
    """Return a matched row of one value."""
    return matched(bag, values=(value(analyte, number),), **changes)


def codes(found: Versions) -> list[str]:
    """Return the codes of all reasons and notes."""
    return [problem.code for row in found.set_aside for problem in row.reasons] + [note.code for note in found.notes]


def test_a_new_report_and_the_same_again() -> None:
    """The first time it is written; the same file again, or a part of it, writes nothing and is accepted."""
    records = Records()
    first = records.take(one("K1"), one("K2", 20))
    assert [file.name for file in first.files] == ["north-bench_nb-24117_" + first.files[0].name[21:]]
    assert len(first.files[0].added) == len(first.accepted) == 2
    for rows in ([one("K1"), one("K2", 20)], [one("K2", 20)], [one("K1", issue=1)]):
        again = records.take(*rows, digest="d2")
        assert (again.files, again.set_aside, again.notes) == ((), (), ())
        assert len(again.accepted) == len(rows)


def test_a_report_number_in_other_letters_is_the_same_report() -> None:
    """Case and blanks do not make a new report; the number stays as it was first written."""
    records = Records()
    records.take(one("K1"))
    for spelt in ("nb-24117", "Nb-24117", " NB - 24117"):
        assert records.take(one("K1", report=spelt), digest="d2").files == ()
    corrected = records.take(one("K1", 33, issue=2, report="nb-24117"))
    assert {result.report for result in corrected.files[0].results} == {"NB-24117"}
    assert records.stands() == {"K1 phosphorus": (33, 2)}


def test_a_stated_issue() -> None:
    """A new number is a new file; what a lower issue said stays on disk."""
    records = Records()
    records.take(one("K1"), one("K2", 20))
    found = records.take(one("K1", 33, issue=2))
    assert found.files[0].name.endswith("-issue-2.csv")
    assert records.stands() == {"K1 phosphorus": (33, 2), "K2 phosphorus": (20, 1)}
    assert len(records.results) == 3
    assert codes(records.take(one("K1", 34, issue=2))) == ["issue-contradicts"]
    assert codes(records.take(one("K1", 34, issue=1))) == ["issue-contradicts"]
    assert "33 mg/kg" in records.take(one("K1", 34, issue=2)).set_aside[0].reasons[0].found


def test_a_later_day_is_a_corrected_report() -> None:
    """Without an issue number the day tells; the note says so, and the same file again changes nothing."""
    records = Records()
    records.take(one("K1"), one("K2", 20))
    found = records.take(one("K1", 33, reported=LATER), one("K2", 20, reported=LATER))
    assert codes(found) == ["report-corrected"]
    assert records.stands() == {"K1 phosphorus": (33, 2), "K2 phosphorus": (20, 2)}
    again = records.take(one("K1", 33, reported=LATER), one("K2", 20, reported=LATER))
    assert (again.files, again.notes, len(again.accepted)) == ((), (), 2)
    assert records.take(one("K1"), one("K2", 20)).files == ()


def test_a_contradiction_waits() -> None:
    """On the same day, an earlier one or none, other values are nobody's; rows that repeat what is known pass."""
    for day in (date(2027, 2, 27), date(2027, 2, 26), None):
        records = Records()
        records.take(one("K1"), one("K2", 20))
        found = records.take(one("K1", 33, reported=day), one("K2", 20, reported=day), one("K3", reported=day))
        assert codes(found) == ["report-contradicts"] * 2
        assert [row.bag for row in found.accepted] == ["K2"]
        assert found.files == ()


def test_more_bags_of_a_report_join_it() -> None:
    """Rows and analyses that were not there before go into the same issue, whose file is written whole."""
    records = Records()
    records.take(one("K1"))
    found = records.take(one("K2", 20), one("K1", 5.2, "ph"))
    assert len(found.files[0].results) == 3
    assert len(found.files[0].added) == 2
    assert len(records.files) == 1
    records.take(one("K1", 33, issue=2))
    records.take(one("K1"), one("K4", 9))
    assert records.stands()["K4 phosphorus"] == (9, 1)


def test_rows_join_the_issue_that_they_share_most_with() -> None:
    """Shared values tell more than the day, which may be that of the print; the day tells more than the number."""
    records = Records()
    records.take(one("K1"), one("K2", 20))
    records.take(one("K1", 33, issue=2, reported=LATER))
    records.take(one("K2", 20, reported=LATER), one("K4", 9, reported=LATER))
    records.take(one("K5", 7))
    records.take(one("K6", 6, reported=LATER))
    records.take(one("K7", 5, reported=None))
    stands = records.stands()
    assert [stands[f"K{number} phosphorus"][1] for number in (1, 2, 4, 5, 6, 7)] == [2, 1, 1, 1, 2, 2]


def test_a_file_that_holds_it_already_is_the_one_written() -> None:
    """Records under another name, and whatever else stands in that file, are kept."""
    records = Records()
    records.take(one("K1"))
    (kept,) = records.files.values()
    old = "records/results/anvil/by-hand.csv"
    other = replace(kept[0], report="R9", laboratory="tarn-bench", bag="Z1")
    records.files = {old: tuple(replace(result, place=Place(old, 2)) for result in (*kept, other))}
    found = records.take(one("K2", 20))
    assert [(file.name, len(file.results), len(file.added)) for file in found.files] == [("by-hand.csv", 3, 1)]


def test_two_issues_in_one_file() -> None:
    """Each has its own file, whatever their order."""
    for rows in permutations([one("K1", issue=1), one("K1", 33, issue=2)]):
        records = Records()
        assert len(records.take(*rows).files) == 2
        assert records.stands() == {"K1 phosphorus": (33, 2)}


def test_a_corrected_field_note_is_no_silent_change() -> None:
    """The same value for another zone than is known contradicts it, and the zone is named."""
    records = Records()
    records.take(one("K1"))
    found = records.take(replace(one("K1"), zone="hill"))
    assert codes(found) == ["report-contradicts"]
    assert "home/hill" in found.set_aside[0].reasons[0].found


def _random_rows(random: Random, **changes: object) -> list[MatchedRow]:
    """Return some rows of a report, each bag and analysis once."""
    cells = [(bag, analyte) for bag in ("K1", "K2", "K3") for analyte in ("ph", "phosphorus")]
    some = random.sample(cells, random.randrange(1, 6))
    return [one(bag, random.choice([5.0, 6.0]), analyte, **changes) for bag, analyte in some]


def _oracle(issues: Sequence[Sequence[MatchedRow]]) -> dict[str, tuple[float, int]]:
    """Return what stands after issues in the order of their numbers: the later simply writes over the earlier."""
    stands: dict[str, tuple[float, int]] = {}
    for number, rows in enumerate(issues, start=1):
        for row in rows:
            (said,) = row.row.values
            stands[f"{row.bag} {said.analyte}"] = (said.value, number)
    return stands


def test_stated_issues_in_any_order_stand_as_the_highest_says() -> None:
    """Three issues in any order, each file several times: the same values stand, and repeats write nothing."""
    random = Random(7)
    for _ in range(WORLDS // 12):
        issues = [_random_rows(random, issue=number) for number in (1, 2, 3)]
        for order in permutations(issues):
            records = Records()
            for rows in order:
                found = records.take(*rows)
                assert len(found.accepted) + len(found.set_aside) == len(rows)
                assert records.take(*rows).files == ()
            assert all(records.take(*rows).files == () for rows in issues)
            assert records.stands() == _oracle(issues)


def test_files_without_issues_never_lose_or_double_a_row() -> None:
    """Whatever comes: rows in = accepted + set aside, the same again writes nothing, no value twice in an issue."""
    random = Random(8)
    days = [date(2027, 2, 27), LATER, date(2027, 3, 9), None]
    for _ in range(WORLDS // 3):
        records = Records()
        for number in range(4):
            rows = _random_rows(random, reported=random.choice(days), issue=random.choice([None, None, None, 2]))
            before = set(records.results)
            found = records.take(*rows, digest=f"d{number}")
            assert len(found.accepted) + len(found.set_aside) == len(rows)
            assert before <= set(records.results)
            again = records.take(*rows, digest="again")
            assert again.files == ()
            assert len(again.accepted) == len(found.accepted)
            keys = [(result.key, result.issue) for result in records.results]
            assert len(keys) == len(set(keys))


def test_what_is_written_reads_back_and_is_then_known(tmp_path: Path) -> None:
    """Through a real file, with a value that only a conversion makes: the same file again changes nothing."""
    rows = [one("K1", 31 * 0.436421 / 3)]
    (file,) = versions_of(rows, {}, "north-bench", "d1", NIGHT).files
    path = tmp_path / file.name
    path.write_bytes(results_table(file.results))
    table, _ = read_csv(path, f"records/results/anvil/{file.name}", "results")
    assert table is not None
    known = tuple(each.value for each in build_results([table]))
    again = versions_of(rows, {"anvil": known}, "north-bench", "d2", NIGHT)
    assert (again.files, len(again.accepted)) == ((), 1)
