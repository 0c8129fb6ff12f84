"""The report of an intake: every part said, nothing that was not, on lines that can be printed."""

from __future__ import annotations

from datetime import date

from soilrota.batch.inbox import LeftAlone
from soilrota.batch.intake_report import intake_record, intake_words, missing_record, overtaken_record
from soilrota.batch.intake_values import FileEntry, IntakeReport, Overtaken
from soilrota.batch.received import Received
from soilrota.model.intake import MissingBag
from soilrota.problems import Place, error

DAY = date(2027, 2, 15)
REASON = error("bag-unknown", Place("inbox/feb.csv", 3), "bag A-2 was never given out", "a bag", "read the label")
RECORD = Received(
    digest="ab" * 32,
    name="feb.csv",
    received_on=DAY,
    laboratory="bench",
    reports=("R1", "R2"),
    rows=30,
    accepted=(2, 3),
    waiting=dict.fromkeys(range(4, 31), (REASON,)),
    settled={31: "closed by Ann Lee: not ours"},
    remarks=("alder-farm: odd.",),
    corrected={"alder-farm": ("Report R1, issue 2: changed.",)},
)
REFUSED = Received("cd" * 32, "odd.pdf", DAY, refused=(REASON,))
OLD = Received("ef" * 32, "old.csv", date(2026, 6, 1), laboratory="bench", rows=1, accepted=(2,))
BAG = MissingBag("alder-farm", "home", "flat", "topsoil", "", 0, 10, date(2027, 2, 1), date(2027, 2, 12), "bench")


def test_nothing() -> None:
    """One sentence says so."""
    assert intake_words(IntakeReport(DAY), ()) == (
        "Laboratory results as of 2027-02-15\n\nNothing has come in, nothing waits, and no bag is missing.\n"
    )


def test_everything() -> None:
    """Each part under its head; a long list is cut short and says so; what is settled long ago is left out."""
    report = IntakeReport(
        DAY,
        files=(FileEntry(OLD, again=True, dropped_as="copy.csv"),),
        records=(RECORD, REFUSED, OLD),
        alone=(LeftAlone("new.csv", "it is still being written"),),
        faults=("bad.csv was not taken in", "Traceback\n  of it"),
    )
    overtaken = (Overtaken("alder-farm", "programme.pdf", date(2027, 2, 1), "R1"),)
    words = intake_words(report, (BAG,), overtaken)
    lines = [line.strip() for line in words.splitlines()]
    assert "2027-02-15 feb.csv (bench, reports R1, R2): 30 rows: 2 accepted, 27 set aside, 1 closed" in lines
    assert "odd.pdf: nothing could be read, see below" in lines
    assert "copy.csv: the same file came on 2026-06-01 as old.csv" in lines
    assert "Set aside: 27 rows and 1 whole file wait for somebody" in lines
    assert lines.count("row 4: bag A-2 was never given out; expected a bag. To mend: read the label.") == 1
    assert "row 24:" not in words
    assert "and 7 more rows, with the reasons in that table" in lines
    assert "alder-farm: odd." in lines
    assert "alder-farm: Report R1, issue 2: changed." in lines
    assert "alder-farm: programme.pdf of 2027-02-01 shows values of report R1 from before its correction" in lines
    late = "taken 2027-02-01, results due 2027-02-12, 3 days late"
    assert f"alder-farm home/flat 0-10 cm, a bag without an id: {late}" in lines
    assert "new.csv: it is still being written" in lines
    assert lines[-2:] == ["Traceback", "of it"]
    assert "old.csv (" not in words


def test_names_that_would_disturb_the_reader() -> None:
    """Signs that cannot be seen, and line ends within a name, do not reach the page."""
    odd = Received("ab" * 32, "\u202ea\nb\x1b[2J.csv", DAY, laboratory="bench", rows=1, accepted=(2,))
    words = intake_words(IntakeReport(DAY, records=(odd,)), ())
    assert all(line.isprintable() for line in words.split("\n"))
    assert "\ufffda b\ufffd[2J.csv" in words


def test_as_data() -> None:
    """The same for programs: files, what waits, what was left; days as text."""
    report = IntakeReport(
        DAY, files=(FileEntry(RECORD, taken=2),), records=(RECORD, OLD), alone=(LeftAlone("new.csv", "young"),)
    )
    data = intake_record(report)
    assert [(one["file"], one["accepted"], one["taken"], one["fresh"]) for one in data["files"]] == [
        ("feb.csv", 2, 2, True)
    ]
    assert [one["file"] for one in data["waiting"]] == ["feb.csv"]
    assert data["waiting"][0]["set_aside"]["4"][0]["code"] == "bag-unknown"
    assert data["left"] == [{"file": "new.csv", "reason": "young"}]
    assert (missing_record(BAG)["since"], missing_record(BAG)["due"]) == ("2027-02-01", "2027-02-12")
    assert overtaken_record(Overtaken("a", "p.pdf", DAY, "R1", made_again=True))["made_again"] is True
