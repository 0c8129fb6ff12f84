"""Round trip: results of every example client, written by five laboratories in five dialects, come back equal."""

from __future__ import annotations

import csv
import io
import shutil
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import replace
from math import isclose
from pathlib import Path

import pytest

from soilrota.book import load_shared, read_field_notes, read_results
from soilrota.model.results import Result
from tests.acceptance.dialects import DIALECTS, Dialect
from tests.acceptance.intake_book import drop, inbox, intake, received
from tests.acceptance.small_book import soilrota

EXAMPLES = Path(__file__).resolve().parents[2] / "example_clients"
#: Columns of a note, and what the American crews' tablets call them.
_TABLET = {
    "day": "Sampled on",
    "farm": "Farm id",
    "zone": "Field id",
    "cores": "Cores in bag",
    "soil_state": "Ground",
    "sampler": "Taken by",
    "bag": "Bag label",
}


def _originals() -> dict[str, list[Result]]:
    """Return all results of the example clients, each with a bag."""
    found: dict[str, list[Result]] = {}
    for folder in sorted((EXAMPLES / "records" / "results").iterdir()):
        results, problems = read_results(EXAMPLES, folder.name)
        assert problems == ()
        found[folder.name] = [one if one.bag else replace(one, bag=_bag(one)) for one in results]
    return found


def _bag(result: Result) -> str:
    """Return an id for a bag that has none."""
    return f"{result.zone}-{result.sampled:%y%m%d}-{result.top_cm:g}"


def _note_rows(client: str, results: list[Result], header: list[str]) -> Iterator[dict[str, str]]:
    """Yield a note for each bag of results that no note of the example names, under the headings of a file."""
    shared, _ = load_shared(EXAMPLES)
    assert shared is not None
    known = {note.bag for note in read_field_notes(EXAMPLES, client, shared.practice.notes_form)[0]}
    tablet = "Sampled on" in header
    for bag, one in {one.bag: one for one in results if one.bag not in known}.items():
        facts = {
            "day": one.sampled.strftime("%m/%d/%Y" if tablet else "%Y-%m-%d"),
            "farm": one.farm,
            "zone": one.zone,
            "protocol": one.protocol,
            "top_cm": f"{one.top_cm:g}",
            "bottom_cm": f"{one.bottom_cm:g}",
            "bag": bag,
        }
        yield {_TABLET[name] if tablet and name in _TABLET else name: text for name, text in facts.items()}


def _copied(book: Path, originals: dict[str, list[Result]]) -> None:
    """Copy the example book without its results, with a note for each bag of them."""
    shutil.copytree(EXAMPLES, book, ignore=shutil.ignore_patterns("records"))
    for client, results in originals.items():
        path = book / "clients" / client / "field_notes.csv"
        text = path.read_text(encoding="utf-8")
        header = next(csv.reader(io.StringIO(text)))
        out = io.StringIO(newline="")
        csv.DictWriter(out, header, lineterminator="\n").writerows(_note_rows(client, results, header))
        path.write_text(text + out.getvalue(), encoding="utf-8")


def _reports(results: list[Result]) -> dict[str, list[Result]]:
    """Return results by issue of a report, under names that sort by day."""
    found: defaultdict[str, list[Result]] = defaultdict(list)
    for one in results:
        found[f"{one.reported}-{one.report}-{one.issue}"].append(one)
    return found


def _said(result: Result) -> tuple[object, ...]:
    """Return what must come back, but for the number and the laboratory."""
    ground = (result.farm, result.zone, result.protocol, result.bag, result.top_cm, result.bottom_cm, result.sampled)
    report = (result.report, result.issue, result.reported)
    return (*report, *ground, result.analyte, result.method, result.qualifier, result.unit)


@pytest.mark.parametrize("dialect", DIALECTS, ids=lambda one: one.name)
def test_results_come_back_equal(dialect: Dialect, tmp_path: Path) -> None:
    """Every example result is accepted as it was, nothing waits, and the book that took them in is in order."""
    book, originals = tmp_path / "book", _originals()
    _copied(book, originals)
    codes = sorted({f"{one.analyte}.{one.method}" for results in originals.values() for one in results})
    for one in DIALECTS:
        (book / "laboratories" / f"{one.name}.yaml").write_text(one.laboratory(codes), encoding="utf-8")
    for results in originals.values():
        for name, report in _reports(results).items():
            drop(book, f"{dialect.name}/{name}.{dialect.ending}", dialect.write(report))
    done = intake(book, tmp_path / "out", "--jobs", "2")
    assert done.returncode == 0, done.stdout + done.stderr
    assert inbox(book) == []
    assert [name for name, record in received(book).items() if record["waiting"] or record["refused"]] == []
    for client, results in originals.items():
        back, problems = read_results(book, client)
        assert problems == ()
        assert {one.laboratory for one in back} == {dialect.name}
        came = {_said(one): one.value for one in back}
        assert len(came) == len(back)
        assert came.keys() == {_said(one) for one in results}
        wrong = [one for one in results if not isclose(came[_said(one)], one.value, rel_tol=1e-9)]
        assert wrong == []
    checked = soilrota("check", book)
    assert checked.returncode == 0, checked.stdout
