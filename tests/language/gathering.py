"""Gathers every text that the engine says, and brings the catalogues up to date with it.

    sh .ci/with python tests/language/gathering.py        # what is missing, by language
    sh .ci/with python tests/language/gathering.py es     # brings es.po up to date (a new language: its tag)

Texts stand in the code (`say`, `say_as`, `say_count`, `counted`, `marked`, `phrase`), in the templates (the same
names) and in the tables of the engine, under the keys of `TABLE_KEYS`.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
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
#: Tables of the engine with words that people read, and the keys under which these stand.
TABLE_KEYS: dict[str, tuple[str, ...]] = {}


def gathered() -> Catalog:
    """Return every text that the engine says."""
    catalog = Catalog(project="soilrota", charset="utf-8")
    for folder, methods in FOLDERS.items():
        for name, _, words, comments, use in extract_from_dir(ROOT / folder, methods, keywords=KEYWORDS):
            catalog.add(words, locations=[(f"{folder}/{name}", 0)], auto_comments=comments, context=use)
    for pattern, keys in TABLE_KEYS.items():
        for file in sorted(ROOT.glob(pattern)):
            for words in table_words(file.open("rb"), keys):
                catalog.add(words, locations=[(file.relative_to(ROOT).as_posix(), 0)])
    return catalog


def table_words(file: BinaryIO, keys: tuple[str, ...]) -> Iterator[str]:
    """Yield the texts that stand under some keys anywhere in a table, lists of them included."""

    def under(value: Any, *, wanted: bool) -> Iterator[str]:
        if isinstance(value, dict):
            for key, inner in value.items():
                yield from under(inner, wanted=key in keys)
        elif isinstance(value, list):
            for inner in value:
                yield from under(inner, wanted=wanted)
        elif wanted and isinstance(value, str):
            yield value

    with file:
        yield from under(yaml.safe_load(file), wanted=False)


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
