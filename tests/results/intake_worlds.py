"""Rows, bags and notes made by hand and at random, for the tests of laboratory intake."""

from __future__ import annotations

import os
from dataclasses import replace
from datetime import date, timedelta
from random import Random

from soilrota.bag_ids import bag_id
from soilrota.model.field_pack import Bag
from soilrota.model.intake import ClientBags, MatchedRow, ReportedRow, ReportedValue
from soilrota.model.practice import CheckBag
from soilrota.model.samples import FieldNote
from soilrota.problems import Place

#: Random worlds held against the oracles.
WORLDS = 20_000 if os.environ.get("SOILROTA_LONG") == "1" else 600
TAKEN = date(2027, 2, 10)
NIGHT = date(2027, 3, 10)
SEASON = "2027-01-20"
A, B, C = (bag_id(number) for number in (412, 413, 500))
FILE = "lab.csv"


def bag(id_: str, zone: str = "flat", **changes: object) -> Bag:
    """Return a bag of the topsoil of a zone."""
    return replace(Bag(id_, "home", zone, "topsoil", SEASON, 0, 10), **changes)


def note(id_: str, zone: str = "flat", **changes: object) -> FieldNote:
    """Return a note of the topsoil of a zone."""
    plain = FieldNote(TAKEN, "home", zone, "topsoil", 0, 10, 25, "moist", "Jo", id_, Place("field_notes.csv", 2))
    return replace(plain, **changes)


def value(analyte: str = "phosphorus", number: float = 31.0, **changes: object) -> ReportedValue:
    """Return a reported value."""
    method, unit = {"phosphorus": ("colwell", "mg/kg"), "ph": ("cacl2", "pH"), "potassium": ("colwell", "mg/kg")}[
        analyte
    ]
    plain = ReportedValue(analyte, method, "", number, unit, f"{number:g} {unit}", Place(FILE, 2, 5))
    return replace(plain, **changes)


def row(sample: str, number: int = 2, **changes: object) -> ReportedRow:
    """Return a row as it should be."""
    plain = ReportedRow(
        number=number, origin="", cells=(sample, "31"), sample=sample, report="NB-24117", issue=None, sampled=None,
        received=date(2027, 2, 15), reported=date(2027, 2, 27), depth=None, values=(value(),),
        place=Place(FILE, number, 1),
    )  # fmt: skip
    return replace(plain, **changes)


def client(*held: Bag | FieldNote, name: str = "anvil", **changes: object) -> ClientBags:
    """Return the bags and notes of a client."""
    bags = tuple(one for one in held if isinstance(one, Bag))
    notes = tuple(one for one in held if isinstance(one, FieldNote))
    return replace(ClientBags(name, bags, notes), **changes)


def check(id_: str) -> CheckBag:
    """Return a blind check sample."""
    return CheckBag(id_, "clay-stock", "north-bench", date(2027, 2, 12), Place("practice.yaml", 40))


def matched(sample: str, zone: str = "flat", **changes: object) -> MatchedRow:
    """Return a matched row."""
    return MatchedRow(row(sample, **changes), "anvil", "home", zone, "topsoil", sample, 0, 10, TAKEN)


def slip(random: Random, id_: str) -> str:
    """Return an id with one character changed, or as people write it otherwise, or as it is."""
    kind = random.randrange(9)
    if kind == 0:
        at = random.choice([place for place, one in enumerate(id_) if one.isalnum()])
        return id_[:at] + random.choice("0123456789ABCX") + id_[at + 1 :]
    return {1: id_.lower(), 2: id_.replace("-", " "), 3: f" {id_} ", 4: id_.replace("-", "–")}.get(kind, id_)


def world(random: Random) -> tuple[list[ReportedRow], list[ClientBags], list[CheckBag]]:
    """Return a small random file with the bags that it may be about: few ids, so that everything meets."""
    ids = [A, B, C, "K6-0311", "K6-0312", "A0010-C"]
    held: dict[str, list[Bag | FieldNote]] = {"anvil": [], "cobb": []}
    for _ in range(random.randrange(2, 6)):
        one = bag(
            random.choice(ids[:3]),
            random.choice(["flat"] * 5 + ["hill"]),
            top_cm=random.choice([0, 0, 10]),
            bottom_cm=30,
        )
        if not any(isinstance(other, Bag) and other.id == one.id for some in held.values() for other in some):
            held[random.choice(["anvil"] * 5 + ["cobb"])].append(one)
    for line in range(random.randrange(2, 7)):
        one = note(
            random.choice(ids), random.choice(["flat"] * 9 + ["hill"]), bottom_cm=30,
            day=TAKEN + timedelta(days=random.choice([0] * 9 + [9])), protocol=random.choice(["topsoil", "other"]),
            place=Place("field_notes.csv", line + 2),
        )  # fmt: skip
        held[random.choice(["anvil"] * 9 + ["cobb"])].append(one)
    day = [*[None, TAKEN, TAKEN + timedelta(days=2)] * 4, TAKEN + timedelta(days=8), date(2026, 2, 1)]
    analytes = [["ph"], ["ph"], ["phosphorus"], [], ["ph", "phosphorus"]]
    rows = [
        row(
            slip(random, random.choice(ids)), number,
            report=random.choice(["R1"] * 15 + [""]), sampled=random.choice(day),
            received=random.choice([*[date(2027, 2, 15), TAKEN, None] * 4, date(2027, 2, 9)]),
            reported=random.choice([*[date(2027, 2, 27), None] * 6, date(2027, 3, 11)]),
            depth=random.choice([*[None, (0.0, 30.0), (0.2, 30.48)] * 3, (0.0, 31.0)]),
            values=tuple(value(one, random.choice([5.0, 6.0])) for one in random.choice(analytes)),
        )
        for number in range(2, 2 + random.randrange(1, 6))
    ]  # fmt: skip
    twice = [replace(one, number=one.number + 10) for one in rows if random.random() < 0.1]
    twice += [
        replace(one, number=one.number + 20, sampled=random.choice(day)) for one in rows if random.random() < 0.05
    ]
    return (
        [*rows, *twice],
        [client(*some, name=name) for name, some in held.items()],
        [check(C)] if random.random() < 0.3 else [],
    )
