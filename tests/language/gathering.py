"""Gathers every text that the engine says, and brings the catalogues up to date with it.

    sh .ci/with python tests/language/gathering.py        # what is missing, by language
    sh .ci/with python tests/language/gathering.py es     # brings es.po up to date (a new language: its tag)

Texts stand in the code (`say`, `say_as`, `say_count`, `counted`, `marked`, `phrase`), in the templates (the same
names) and in the tables of the engine, where `TABLE_KEYS` leads.
"""

from __future__ import annotations

import sys
from collections.abc import Iterable, Iterator
from functools import cache
from pathlib import Path
from typing import Any, BinaryIO

import yaml
from babel import Locale
from babel.messages.catalog import Catalog, Message
from babel.messages.extract import extract_from_dir
from babel.messages.pofile import read_po, write_po

ROOT = Path(__file__).resolve().parents[2]
CATALOGUES = ROOT / "engine" / "soilrota" / "language"
KEYWORDS: dict[str, Any] = {
    "say": None,
    "say_as": ((1, "c"), 2),
    "say_count": (1, 2),
    "counted": (2, 3),
    "count_forms": (1, 2),
    "marked": None,
    "marked_as": ((1, "c"), 2),
    "phrase": None,
}
#: Folder below the project, and how the texts of its files are found.
FOLDERS = {
    "engine/soilrota": [("cli/**.py", "ignore"), ("**.py", "python")],
    "report_templates": [("**.jinja", "jinja2.ext:babel_extract")],
}
#: What stands at the head of a catalogue: nothing that changes by itself.
HEAD = """# The words of soilrota in {name}. Brought up to date by tests/language/gathering.py.
msgid ""
msgstr ""
"Language: {tag}\\n"
"Plural-Forms: {plural}\\n"
"MIME-Version: 1.0\\n"
"Content-Type: text/plain; charset=utf-8\\n"
"Content-Transfer-Encoding: 8bit\\n"

"""
_GUIDELINES = "engine/soilrota/guidelines"
#: What a source says that nobody published, or that was not read; titles of others stay as they are.
_UNREAD = (
    *(f"sources[id={name}].{key}" for name in ("practice", "house", "memory") for key in ("author", "title", "where")),
    *(f"sources[author=source not read].{key}" for key in ("author", "title", "where")),
    "sources.practice.title",
    "sources.memory.title",
    "sources.sum.title",
)
#: Tables of the engine with words that people read, and the ways to these (see `table_words`). What is printed of an id
#: stands in `soilrota.documents.id_words`.
TABLE_KEYS: dict[str, tuple[str, ...]] = {
    "engine/soilrota/quantities/glossary.yaml": ("analytes.name", "analytes.methods.name"),
    f"{_GUIDELINES}/*.yaml": _UNREAD,
    f"{_GUIDELINES}/sets/*.yaml": ("name", "rows.classes.words", "rows.basis", "rows.note", *_UNREAD),
    f"{_GUIDELINES}/derived_codes.yaml": ("codes.name",),
    f"{_GUIDELINES}/acid_balance.yaml": ("nitrogen.words",),
    f"{_GUIDELINES}/phosphate_limits.yaml": ("countries.limits.words", "countries.caution"),
    f"{_GUIDELINES}/field_work.yaml": ("source",),
}


@cache
def gathered() -> Catalog:
    """Return every text that the engine says; nobody changes it."""
    catalog = Catalog(project="soilrota", charset="utf-8")
    for folder, methods in FOLDERS.items():
        for name, _, words, comments, use in extract_from_dir(ROOT / folder, methods, keywords=KEYWORDS):
            catalog.add(words, locations=[(f"{folder}/{name}", 0)], auto_comments=comments, context=use)
    for pattern, ways in TABLE_KEYS.items():
        for file in sorted(ROOT.glob(pattern)):
            for words in table_words(file.open("rb"), ways):
                catalog.add(words, locations=[(file.relative_to(ROOT).as_posix(), 0)])
    return catalog


def table_words(file: BinaryIO, ways: Iterable[str]) -> Iterator[str]:
    """Yield the texts of a table to which ways lead.

    Args:
        file: the table; it is closed.
        ways: keys from the top of the table, joined by dots. Lists are passed through; `sources[id=memory]` goes on in
            those alone that hold such a text under `id`.
    """
    with file:
        content = yaml.safe_load(file)
    for way in ways:
        yield from _at(content, way.split("."))


def _at(value: Any, steps: list[str]) -> Iterator[str]:
    """Yield the texts to which steps lead; an empty one says nothing."""
    if isinstance(value, list):
        for inner in value:
            yield from _at(inner, steps)
    elif not steps:
        if isinstance(value, str) and value:
            yield value
    elif isinstance(value, dict):
        key, _, condition = steps[0].rstrip("]").partition("[")
        inner = value.get(key, [])
        kept = [one for one in (inner if isinstance(inner, list) else [inner]) if _holds(one, condition)]
        yield from _at(kept, steps[1:])


def _holds(value: Any, condition: str) -> bool:
    """Return whether a mapping holds a text under a key, written `key=text`; where nothing is asked, all will do."""
    key, _, wanted = condition.partition("=")
    return not condition or (isinstance(value, dict) and value.get(key) == wanted)


def texts(catalog: Catalog) -> dict[tuple[str, str], Message]:
    """Return the messages of a catalogue by use and (first) text, its head apart."""
    return {
        (message.context or "", message.id if isinstance(message.id, str) else message.id[0]): message
        for message in catalog
        if message.id
    }


def read(language: str) -> Catalog:
    """Return the catalogue of a language as it stands."""
    with (CATALOGUES / f"{language}.po").open("rb") as file:
        return read_po(file, locale=language)


def untranslated(catalog: Catalog) -> list[Message]:
    """Return the messages of a catalogue that lack words, or a form of them."""

    def whole(said: Any) -> bool:
        return all(said) if isinstance(said, list | tuple) else bool(said)

    return [message for message in texts(catalog).values() if not whole(message.string) or message.fuzzy]


def brought_up_to_date(language: str) -> Catalog:
    """Return a language's catalogue with exactly the texts that the engine says now; what was said stays."""
    file = CATALOGUES / f"{language}.po"
    old = texts(read(language)) if file.is_file() else {}
    catalog = Catalog(locale=language, project="soilrota", charset="utf-8")
    for key, message in texts(gathered()).items():
        said = old[key].string if key in old and type(old[key].id) is type(message.id) else ""
        catalog.add(message.id, said, locations=message.locations, context=message.context)
    return catalog


def written(language: str) -> Catalog:
    """Write a language's catalogue up to date and return it."""
    catalog = brought_up_to_date(language)
    head = HEAD.format(name=Locale.parse(language).english_name, tag=language, plural=catalog.plural_forms)
    with (CATALOGUES / f"{language}.po").open("wb") as file:
        file.write(head.encode())
        write_po(file, catalog, width=120, sort_by_file=True, include_lineno=False, omit_header=True)
    return catalog


if __name__ == "__main__":
    for tag in sys.argv[1:]:
        print(f"{tag}: {len(untranslated(written(tag)))} texts without words")
    if not sys.argv[1:]:
        for path in sorted(CATALOGUES.glob("*.po")):
            for lacking in untranslated(brought_up_to_date(path.stem)):
                print(f"{path.stem}: {lacking.id!r} ({', '.join(name for name, _ in lacking.locations)})")
