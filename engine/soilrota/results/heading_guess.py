"""What a heading probably means: a fact, or an analysis with its unit. Only a draft for a person is made of it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from soilrota.quantities import Analyte, Method, Refusal, analytes, factor, read_unit
from soilrota.quantities.chemistry import own_form
from soilrota.quantities.unit_texts import unit_table

_FILE = Path(__file__).with_name("drafting.yaml")
_WORD = re.compile("[a-z0-9]+")
_BRACKETS = re.compile(r"[(\[]((?:[^()\[\]]|\([^()]*\))+)[)\]]")
_LONGEST_UNIT = 3
_SHORTEST_BEGINNING = 3
#: Units that are the name of what they measure: not split from a heading.
_NAMES = frozenset({"pH", "index"})


@dataclass(frozen=True, slots=True)
class Guess:
    """What a heading probably means.

    Attributes:
        code: the nearest analysis; empty where the heading names no analyte.
        is_sure: whether the heading names analyte and method, and no other analysis fits as well.
        unit: the unit that stands in the heading, with the chemical form; empty where none does.
    """

    code: str = ""
    is_sure: bool = False
    unit: str = ""


def guess_role(heading: str) -> str:
    """Return which fact a heading or a label names; empty where it names none.

    >>> guess_role("Sample No."), guess_role("Depth (cm)"), guess_role("P Colwell")
    ('sample', 'depth', '')
    """
    return _roles().get(" ".join(_words(heading)), "")


def guess_analysis(heading: str, unit: str = "") -> Guess:
    """Return which analysis a heading, or a name of an analysis, probably means.

    Args:
        heading: the heading; with one value a row the name and its method.
        unit: the unit where it stands elsewhere in the file.

    >>> guess_analysis("Olsen P (mg/l)")
    Guess(code='phosphorus.olsen-by-volume', is_sure=True, unit='mg/l')
    >>> guess_analysis("K2O mg/100g")
    Guess(code='potassium.colwell', is_sure=False, unit='mg/100g K2O')
    """
    name, in_heading = _split_unit(heading.replace("_", " "))
    words = _words(name)
    stated = unit or in_heading
    named = sorted(
        ((weight, found.id) for found in analytes().values() if (weight := _weight(found, words))), reverse=True
    )
    if not named:
        return Guess(unit=stated)
    found = analytes()[named[0][1]]
    unit_text = _with_form(stated, found, words)
    ranked = sorted(_ranked(found, words, unit_text), key=lambda pair: pair[0], reverse=True)
    if not ranked:
        return Guess(f"{found.id}.{next(iter(found.methods))}", is_sure=False, unit=unit_text)
    (best, method_id), *others = ranked
    only_analyte = len(named) == 1 or named[0][0] > named[1][0]
    is_sure = only_analyte and best[0] > 0 and not any(rank == best for rank, _ in others)
    return Guess(f"{found.id}.{method_id}", is_sure, unit_text)


def _split_unit(heading: str) -> tuple[str, str]:
    """Return a heading without its unit, and the unit: in brackets, or the last words."""
    for match in _BRACKETS.finditer(heading):
        if _is_unit(match[1]):
            return heading[: match.start()] + " " + heading[match.end() :], match[1].strip()
    words = heading.split()
    for count in range(1, min(_LONGEST_UNIT, len(words) - 1) + 1):
        tail = " ".join(words[-count:])
        if _is_unit(tail):
            return " ".join(words[:-count]), tail
    return heading, ""


def _is_unit(text: str) -> bool:
    """Return whether a text is a unit and nothing else."""
    found = read_unit(text)
    return not isinstance(found, Refusal) and found.id not in _NAMES


def _weight(found: Analyte, words: list[str]) -> int:
    """Return how strongly words name an analyte [-]: a longer name more than a short one, 0 where they do not."""
    names = [_words(found.name), _words(found.symbol), *(_words(name) for name in _other_names(found.id))]
    forms = [form for form in _forms(found.id) if form in words]
    lengths = [sum(map(len, name)) + len(name) for name in names if name and _stands_in(name, words)]
    return max([*lengths, *(len(form) for form in forms)], default=0)


def _stands_in(name: list[str], words: list[str]) -> bool:
    """Return whether the words of a name stand together, in order; a word may be cut short to three letters."""
    spans = (words[i : i + len(name)] for i in range(len(words) - len(name) + 1))
    return any(all(map(_is_word, span, name)) for span in spans)


def _is_word(written: str, word: str) -> bool:
    """Return whether a written word is a word or its beginning."""
    return written == word or (len(written) >= _SHORTEST_BEGINNING and word.startswith(written))


def _ranked(found: Analyte, words: list[str], unit: str) -> Iterator[tuple[tuple[int, float], str]]:
    """Yield how well words fit each method of an analyte whose unit can be reached: words in common, their share."""
    known = set(_words(found.name)) | set(_words(found.symbol)) | set(_content()["empty_words"])
    for method in found.methods.values():
        if unit and isinstance(factor(unit, method.unit, found.id), Refusal):
            continue
        wanted = _method_words(method) - known
        common = {word for word in wanted if any(_is_word(written, word) for written in words)}
        says = any(not word.isdigit() for word in common) or len(common) > 1
        by_code = bool(method.code) and method.code.casefold() in words
        count = len(common) * says + 2 * by_code
        yield (count, count / max(len(wanted), 1)), method.id


def _method_words(method: Method) -> set[str]:
    """Return the words that name a method."""
    return set(_words(method.id)) | set(_words(method.name))


def _with_form(unit: str, found: Analyte, words: list[str]) -> str:
    """Return a unit with the chemical form that the heading names, where it is not the analyte's own."""
    read = read_unit(unit)
    if isinstance(read, Refusal) or read.form:
        return unit
    named = [form for lower, form in _forms(found.id).items() if lower in words and form != own_form(found.id)]
    return f"{unit} {named[0]}" if named else unit


def _forms(analyte_id: str) -> dict[str, str]:
    """Return the chemical forms of an analyte that are one word, by that word in small letters."""
    row = unit_table()["analytes"].get(analyte_id, {"forms": ()})
    return {form.casefold(): form for form in row["forms"] if form.isalnum() and len(form) > 1}


def _other_names(analyte_id: str) -> tuple[str, ...]:
    """Return other names of an analyte."""
    return tuple(_content()["analytes"].get(analyte_id, ()))


def _words(text: str) -> list[str]:
    """Return the words of a text in small letters."""
    return _WORD.findall(text.casefold())


@cache
def _roles() -> dict[str, str]:
    """Return facts by the words that name them."""
    return {" ".join(_words(name)): role for role, names in _content()["roles"].items() for name in names}


@cache
def _content() -> dict[str, Any]:
    """Return the shipped file's content."""
    content: dict[str, Any] = yaml.load(_FILE.read_text(encoding="utf-8"), Loader=yaml.CSafeLoader)
    return content
