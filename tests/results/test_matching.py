"""Matching of rows to bags: each rule by itself, and all together against a slow reading of them."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from random import Random

import pytest

from soilrota.bag_ids import is_bag_id, nearest_issued, normalised
from soilrota.model.intake import ClientBags, ReportedRow
from soilrota.model.practice import CheckBag
from soilrota.problems import Severity
from soilrota.results.matching import Matching, match_rows
from tests.results.intake_worlds import NIGHT, TAKEN, WORLDS, A, B, C, bag, check, client, note, row, value, world

HELD = client(bag(A), note(A), note("K6-0311", "hill"))


def match(*rows: ReportedRow, clients: tuple[ClientBags, ...] = (HELD,), checks: tuple[CheckBag, ...] = ()) -> Matching:
    """Match rows on the night."""
    return match_rows(rows, clients, checks, NIGHT)


def codes(*rows: ReportedRow, clients: tuple[ClientBags, ...] = (HELD,)) -> list[str]:
    """Return the codes of the reasons for which the last of the rows is set aside."""
    aside = {one.number: one for one in match(*rows, clients=clients).set_aside}
    return [problem.code for problem in aside[rows[-1].number].reasons] if rows[-1].number in aside else []


@pytest.mark.parametrize("written", [A, A.lower(), f" {A} ", A.replace("-", " "), A.replace("-", "–"), "k6-0311"])
def test_ids_as_people_write_them(written: str) -> None:
    """Case, blanks and the hyphen of our ids do not count; capitals of older ids do not either."""
    (found,) = match(row(written)).matched
    assert (found.bag, found.zone) == ((A, "flat") if written != "k6-0311" else ("K6-0311", "hill"))
    assert (found.client, found.farm, found.protocol, found.sampled) == ("anvil", "home", "topsoil", TAKEN)
    assert found.notes == ()


def test_near_misses_are_proposed_and_never_applied() -> None:
    """A wrong check character, a wrong digit, an older id misread: each names what is near it, none is matched."""
    wrong_check = f"{A[:-1]}{'3' if A[-1] != '3' else '4'}"
    found = match(row(wrong_check, 2), row("K6-0317", 3), row("Q9", 4), row(" ", 5))
    assert found.matched == ()
    assert [one.reasons[0].code for one in found.set_aside] == [
        "bag-check-character", "bag-unknown", "bag-unknown", "bag-missing",
    ]  # fmt: skip
    assert A in found.set_aside[0].reasons[0].mend
    assert "K6-0311" in found.set_aside[1].reasons[0].mend
    assert "near it" not in found.set_aside[2].reasons[0].mend
    assert [one.cells[0] for one in found.set_aside] == [wrong_check, "K6-0317", "Q9", " "]
    assert found.set_aside[0].reasons[0].place.line == 2


def test_an_id_that_means_several_bags() -> None:
    """Named by two clients, by notes of different soil, or by a note and as a check sample: all are named."""
    other = client(note("K6-0311", "bank"), name="cobb")
    found = match(row("K6-0311"), clients=(HELD, other)).set_aside[0].reasons[0]
    assert found.code == "bag-of-several"
    assert "anvil: home/hill" in found.found
    assert "cobb: home/bank" in found.found
    assert codes(row("X1"), clients=(client(note("X1"), note("X1", "hill")),)) == ["bag-noted-twice"]
    assert codes(row("X1"), clients=(client(note("X1"), note("X1", protocol="other")),)) == []
    assert match(row(A), checks=(check(A),)).set_aside[0].reasons[0].code == "bag-of-several"


def test_the_same_bag_twice() -> None:
    """Equal rows: the first stays. Rows that differ: none does. One value a row: only the same analysis is a repeat."""
    ph = row(A, 3, values=(value("ph", 5.2),))
    assert codes(row(A, 2), row(A, 3)) == ["repeated-row"]
    assert len(match(row(A, 2), row(A, 3)).matched) == 1
    found = match(row(A, 2), row(A, 3, values=(value(number=30),)))
    assert [one.reasons[0].code for one in found.set_aside] == ["bag-contradicts"] * 2
    assert len(match(row(A, 2), ph).matched) == 2
    both = row(A, 2, values=(value(), value("potassium")))
    assert codes(both, ph) == ["bag-contradicts"]
    assert codes(row(A, 2, report="R1", issue=1), row(A, 3, report="R1", issue=2)) == []


def test_depth_against_label_and_note() -> None:
    """The file's depth is held against the note's, which stands before the label's; a rounding of inches passes."""
    deeper = client(bag(A), note(A, bottom_cm=15))
    assert codes(row(A, depth=(0, 10))) == []
    assert codes(row(A, depth=(0, 10.16))) == []
    assert codes(row(A, depth=(10, 30))) == ["depth-contradicts"]
    assert codes(row(A, depth=(0, 10)), clients=(deeper,)) == ["depth-contradicts"]
    (found,) = match(row(A, depth=(0, 15)), clients=(deeper,)).matched
    assert (found.top_cm, found.bottom_cm) == (0, 15)
    assert [(one.code, one.severity) for one in found.notes] == [("layer-differs", Severity.WARNING)]


def test_days_against_the_note() -> None:
    """Within three days a note, beyond them set aside; without a field note the file's day, or none at all."""
    (found,) = match(row(A, sampled=TAKEN + timedelta(days=3))).matched
    assert found.sampled == TAKEN
    assert [one.code for one in found.notes] == ["sampled-day-differs"]
    assert codes(row(A, sampled=TAKEN + timedelta(days=4))) == ["sampled-day-contradicts"]
    unnoted = (client(bag(A)),)
    assert codes(row(A), clients=unnoted) == ["no-sampling-day"]
    (found,) = match(row(A, sampled=TAKEN), clients=unnoted).matched
    assert (found.sampled, [one.code for one in found.notes]) == (TAKEN, ["no-field-note"])
    days = (row(A, 2, sampled=TAKEN), row(A, 3, sampled=date(2027, 2, 11), values=(value("ph", 5.2),)))
    assert codes(*days, clients=unnoted) == ["bag-two-days"]


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"received": date(2027, 2, 9)}, ("received on 2027-02-09", "sampled on 2027-02-10")),
        ({"reported": date(2027, 2, 14)}, ("reported on 2027-02-14", "received on 2027-02-15")),
        ({"reported": date(2027, 3, 11)}, ("taken in on 2027-03-10", "reported on 2027-03-11")),
    ],
)
def test_days_the_wrong_way_round(changes: dict[str, date], said: tuple[str, str]) -> None:
    """The two days that contradict each other are named."""
    (reason,) = match(row(A, **changes)).set_aside[0].reasons
    assert reason.code == "days-reversed"
    assert all(words in reason.found for words in said)


def test_a_bag_is_not_filled_long_before_its_season() -> None:
    """A day of the year before is a wrong day or a wrong bag; a visit ahead of the season is neither."""
    early = (client(bag(A), note(A, day=date(2026, 12, 20))),)
    assert codes(row(A), clients=early) == []
    assert codes(row(A), clients=(client(bag(A), note(A, day=date(2026, 2, 1))),)) == ["sampled-before-issue"]
    assert codes(row(A), clients=(client(bag(A, season="2027"), note(A)),)) == []


def test_label_against_note() -> None:
    """A bag that was given out for one zone and noted on another waits."""
    assert codes(row(A), clients=(client(bag(A), note(A, "hill")),)) == ["label-against-note"]


def test_ground_that_records_may_not_name() -> None:
    """A zone or a protocol that is gone would make the client's records unreadable."""
    zones = replace(HELD, zones=frozenset({("home", "hill")}), protocols=frozenset({"subsoil"}))
    assert codes(row(A), clients=(zones,)) == ["protocol-gone", "zone-gone"]
    assert codes(row(A), clients=(replace(HELD, zones=frozenset({("home", "flat")})),)) == []


def test_report_numbers() -> None:
    """None, too long, or with what cannot be seen: no file could be named by it."""
    assert codes(row(A, report="")) == ["report-number-missing"]
    assert codes(row(A, report="x" * 81)) == ["report-number-form"]
    assert codes(row(A, report="R\u202e1")) == ["report-number-form"]
    assert codes(row(A, values=(value(), value(number=3)))) == ["analysis-twice"]


def test_check_samples() -> None:
    """A blind check sample is known by its id, spare label or not; it was sent before it was received."""
    (found,) = match(row(C, depth=(0, 99), sampled=date(2027, 2, 1)), checks=(check(C),)).check_rows
    assert (found.material, found.bag) == ("clay-stock", C)
    spare = match_rows([row(B)], [client(bag(B))], [check(B)], NIGHT)
    assert len(spare.check_rows) == 1
    late = match(row(C, received=date(2027, 2, 11)), checks=(check(C),)).set_aside
    assert [one.code for one in late[0].reasons] == ["days-reversed"]


def test_many_unknown_ids_take_no_time() -> None:
    """A file of another practice: each row is set aside, the nearest ids are looked up for the first ones only."""
    held = client(*(bag(one) for one in {A, B, C}))
    found = match_rows([row(f"Z{number:05}", number) for number in range(5_000)], [held], [], NIGHT)
    assert len(found.set_aside) == 5_000


def _oracle(rows: list[ReportedRow], clients: list[ClientBags], checks: list[CheckBag], index: int) -> str:  # noqa: C901, PLR0912 - the rules one after another, as they are written
    """Return `matched`, `check` or `set-aside` for one row, by the most obvious reading of the rules."""
    one = rows[index]

    def same(first: str, second: str) -> bool:
        looks = [normalised(text) for text in (first, second)]
        ours = all(len(text) == 7 and text[5] == "-" and text[1:5].isdigit() for text in looks)
        return looks[0] == looks[1] if ours else first.strip().casefold() == second.strip().casefold()

    issued = [(some.client, held) for some in clients for held in some.bags if same(held.id, one.sample)]
    noted = [(some.client, held) for some in clients for held in some.notes if same(held.bag, one.sample)]
    blind = [held for held in checks if same(held.bag, one.sample)]
    everything = [held.id for some in clients for held in some.bags] + [held.bag for held in checks]
    looks_ours = (
        len(normalised(one.sample)) == 7 and normalised(one.sample)[1:5].isdigit() and normalised(one.sample)[5] == "-"
    )
    if not one.report or not (issued or noted or blind):
        return "set-aside"
    if looks_ours and not is_bag_id(normalised(one.sample)) and nearest_issued(one.sample, everything) and not blind:
        return "set-aside"
    for other in rows:
        if other is one or not same(other.sample, one.sample) or other.report != one.report:
            continue
        group = [each for each in rows if same(each.sample, one.sample) and each.report == one.report]
        whole = any(len(each.values) > 1 for each in group)
        for analyte in {each.analyte for each in one.values} or ({""} if whole else set()):
            of_it = [each for each in group if whole or analyte in {held.analyte for held in each.values}]
            said = {
                (
                    each.sampled,
                    each.received,
                    each.reported,
                    each.depth,
                    frozenset((v.analyte, v.value) for v in each.values),
                )
                for each in of_it
            }
            if len(said) > 1 or of_it[0] is not one:
                return "set-aside"
    night = [one.received, one.reported, NIGHT]
    if blind and not noted:
        days = [blind[0].sent, *night]
    else:
        if len({name for name, _ in issued + noted}) > 1 or blind:
            return "set-aside"
        soils = {(held.zone, held.top_cm, held.bottom_cm, held.day) for _, held in noted}
        if len(soils) > 1 or any(held.zone != mark.zone for _, held in noted for _, mark in issued):
            return "set-aside"
        soil = noted[0][1] if noted else issued[0][1]
        if one.depth and (abs(one.depth[0] - soil.top_cm) > 0.5 or abs(one.depth[1] - soil.bottom_cm) > 0.5):
            return "set-aside"
        taken = noted[0][1].day if noted else one.sampled
        if taken is None or (one.sampled and abs((one.sampled - taken).days) > 3):
            return "set-aside"
        if not noted and len({each.sampled for each in rows if same(each.sample, one.sample) and each.sampled}) > 1:
            return "set-aside"
        if issued and taken < date(2027, 1, 20) - timedelta(days=120):
            return "set-aside"
        days = [taken, *night]
    known = [day for day in days if day is not None]
    if known != sorted(known):
        return "set-aside"
    return "check" if blind and not noted else "matched"


def test_random_files_against_the_oracle() -> None:
    """Every row of every file ends in exactly one place, and that is the place that the rules say."""
    random = Random(5)
    ends: dict[str, int] = {"matched": 0, "check": 0, "set-aside": 0}
    for _ in range(WORLDS):
        rows, clients, checks = world(random)
        found = match_rows(rows, clients, checks, NIGHT)
        by_number = {one.row.number: "matched" for one in found.matched}
        by_number |= {one.row.number: "check" for one in found.check_rows}
        by_number |= {one.number: "set-aside" for one in found.set_aside}
        assert len(found.matched) + len(found.check_rows) + len(found.set_aside) == len(rows)
        assert all(one.reasons for one in found.set_aside)
        for index, one in enumerate(rows):
            assert by_number[one.number] == _oracle(rows, clients, checks, index), (one, clients, checks, found)
            ends[by_number[one.number]] += 1
    assert min(ends.values()) > WORLDS / 100
