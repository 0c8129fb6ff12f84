"""A generated book: as many clients as wanted, invented from a seed, each with a programme of several pages.

Every client has a map, six zones (as the example book's clients have in the median), three years of results, targets
and spreadings. Most were sampled a few days before the as-of date and await their results; of those named in `visited`
this year's sampling lies ahead, so that a night makes field packs, labels and a farm report for them as well.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from datetime import date, timedelta
from math import cos, radians
from pathlib import Path
from random import Random

AS_OF = date(2027, 2, 15)
_SAMPLED = date(2027, 2, 9)
_PRACTICE = """\
name: Plover Bend Soil Practice
time_zone: Australia/Melbourne
contact: 1 Example Lane, office@plover-bend.example
people:
  - {id: ann-lee, name: Ann Lee, role: adviser, email: ann@plover-bend.example}
  - {id: sam-reed, name: Sam Reed, role: sampler, email: sam@plover-bend.example,
     base: {latitude: -37.3, longitude: 143.4}}
  - {id: kim-dow, name: Kim Dow, role: sampler, email: kim@plover-bend.example,
     base: {latitude: -37.5, longitude: 143.7}}
seasons:
  - id: late-summer
    name: Late summer
    southern: [{first: 01-20, last: 03-31}]
mail: {from_address: office@plover-bend.example, unsubscribe: "mailto:office@plover-bend.example?subject=no-more"}
night: {deadline_s: 300, memory_mb: 1024}
"""
_PROTOCOLS = """\
protocols:
  - id: topsoil
    name: Topsoil under pasture
    purpose: Nutrients and acidity of the soil that pasture roots use most.
    season: late-summer
    interval_months: 12
    layers: [{top_cm: 0, bottom_cm: 10, cores: 25}]
    pattern: transect
    largest_area_ha: 20
    analyses: [ph.cacl2, phosphorus.colwell, potassium.colwell, sulphur.kcl-40, organic-carbon.walkley-black]
    laboratory: creek-bench
"""
_LABORATORY = """\
name: Creek Bench
country: AU
turnaround_working_days: 8
courier_days: 1
"""
_CLIENT = """\
name: {name}
hemisphere: southern
country: AU
subdivision: VIC
language: en-AU
adviser: ann-lee
samplers: [{sampler}]
contacts:
  - {{name: Lou {surname}, role: manager, email: "lou@{id}.example"}}
farms:
  - id: home
    name: {surname} block
    locality: {surname} lane
    zones:
{zones}
targets:
  - {{analyte: phosphorus, method: colwell, unit: mg/kg, low: 28, high: 40, top_cm: 0, bottom_cm: 10,
     source: made up for the benchmark, land_uses: [pasture]}}
  - {{analyte: ph, method: cacl2, unit: pH, low: 5.5, top_cm: 0, bottom_cm: 10, source: made up for the benchmark}}
"""
_ZONE = """\
      - id: {id}
        name: {name}
        soil_type: {soil}
        texture: loam
        land_use: pasture
        landscape_position: {position}
        area_ha: {area:.1f}
        protocols: [topsoil]
"""
_SYLLABLES = (
    "al",
    "bre",
    "cor",
    "dun",
    "es",
    "fal",
    "gar",
    "hol",
    "ing",
    "jor",
    "kel",
    "lor",
    "mar",
    "nor",
    "os",
    "pel",
)
_ENDS = ("bury", "combe", "dale", "field", "ham", "leigh", "mere", "stow", "ton", "wick")
_SOILS = ("grey clay loam", "red loam", "brown loam on clay", "black cracking clay", "sandy loam over gravel")
#: Zones: id, name, landscape position.
_PLACES = (
    ("flat", "Flat", "flat"),
    ("rise", "Long rise", "mid-slope"),
    ("ridge", "Ridge", "crest"),
    ("gate", "Gate paddock", "lower-slope"),
    ("creek", "Creek terrace", "terrace"),
    ("dam", "Above the dam", "upper-slope"),
)
#: Zones lie in rows of so many, so deep [m].
_IN_A_ROW, _DEPTH = 3, 320
#: Analyte, method, unit, usual value, spread of zones, spread of years, decimals.
_ANALYSES = (
    ("ph", "cacl2", "pH", 5.3, 0.35, 0.08, 1),
    ("phosphorus", "colwell", "mg/kg", 31.0, 9.0, 2.5, 0),
    ("potassium", "colwell", "mg/kg", 160.0, 45.0, 12.0, 0),
    ("sulphur", "kcl-40", "mg/kg", 9.0, 2.5, 0.9, 1),
    ("organic-carbon", "walkley-black", "%", 2.4, 0.5, 0.1, 2),
)
_RESULT_COLUMNS = (
    "report,sampled,reported,farm,zone,protocol,bag,top_cm,bottom_cm,analyte,method,qualifier,value,unit,laboratory"
)
_NOTE_COLUMNS = "day,farm,zone,protocol,top_cm,bottom_cm,cores,soil_state,sampler,bag,note"
_SPREADING_COLUMNS = "farm,zones,class,material,first_day,last_day,standing,rate_kg_ha,note"


def write_book(root: Path, clients: int, visited: int = 0, *, small: bool = False, seed: int = 7) -> Path:
    """Write a book, and return its folder.

    Args:
        root: the folder, which is made.
        clients: how many clients it has.
        visited: of every so many clients one is still to be visited this season; 0 for none.
        small: whether clients have one zone without results, so that their programmes are short.
        seed: the same seed gives the same book.
    """
    (root / "laboratories").mkdir(parents=True)
    for name, text in (
        ("practice.yaml", _PRACTICE),
        ("protocols.yaml", _PROTOCOLS),
        ("laboratories/creek-bench.yaml", _LABORATORY),
    ):
        (root / name).write_text(text, encoding="utf-8")
    for number in range(clients):
        random = Random(seed * 100_003 + number)
        if small:
            _write_small_client(root, number, random)
        else:
            _write_client(root, number, random, is_visited=bool(visited) and not number % visited)
    return root


def _write_small_client(root: Path, number: int, random: Random) -> None:
    """Write the one file of a client with one zone."""
    surname = _surname(random)
    folder = root / "clients" / f"{surname.lower()}-{number:03}"
    folder.mkdir(parents=True)
    zone = _ZONE.format(id="flat", name="Flat", soil=random.choice(_SOILS), position="flat", area=8).rstrip()
    text = _CLIENT.format(name=surname, id=folder.name, surname=surname, sampler="sam-reed", zones=zone)
    (folder / "client.yaml").write_text(text, encoding="utf-8")


def _surname(random: Random) -> str:
    """Return a made-up name."""
    return "".join(random.choice(_SYLLABLES) for _ in range(2)).capitalize() + random.choice(_ENDS)


def _write_client(root: Path, number: int, random: Random, *, is_visited: bool) -> None:
    """Write the files of one client."""
    surname = _surname(random)
    client = f"{surname.lower()}-{number:03}"
    folder, results = root / "clients" / client, root / "records" / "results" / client
    folder.mkdir(parents=True)
    results.mkdir(parents=True)
    corner = (-37.3 + random.uniform(-0.2, 0.2), 143.5 + random.uniform(-0.2, 0.2))
    widths = [random.uniform(260, 420) for _ in _PLACES]
    zones = "".join(
        _ZONE.format(id=id_, name=name, soil=random.choice(_SOILS), position=position, area=width * _DEPTH / 10_000)
        for (id_, name, position), width in zip(_PLACES, widths, strict=True)
    ).rstrip()
    sampler = random.choice(("sam-reed", "kim-dow"))
    text = _CLIENT.format(name=f"{surname} Pastoral {number}", id=client, surname=surname, sampler=sampler, zones=zones)
    (folder / "client.yaml").write_text(text, encoding="utf-8")
    (folder / "map.geojson").write_text(json.dumps(_map(corner, widths), indent=1), encoding="utf-8")
    spread = date(2026, 9, 20) + timedelta(days=number % 9)
    spreadings = [
        f"home,flat rise gate creek,mineral-fertiliser,superphosphate,{spread},{spread},done,180,",
        f"home,flat,lime,ground limestone,2027-04-{10 + number % 15},2027-04-{12 + number % 15},planned,2500,",
    ]
    _write_table(folder / "applications.csv", _SPREADING_COLUMNS, spreadings)
    usual = {(zone, one[0]): random.gauss(one[3], one[4]) for zone, _, _ in _PLACES for one in _ANALYSES}
    notes: list[str] = []
    for year in (2024, 2025, 2026):
        day, report = date(year, 2, 20) + timedelta(days=number % 14), f"cb-{year}-{number:03}"
        bags = {zone: f"B{year % 100}{number:03}{place}" for place, (zone, _, _) in enumerate(_PLACES)}
        _write_table(results / f"{report}.csv", _RESULT_COLUMNS, _results(report, day, bags, usual, random))
        notes += [_note(day, zone, bag) for zone, bag in bags.items()]
    if not is_visited:
        notes += [_note(_SAMPLED, zone, f"B27{number:03}{place}") for place, (zone, _, _) in enumerate(_PLACES)]
    _write_table(folder / "field_notes.csv", _NOTE_COLUMNS, notes)


def _results(
    report: str, day: date, bags: dict[str, str], usual: dict[tuple[str, str], float], random: Random
) -> Iterator[str]:
    """Yield the rows of a laboratory's report."""
    ground = f"{report},{day},{day + timedelta(days=15)},home"
    for zone, bag in bags.items():
        for analyte, method, unit, least, _, spread, decimals in _ANALYSES:
            value = max(usual[zone, analyte] + random.gauss(0, spread), least / 4)
            yield f"{ground},{zone},topsoil,{bag},0,10,{analyte},{method},,{value:.{decimals}f},{unit},creek-bench"


def _note(day: date, zone: str, bag: str) -> str:
    """Return a row of field notes."""
    return f"{day},home,{zone},topsoil,0,10,25,moist,Sam Reed,{bag},"


def _write_table(path: Path, columns: str, rows: Iterator[str] | list[str]) -> None:
    """Write a table."""
    path.write_text("\n".join((columns, *rows, "")), encoding="utf-8")


def _map(corner: tuple[float, float], widths: list[float]) -> dict[str, object]:
    """Return the map of a farm: zones in rows, with tracks between them."""
    north, east = 1 / 111_200, 1 / (111_200 * cos(radians(corner[0])))

    def ground(left: float, right: float, low: float, high: float, **properties: str) -> dict[str, object]:
        ring = [(left, low), (right, low), (right + 12, high), (left - 8, high), (left, low)]
        points = [[round(corner[1] + x * east, 6), round(corner[0] + y * north, 6)] for x, y in ring]
        return {
            "type": "Feature",
            "properties": properties,
            "geometry": {"type": "Polygon", "coordinates": [points]},
        }

    zones: list[dict[str, object]] = []
    widest = top = 0.0
    for row in range(0, len(_PLACES), _IN_A_ROW):
        left, low = 0.0, row // _IN_A_ROW * (_DEPTH + 40.0)
        for (zone, _, _), width in zip(_PLACES[row:][:_IN_A_ROW], widths[row:], strict=False):
            zones.append(ground(left, left + width, low, low + _DEPTH, kind="zone", farm="home", zone=zone))
            left += width + 40
        widest, top = max(widest, left), low + _DEPTH
    farm = ground(-40, widest + 50, -40, top + 40, kind="farm", farm="home")
    return {"type": "FeatureCollection", "features": [farm, *zones]}
