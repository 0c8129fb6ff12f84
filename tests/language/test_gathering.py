"""Texts are gathered from code, templates and tables; a catalogue is brought up to date with them."""

from __future__ import annotations

from io import BytesIO

import pytest
from babel.messages.catalog import Catalog

from soilrota.guidelines.derived_codes import derived_codes
from soilrota.guidelines.phosphate_limits import phosphate_limits
from soilrota.guidelines.sets import guideline_sets
from soilrota.quantities import all_codes, analysis_name, analytes
from tests.language.gathering import ROOT, TABLE_KEYS, gathered, table_words, texts, untranslated

TABLE = b"""\
name: Arable land
sources:
  - {id: memory, author: from memory, title: no publication was read}
  - {id: county, author: Example County, title: A guide, where: table 2}
rows:
  - id: phosphorus
    note: ""
    classes: [{name: low, words: very low, high: 5}, {name: high, words: high}]
    crops: [wheat, field-pea]
  - {id: lime, note: Work it in., critical: 5.5}
by_id:
  memory: {title: a common default}
"""


@pytest.fixture(scope="module")
def found() -> set[str]:
    """Return the texts that stand for themselves, gathered once."""
    return {words for use, words in texts(gathered()) if not use}


@pytest.mark.parametrize(
    ("way", "words"),
    [
        ("name", ["Arable land"]),
        ("rows.classes.words", ["very low", "high"]),
        ("rows.classes.name", ["low", "high"]),
        ("rows.crops", ["wheat", "field-pea"]),
        ("sources.title", ["no publication was read", "A guide"]),
        ("sources[id=memory].title", ["no publication was read"]),
        ("sources[author=Example County].where", ["table 2"]),
        ("by_id.memory.title", ["a common default"]),
    ],
)
def test_a_way_leads_to_texts(way: str, words: list[str]) -> None:
    """Lists are passed through, and a condition leaves out what does not hold it."""
    assert list(table_words(BytesIO(TABLE), (way,))) == words


@pytest.mark.parametrize("way", ["title", "rows.words", "rows.critical", "rows.classes", "sources[id=nobody].title"])
def test_a_way_that_leads_to_no_text(way: str) -> None:
    """A key further down, a number, a mapping or another source is no text of the way."""
    assert list(table_words(BytesIO(TABLE), (way,))) == []


def test_an_empty_text_says_nothing() -> None:
    """Of two notes one is empty: the other alone is gathered, and every way is followed."""
    assert list(table_words(BytesIO(TABLE), ("rows.note", "name"))) == ["Work it in.", "Arable land"]


@pytest.mark.parametrize("pattern", TABLE_KEYS)
def test_every_table_is_there_and_has_texts(pattern: str) -> None:
    """No entry has outlived its tables, nor, of a single table, a way its key."""
    files = sorted(ROOT.glob(pattern))
    ways = [[way] for way in TABLE_KEYS[pattern]] if len(files) == 1 else [list(TABLE_KEYS[pattern])]
    for some in ways:
        assert [words for file in files for words in table_words(file.open("rb"), some)] != []


def test_names_of_analyses_are_gathered(found: set[str]) -> None:
    """What `analysis_name` may return, of methods and of analytes, and derived quantities."""
    names = {analysis_name(code) for code in (*all_codes(), *analytes())}
    assert names | {one.name for one in derived_codes().values()} <= found


def test_words_of_guidelines_are_gathered(found: set[str]) -> None:
    """Names, classes, what lines stand for, notes; of the law its uses and its caution."""
    sets = guideline_sets().values()
    rows = [row for one in sets for row in one.rows]
    words = {one.name for one in sets} | {one.words for row in rows for one in row.classes}
    words |= {row.basis for row in rows} | {row.note for row in rows}
    limits = phosphate_limits("GB", "NIR")
    words |= {one.words for one in limits} | {one.caution for one in limits}
    assert words - {""} <= found


def test_citations_are_not_gathered(found: set[str]) -> None:
    """A publication is cited as it is; that there is none is said."""
    sources = [source for one in guideline_sets().values() for source in one.sources]
    published = {source.author for source in sources if source.id != "memory"}
    assert published
    assert published & found == set()
    assert {"no publication was read", "common practice", "no source", "source not read"} <= found


def test_a_text_without_words_is_told() -> None:
    """So is one of which a form lacks."""
    catalog = Catalog(locale="es")
    catalog.add("said", "dicho")
    catalog.add("unsaid", "")
    catalog.add(("{count} core", "{count} cores"), ("{count} muestra", ""))
    assert [one.id for one in untranslated(catalog)] == ["unsaid", ("{count} core", "{count} cores")]
