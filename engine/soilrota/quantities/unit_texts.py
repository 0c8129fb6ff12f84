"""Reads a unit as a laboratory wrote it: the unit of the table, and the chemical form that stands with it."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from soilrota.quantities.refusals import Refusal, shown

_FILE = Path(__file__).with_name("units.yaml")
_INVISIBLE = re.compile("[\u200b-\u200f\u2060\ufeff]")
_MINUS = str.maketrans({"\u2212": "-", "\u2010": "-", "\u2011": "-", "\u2013": "-"})
_PER = re.compile(r"\bper\s+(?!cent)", re.IGNORECASE)
_POWER = re.compile(r"(100g|kg|g|hectare|ha|acre|ac|cm|ml|m|litre|l)-1$")
_CUBED = re.compile(r"(dm|cm|m)-3$")
_SHORT_FORM = 2


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit, and what the number is expressed as.

    Attributes:
        id: id in the table of units, for instance `mg/kg`.
        form: chemical form, for instance `P2O5`; empty where the text names none.
    """

    id: str
    form: str = ""

    def __str__(self) -> str:
        """Return the unit with its form.

        >>> str(Unit("mg/kg", "P2O5"))
        'mg/kg P2O5'
        """
        return f"{self.id} {self.form}".strip()


@cache
def unit_table() -> dict[str, Any]:
    """Return the shipped file's content: units, forms, analytes, conventions, limits."""
    content: dict[str, Any] = yaml.load(_FILE.read_text(encoding="utf-8"), Loader=yaml.CSafeLoader)
    return content


@cache
def unit_rows() -> dict[str, dict[str, Any]]:
    """Return the rows of the units by id: `id`, `kind`, `pint` (not of pH and index), `meaning`, `spellings`."""
    return {row["id"]: row for row in unit_table()["units"]}


def read_unit(text: str) -> Unit | Refusal:
    """Return the unit that a text names, with its chemical form where one stands with it.

    >>> read_unit("mg kg⁻¹"), read_unit("mg P₂O₅/100 g")
    (Unit(id='mg/kg', form=''), Unit(id='mg/100g', form='P2O5'))
    """
    plain = _plain(text)
    found = _spellings().get(_key(plain))
    if found is not None:
        return Unit(found)
    forms = list(_form_pattern().finditer(plain))
    if len(forms) > 1:
        return Refusal(
            f"unit {shown(text)} with {len(forms)} chemical forms", "one form", "name one form, as in mg/kg P2O5"
        )
    for match in forms:
        rest = plain[: match.start()] + " " + plain[match.end() :]
        found = _spellings().get(_key(_without_joints(rest)))
        if found is not None and " by " in unit_rows()[found]["kind"]:
            return Unit(found, _form_ids()[_form_key(match.group())])
    known = ", ".join(unit_rows())
    return Refusal(
        f"unit {shown(text)}, which is not known" if text.strip() else "no unit",
        f"one of {known}, with a chemical form or without",
        "write the unit in one of these ways, or add the spelling to the table of units",
    )


def _plain(text: str) -> str:
    """Return a text with compatibility signs made plain: superscripts, micro sign, minus signs, all spaces."""
    shown = unicodedata.normalize("NFKC", _INVISIBLE.sub("", text)).translate(_MINUS)
    return " ".join(shown.split())


def _key(plain: str) -> str:
    """Return what spellings are compared by."""
    short = re.sub(r"[\s.·∙⋅*^]", "", _PER.sub("/", plain)).casefold()
    if short[:1] + short[-1:] in {"()", "[]"}:
        short = short[1:-1]
    return _CUBED.sub(r"/\g<1>3", _POWER.sub(r"/\1", short))


def _without_joints(rest: str) -> str:
    """Return what is left of a unit when its form is taken out, without the words and signs that joined them."""
    unjoined = re.sub(r"\(\s*(?:as\s*)?\)|\[\s*\]|\bas\b|\bof\s*(?=/|$)", " ", rest)
    return unjoined.replace(" -", " ").replace("- ", " ").strip(" ,:;-_")


@cache
def _spellings() -> dict[str, str]:
    """Return unit ids by the key of every spelling."""
    return {_key(_plain(spelling)): row["id"] for row in unit_table()["units"] for spelling in row["spellings"]}


def _form_key(form: str) -> str:
    """Return what forms are compared by: `Mg` and `S` by their exact letters, longer ones by any."""
    return form if len(form) <= _SHORT_FORM else form.casefold()


@cache
def _form_ids() -> dict[str, str]:
    """Return form ids by their key."""
    return {_form_key(form): form for form in unit_table()["forms"]}


@cache
def _form_pattern() -> re.Pattern[str]:
    """Return what finds a chemical form in a unit, the longest first."""
    longest_first = sorted(unit_table()["forms"], key=len, reverse=True)
    ways = [re.escape(form) if len(form) <= _SHORT_FORM else f"(?i:{re.escape(form)})" for form in longest_first]
    return re.compile(rf"(?<!\w)(?:{'|'.join(ways)})(?!\w)(?!-\w)")
