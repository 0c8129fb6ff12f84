"""Looks analytes, methods and units up in the shipped glossary."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from soilrota.language import say

_FILE = Path(__file__).with_name("glossary.yaml")
#: Who gave a method its name, and the most letters of a chemical symbol.
_PEOPLE = frozenset({"Bray", "Colwell", "Kjeldahl", "Mehlich", "Morgan", "Olsen", "Sikora", "Walkley"})
_SYMBOL = 2


@dataclass(frozen=True, slots=True)
class Method:
    """A way of measuring an analyte.

    Attributes:
        id: its id under the analyte.
        name: what is printed, for instance `Colwell P`, in English.
        unit: unit of its values.
        code: published code of the method; may be empty.
        is_unverified: whether the code was not read in print.
        decimals: decimals that are printed [-].
        low, high: hard limits, in the unit.
    """

    id: str
    name: str
    unit: str
    code: str
    is_unverified: bool
    decimals: int
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Analyte:
    """Something that a laboratory measures.

    Attributes:
        id: its id.
        name: what is printed, in English.
        symbol: short sign.
        methods: by id.
        holding_days: longest time from sampling to receipt [d]; None where it keeps.
    """

    id: str
    name: str
    symbol: str
    methods: dict[str, Method]
    holding_days: int | None


@cache
def _content() -> dict[str, Any]:
    """Return the shipped file's content."""
    content: dict[str, Any] = yaml.load(_FILE.read_text(encoding="utf-8"), Loader=yaml.CSafeLoader)
    return content


@cache
def analytes() -> dict[str, Analyte]:
    """Return all analytes by id."""
    return {row["id"]: _analyte(row) for row in _content()["analytes"]}


def _analyte(row: dict[str, Any]) -> Analyte:
    """Return one analyte of the file."""
    methods = {
        entry["id"]: Method(
            id=entry["id"],
            name=entry["name"],
            unit=entry["unit"],
            code=entry.get("code", ""),
            is_unverified=entry.get("status") == "unverified",
            decimals=entry.get("decimals", row["decimals"]),
            low=float(entry.get("low", row["low"])),
            high=float(entry.get("high", row["high"])),
        )
        for entry in row["methods"]
    }
    return Analyte(row["id"], row["name"], row["symbol"], methods, row.get("holding_days"))


def analyte(analyte_id: str) -> Analyte | None:
    """Return an analyte; None where the glossary has none of that id."""
    return analytes().get(analyte_id)


def method(analyte_id: str, method_id: str) -> Method | None:
    """Return a method of an analyte; None where the glossary has none such."""
    found = analyte(analyte_id)
    return None if found is None else found.methods.get(method_id)


def split_code(code: str) -> tuple[str, str]:
    """Return analyte and method of an analysis code.

    >>> split_code("ph.cacl2")
    ('ph', 'cacl2')
    """
    analyte_id, _, method_id = code.partition(".")
    return analyte_id, method_id


def analysis_name(code: str) -> str:
    """Return the printed name of an analysis code, in the language that is spoken.

    It is the method's name; of an analyte alone the analyte's; the code itself where it is not known.

    >>> analysis_name("ph.cacl2"), analysis_name("ph"), analysis_name("phosphorus.olsen")
    ('pH (CaCl2)', 'pH', 'Olsen P')
    """
    analyte_id, method_id = split_code(code)
    found = method(analyte_id, method_id)
    if found is not None:
        return say(found.name)
    known = analyte(analyte_id)
    return code if known is None else say(known.name)


def analysis_inside(code: str) -> str:
    """Return the printed name of an analysis code as it stands inside a sentence; people and symbols keep a capital.

    >>> [analysis_inside(code) for code in ("organic-carbon.walkley-black", "phosphorus.colwell", "ph", "magnesium")]
    ['organic carbon (Walkley-Black)', 'Colwell P', 'pH', 'magnesium']
    """
    name = analysis_name(code)
    word = re.split(r"[\W\d_]", name, maxsplit=1)[0]
    is_kept = len(word) <= _SYMBOL or word in _PEOPLE or not word[1:].islower()
    return name if is_kept else f"{name[:1].lower()}{name[1:]}"


@cache
def all_codes() -> tuple[str, ...]:
    """Return every analysis code, analyte.method, in the order of the glossary."""
    return tuple(f"{found.id}.{way}" for found in analytes().values() for way in found.methods)


def unit_name(unit: str) -> str:
    """Return a unit in plain words.

    Raises:
        KeyError: the glossary has no such unit.
    """
    return str(_content()["units"][unit])


def format_value(analyte_id: str, method_id: str, value: float) -> str:
    """Return a value with the decimals of its method, halves rounded away from nought.

    >>> format_value("ph", "cacl2", 5.25), format_value("phosphorus", "colwell", 27.5)
    ('5.3', '28')
    """
    found = method(analyte_id, method_id)
    decimals = 2 if found is None else found.decimals
    return str(Decimal(str(value)).quantize(Decimal(1).scaleb(-decimals), rounding=ROUND_HALF_UP))
