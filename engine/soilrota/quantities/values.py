"""Reads one laboratory cell as a value with its censoring; what can be read in two ways is refused, never guessed.

- `<0.5`, `≤ 0.5`: below what the laboratory reports, qualifier `<`; `>400`, `≥ 400`: qualifier `>`;
- `–`, a blank, `n/a`: nothing was measured; `<LOD`, `not detected`: below a limit that the file must give elsewhere;
- `n.d.`: whichever the `NumberForm` declares; refused where it declares nothing;
- digits: by the decimal and the group sign that the `NumberForm` declares. Without one, a text is read only if every
  form that can read it gives the same number: `12.5` and `1.234,5` are plain, `1,234` is not;
- a unit behind the number is read and kept; anything else behind it is refused.

The words stand in `cells.yaml`.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from itertools import combinations
from pathlib import Path
from typing import Any, Literal

import yaml

from soilrota.quantities.refusals import Refusal, shown
from soilrota.quantities.unit_texts import Unit, read_unit

_FILE = Path(__file__).with_name("cells.yaml")
_INVISIBLE = re.compile("[\u200b\u200e\u200f\u2060\ufeff]")
_THIN = "\u2060"  # stands for a space that only typography puts between digits; taken out of every text before
_THIN_SPACES = re.compile("(?<=[0-9])[\u00a0\u2007\u2009\u202f](?=[0-9]{3})")
_SUPERSCRIPTS = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁻⁺", "0123456789-+")
_RAISED = re.compile("(?<=10)[⁻⁺]?[⁰¹²³⁴⁵⁶⁷⁸⁹]+")
_NUMBER = re.compile(
    rf"(?P<sign>[+-]?)(?P<digits>[0-9.,'’ {_THIN}]*[0-9.,])"
    r"(?P<power>[eE][+-]?[0-9]+(?![0-9A-Za-z.,])| ?[x×*·] ?10 ?\^ ?\(?[+-]?[0-9]+\)?)?"
    r"(?P<rest>.*)"
)
_MONTH = "(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*"
_DATE = re.compile(
    r"[0-9]{1,4}([-/.])[0-9]{1,2}\1[0-9]{1,4}"
    rf"|[0-9]{{1,2}}[- ]?{_MONTH}([- ][0-9]{{2,4}})?|{_MONTH}[- ][0-9]{{1,4}}",
    re.IGNORECASE,
)

DecimalSign = Literal[".", ","]
GroupSign = Literal["", ",", ".", "'", " "]
NdMeaning = Literal["not measured", "below limit"]
Qualifier = Literal["", "<", ">"]
Meaning = Literal["not measured", "below limit", "above limit"]


@dataclass(frozen=True, slots=True)
class NumberForm:
    """How a laboratory writes numbers.

    Attributes:
        decimal: the decimal sign.
        group: the sign between groups of three digits; empty where there is none. A space stands for every kind of
            space, `'` for both kinds of apostrophe.
        nd: what `n.d.` means; None where that is not known.

    Raises:
        ValueError: decimal and group are one sign.
    """

    decimal: DecimalSign
    group: GroupSign = ""
    nd: NdMeaning | None = None

    def __post_init__(self) -> None:
        if self.decimal == self.group:
            raise ValueError(f"'{self.group}' cannot be both the decimal and the group sign")


@dataclass(frozen=True, slots=True)
class Limits:
    """What the laboratory can tell, in the unit of the column; None where it is not given.

    Attributes:
        low: reporting limit [unit of the column].
        high: end of the range [unit of the column].
    """

    low: float | None = None
    high: float | None = None


@dataclass(frozen=True, slots=True)
class Value:
    """A number as it was reported.

    Attributes:
        number: the number [`unit`, or the unit of the column].
        qualifier: empty, `<` (below the number) or `>` (above it).
        unit: the unit that stood behind the number; None where none stood there.
    """

    number: float
    qualifier: Qualifier = ""
    unit: Unit | None = None


@dataclass(frozen=True, slots=True)
class NoNumber:
    """A cell that rightly holds no number.

    Attributes:
        meaning: why not.
    """

    meaning: Meaning


def read_value(
    text: str, form: NumberForm | None = None, *, limits: Limits | None = None
) -> Value | NoNumber | Refusal:
    """Return what a cell says; a reason where it says nothing certain.

    Args:
        text: the cell.
        form: how the laboratory writes numbers; None where nobody declared it.
        limits: what the laboratory can tell, for words such as `<LOD`.

    >>> read_value("< 0,5 mg/kg", NumberForm(","))
    Value(number=0.5, qualifier='<', unit=Unit(id='mg/kg', form=''))
    >>> read_value("1.234,5").number, read_value("–").meaning
    (1234.5, 'not measured')
    """
    plain = _plain(text)
    known = _words().get(_word_key(plain))
    if known is not None:
        return _of_word(text, known, form, limits or Limits())
    if (why := _refused_words().get(plain.casefold())) is not None:
        return _refuse(text, "a number", "ask the laboratory for the result, or empty the cell", why)
    qualifier, rest = _split_qualifier(plain)
    return _of_number(text, qualifier, rest, form)


def _of_word(text: str, known: str, form: NumberForm | None, limits: Limits) -> Value | NoNumber | Refusal:
    """Return what a known word means."""
    meaning: Any = known
    if known == "nd":
        if form is None or form.nd is None:
            mend = "declare what it means in the files of this laboratory"
            return _refuse(text, "one meaning", mend, "either not detected or not determined")
        meaning = form.nd
    if meaning == "below limit" and limits.low is not None:
        return Value(limits.low, "<")
    if meaning == "above limit" and limits.high is not None:
        return Value(limits.high, ">")
    return NoNumber(meaning)


def _of_number(text: str, qualifier: Qualifier, rest: str, form: NumberForm | None) -> Value | Refusal:
    """Return the number of a cell that is not a word."""
    if _DATE.fullmatch(rest):
        return _refuse(
            text, "a number", "export the file with this column as text", "a date, as spreadsheets make them"
        )
    match = _NUMBER.fullmatch(rest)
    if match is None or not re.search("[0-9]", match["digits"]):
        return _refuse(text, "a number", "correct the cell, or ask the laboratory", "no number")
    number = _one_number(text, match["sign"], match["digits"], match["power"] or "", form)
    if isinstance(number, Refusal):
        return number
    if qualifier == "<" and number <= 0:
        return _refuse(text, "a limit above nought", "ask the laboratory for its reporting limit", "below nothing")
    if not match["rest"].strip():
        return Value(number, qualifier)
    unit = read_unit(match["rest"])
    if isinstance(unit, Refusal):
        mend = "take it out of the cell, or ask the laboratory what it means"
        return _refuse(text, "nothing but a unit behind the number", mend, f"{shown(match['rest'])} behind a number")
    return Value(number, qualifier, unit)


def _one_number(text: str, sign: str, digits: str, power: str, form: NumberForm | None) -> float | Refusal:
    """Return the one number that digits can mean."""
    forms = (form,) if form is not None else () if " " in digits else _all_forms()
    exponent = re.sub(r"^[eE]|^ ?[x×*·] ?10 ?\^|[ ()]", "", power) or "0"
    plain = sorted({found for way in forms if (found := _digits(digits, way)) is not None})
    numbers = {float(f"{sign}{found}e{exponent}") for found in plain}
    if not numbers:
        if form is None:
            return _refuse(text, "a number", "correct the cell, or ask the laboratory", "not written as a number is")
        group = f" and '{form.group}' between groups of three" if form.group else " and no sign between groups"
        expected = f"a number with '{form.decimal}' as its decimal sign{group}"
        return _refuse(text, expected, "correct the cell, or the declared form of the laboratory", "another form")
    if len(numbers) > 1:
        readings = " or ".join(f"{number:.15g}" for number in sorted(numbers))
        return _refuse(
            text, "one reading", "declare the laboratory's decimal sign and group sign", f"either {readings}"
        )
    number = numbers.pop() + 0.0  # no minus nought
    if math.isinf(number):
        return _refuse(text, "a finite number", "correct the power of ten", "too large a number")
    return number


def _digits(digits: str, form: NumberForm) -> str | None:
    """Return digits with a point as decimal sign and no groups; None where the form does not write so."""
    digits = digits.replace("’", "'").replace(_THIN, " ")
    whole, separator, decimals = digits.partition(form.decimal)
    if separator and not re.fullmatch("[0-9]+", decimals):
        return None
    grouped = form.group and re.fullmatch(rf"[1-9][0-9]{{0,2}}({re.escape(form.group)}[0-9]{{3}})+", whole)
    if grouped:
        whole = whole.replace(form.group, "")
    elif not re.fullmatch("[0-9]*" if separator else "[0-9]+", whole):
        return None
    return f"{whole or '0'}.{decimals or '0'}"


def find_form(cells: Iterable[str], nd: NdMeaning | None = None) -> NumberForm | Refusal:
    """Return the one way in which all numbers of a column can be written; a reason where none or more than one can.

    Cells that are no number in any form (words, blanks, faults) say nothing. A group sign is declared only where a cell
    needs it.

    Args:
        cells: the cells of the column.
        nd: what `n.d.` means in the column, for the form that is returned.

    >>> find_form(["1.234", "12,5"])
    NumberForm(decimal=',', group='.', nd=None)
    >>> find_form(["1,234", "2,345"]).found
    'a column that can be read with either decimal sign'
    """
    # One cell stands for all that the same forms can read.
    seen = {ways: cell for cell in dict.fromkeys(cells) if (ways := _forms_of(cell))}
    common = [form for form in _all_forms() if all(form in ways for ways in seen)]
    if not common:
        return _conflict(seen)
    if len({form.decimal for form in common}) > 1:
        has_sign = any(set(".,") & set(cell) for cell in seen.values())
        found = "a column that can be read with either decimal sign" if has_sign else "a column without a decimal sign"
        return Refusal(found, "a cell that only one sign can explain", "declare the laboratory's decimal sign")
    return NumberForm(common[0].decimal, common[0].group, nd)


def _forms_of(cell: str) -> frozenset[NumberForm]:
    """Return the forms in which a cell is a number."""
    return frozenset(form for form in _all_forms() if isinstance(read_value(cell, form), Value))


def _conflict(seen: dict[frozenset[NumberForm], str]) -> Refusal:
    """Return that no form reads all cells, with two cells that show it, or as many as there are kinds."""
    pairs = ([cell, other] for (a, cell), (b, other) in combinations(seen.items(), 2) if not a & b)
    cells = next(pairs, list(seen.values()))
    found = "a column with " + " and ".join(shown(cell) for cell in cells)
    mend = "correct the cells that are not written as the laboratory writes numbers"
    return Refusal(found, "one way of writing numbers in a column", mend)


@cache
def _all_forms() -> tuple[NumberForm, ...]:
    """Return every way of writing numbers, those without groups first."""
    groups: tuple[GroupSign, ...] = ("", ",", ".", "'", " ")
    decimals: tuple[DecimalSign, ...] = (".", ",")
    return tuple(NumberForm(decimal, group) for group in groups for decimal in decimals if decimal != group)


def _plain(text: str) -> str:
    """Return a cell with plain minus signs and spaces, and powers of ten as `10^3`; nothing else is changed."""
    raised_plain = _RAISED.sub(lambda raised: "^" + raised.group().translate(_SUPERSCRIPTS), _INVISIBLE.sub("", text))
    spaced = " ".join(_THIN_SPACES.sub(_THIN, raised_plain).split())
    return re.sub(rf"[{re.escape(''.join(_content()['minus']))}]", "-", spaced)


def _split_qualifier(plain: str) -> tuple[Qualifier, str]:
    """Return the qualifier that a cell begins with, and the rest."""
    for spelling, qualifier in _qualifiers():
        if plain.casefold().startswith(spelling):
            return qualifier, plain[len(spelling) :].strip()
    return "", plain


def _word_key(plain: str) -> str:
    """Return what words are compared by."""
    key = re.sub("([<>]) ", r"\1", plain.casefold())
    return key.rstrip(". ") if re.search("[a-z]", key) else key


@cache
def _content() -> dict[str, Any]:
    """Return the shipped file's content."""
    content: dict[str, Any] = yaml.load(_FILE.read_text(encoding="utf-8"), Loader=yaml.CSafeLoader)
    return content


@cache
def _words() -> dict[str, str]:
    """Return what words mean, by their key."""
    return {_word_key(_plain(word)): meaning for meaning, words in _content()["words"].items() for word in words}


@cache
def _refused_words() -> dict[str, str]:
    """Return why words are refused, by the word."""
    return {word: why for why, words in _content()["refused"].items() for word in words}


@cache
def _qualifiers() -> tuple[tuple[str, Qualifier], ...]:
    """Return spellings of the qualifiers with their meaning, the longest first."""
    pairs = [(spelling, sign) for sign, spellings in _content()["qualifiers"].items() for spelling in spellings]
    return tuple(sorted(pairs, key=lambda pair: -len(pair[0])))


def _refuse(text: str, expected: str, mend: str, why: str) -> Refusal:
    """Return that a cell is refused."""
    return Refusal(f"{shown(text)}: {why}", expected, mend)
