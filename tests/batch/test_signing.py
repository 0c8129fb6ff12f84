"""The parts of what is signed: each changes with what it says, and with nothing else."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest

from soilrota.batch.signing import SignedValues, digest_of, parts_of, signed_values, table_digests
from soilrota.documents.signature_sentences import change_sentences
from soilrota.guidelines.choosing import sets_for
from soilrota.model.signing import PartKind
from tests.batch.signed import CHANGES, everything, moved, said_elsewhere
from tests.documents.made import example

PARTS = parts_of(everything())


def test_there_is_a_part_of_every_kind() -> None:
    """Parts are named in order, each with a SHA-256; every kind has a change below."""
    assert {name.partition("/")[0] for name in PARTS} == {kind.value for kind in PartKind}
    assert list(PARTS) == sorted(PARTS)
    assert all(re.fullmatch(r"[0-9a-f]{64}", digest) for digest in PARTS.values())
    assert {name.partition("/")[0] for name in CHANGES} == {kind.value for kind in PartKind}


def test_results_have_a_part_for_each_sampling() -> None:
    """One part a farm, zone, protocol and day."""
    samplings = {
        f"results/{one.farm}/{one.zone}/{one.protocol}/{one.sampled.isoformat()}"
        for one in example("anvil-creek").results
    }
    assert {name for name in PARTS if name.startswith("results/")} == samplings


@pytest.mark.parametrize("name", CHANGES)
def test_one_change_changes_one_part_and_is_named(name: str) -> None:
    """The digest is another, one part differs, and words say which."""
    parts = parts_of(CHANGES[name](everything()))
    differing = [part for part in PARTS if parts.get(part) != PARTS[part]]
    assert parts.keys() == PARTS.keys()
    assert len(differing) == 1
    assert differing[0] == name or (name not in PARTS and differing[0].startswith(f"{name}/"))
    assert digest_of(parts) != digest_of(PARTS)
    said = change_sentences(PARTS, parts, "en-AU")
    assert len(said) == 1
    assert said[0].endswith(" changed")


@pytest.mark.parametrize("change", [moved, said_elsewhere])
def test_what_says_nothing_of_the_advice_changes_nothing(change: object) -> None:
    """Rows in another order and on other lines; contacts, decisions, days of earlier samplings."""
    assert callable(change)
    other = change(everything())
    assert isinstance(other, SignedValues)
    assert other != everything()
    assert parts_of(other) == PARTS


def test_where_a_result_came_from_says_nothing() -> None:
    """The row of the laboratory's file and its writing of the number."""
    values = everything()
    results = tuple(replace(one, origin="abc:1", as_reported="5,60") for one in values.client.results)
    assert parts_of(replace(values, client=replace(values.client, results=results))) == PARTS


def test_the_order_of_guideline_rows_decides_and_is_signed() -> None:
    """Of two rows that fit equally well the first is taken."""
    values = everything()
    turned = replace(values.sets[0], rows=values.sets[0].rows[::-1])
    assert parts_of(replace(values, sets=(turned,))) != PARTS


def test_the_same_row_twice_is_not_the_row_once() -> None:
    """A doubled application doubles what was spread."""
    values = everything()
    first = values.client.applications[0]
    doubled = replace(values.client, applications=(*values.client.applications, first))
    assert parts_of(replace(values, client=doubled)) != PARTS


def test_tables_are_read_for_what_they_say(tmp_path: Path) -> None:
    """Comments and the order of keys say nothing; tables of sampling and guideline sets are not among them."""
    (tmp_path / "sets").mkdir()
    (tmp_path / "sets" / "some.yaml").write_text("a: 1\n", encoding="utf-8")
    (tmp_path / "layout.yaml").write_text("a: 1\n", encoding="utf-8")
    (tmp_path / "one.yaml").write_text("a: 1\nb: [2, 3]\n", encoding="utf-8")
    before = table_digests(tmp_path)
    table_digests.cache_clear()
    (tmp_path / "one.yaml").write_text("# why\nb: [2.0, 3]\na: 1\n", encoding="utf-8")
    assert table_digests(tmp_path) == before
    assert set(before) == {"one"}
    table_digests.cache_clear()
    (tmp_path / "one.yaml").write_text("a: 1\nb: [2, 4]\n", encoding="utf-8")
    assert table_digests(tmp_path) != before
    table_digests.cache_clear()


def test_what_is_gathered_for_a_client() -> None:
    """The guideline sets that apply to any of its zones, each once, and the engine's own tables."""
    client = example("anvil-creek")
    values = signed_values(client)
    applying = {one.id for farm in client.farms for zone in farm.zones for one in sets_for(client, zone)}
    assert applying
    assert sorted(one.id for one in values.sets) == sorted(applying)
    assert "plausibility" in (values.tables or {})


@pytest.mark.parametrize("choice", [{"guideline": "another"}, {"yield_goal": "80"}, {"build_up_years": 6}])
def test_the_choice_of_a_guideline_is_signed(choice: dict[str, str]) -> None:
    """Of the client, of a farm, of a zone."""
    values = everything()
    farm, *others = values.client.farms
    zone = replace(farm.zones[0], **choice)
    for client in (
        replace(values.client, **choice),
        replace(values.client, farms=(replace(farm, **choice), *others)),
        replace(values.client, farms=(replace(farm, zones=(zone, *farm.zones[1:])), *others)),
    ):
        assert parts_of(replace(values, client=client)) != PARTS
