"""Ids as words: every one of the shipped tables has words in every language."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml

import soilrota.guidelines as package
from soilrota.documents.id_words import class_words, ground_words, method_words, plain, rainfall_words, spaced
from soilrota.guidelines.acid_balance import produce_acids
from soilrota.guidelines.salinity import salt_tolerances
from soilrota.quantities import all_codes
from tests.documents.shouting import shout

FOLDER = Path(package.__path__[0])
#: Keys of the tables, and who says what stands under them.
SAID: dict[str, Callable[[str], str]] = {
    "crops": ground_words,
    "names": ground_words,
    "leaves": ground_words,
    "textures": ground_words,
    "land_uses": ground_words,
    "rainfall_zones": rainfall_words,
}


def under(value: Any, key: str) -> Iterator[str]:
    """Yield the texts that stand in lists, or as names of rows, under a key anywhere in a table."""
    if isinstance(value, dict):
        for name, inner in value.items():
            if name == key and isinstance(inner, list):
                yield from (one for one in inner if isinstance(one, str) and one)
            if name == key == "textures" and isinstance(inner, dict):
                yield from inner
            yield from under(inner, key)
    elif isinstance(value, list):
        for inner in value:
            yield from under(inner, key)


def of_tables(key: str) -> set[str]:
    """Return the texts under a key in every table of guidelines."""
    tables = [yaml.safe_load(path.read_text(encoding="utf-8")) for path in sorted(FOLDER.rglob("*.yaml"))]
    return {text for table in tables for text in under(table, key)}


def class_names() -> set[str]:
    """Return the ids of the classes of all shipped sets."""
    sets = [yaml.safe_load(path.read_text(encoding="utf-8")) for path in sorted((FOLDER / "sets").glob("*.yaml"))]
    return {one["name"] for table in sets for row in table["rows"] for one in row.get("classes", ())}


@pytest.mark.parametrize("key", SAID)
def test_every_id_of_the_tables_has_words(key: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """A new crop or texture without words fails here."""
    ids = of_tables(key)
    assert ids
    shout(monkeypatch)
    assert sorted(one for one in ids if SAID[key](one) != SAID[key](one).upper()) == []


def test_methods_classes_and_produce_have_words(monkeypatch: pytest.MonkeyPatch) -> None:
    """Whatever a guideline, or what uses lime up, is named by."""
    shout(monkeypatch)
    methods = {code.partition(".")[2] for code in all_codes()}
    assert sorted(one for one in methods if method_words(one) != spaced(one).upper()) == []
    assert sorted(one for one in class_names() if class_words(one) != spaced(one).upper()) == []
    produce = {acid.produce for acid in produce_acids().values()}
    assert sorted(one for one in produce if plain(one) != spaced(one).upper()) == []
    tolerant = {one.id for one in salt_tolerances()}
    assert sorted(one for one in tolerant if plain(one) != spaced(one).upper()) == []


def test_what_no_table_knows_stays_as_it_is_written(monkeypatch: pytest.MonkeyPatch) -> None:
    """The practice's own names are data."""
    shout(monkeypatch)
    assert plain("river_block-two") == "river block two"
    assert method_words("some-new-way") == "some new way"
    assert plain("") == ""
