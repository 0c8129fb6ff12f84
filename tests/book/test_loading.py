"""Whole clients: what a good one holds, and all that is wrong with a bad one, at once."""

from __future__ import annotations

import pickle
import random
import subprocess
import sys
from datetime import date
from gettext import NullTranslations
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from soilrota.book import client_ids, load_client, load_shared
from soilrota.language import said_again, speaking
from soilrota.model.practice import Hemisphere
from soilrota.problems import has_errors, in_order
from tests.book.small_book import Book, small_book

EXAMPLE = Path(__file__).resolve().parents[2] / "example_clients"


def test_a_small_client(book: Book) -> None:
    """A client that fits on one screen loads, with the defaults filled in."""
    client, problems = book.client()
    assert problems == ()
    assert client is not None
    assert (client.id, client.hemisphere, client.language) == ("anvil-creek", Hemisphere.SOUTHERN, "en-GB")
    assert client.time_zone == "Australia/Melbourne"
    assert [zone.id for zone in client.farms[0].zones] == ["river-flat", "hill"]
    assert list(client.protocols) == ["topsoil"]
    assert client.practice.gaps["manure"].months == 4
    assert client.place.file == "clients/anvil-creek/client.yaml"
    assert (client.applications, client.field_notes, client.results, client.warnings) == ((), (), (), ())


def test_twelve_mistakes_of_one_file_in_one_run(book: Book) -> None:
    """Twelve different mistakes of a client's file are twelve problems with twelve places, in the order of lines."""
    book.write(
        "client.yaml",
        """\
name: Anvil Creek Pastoral
hemisphere: southern
country: AU
adviser: mara-elis
time_zone: Australia/Melborne
farms:
  - id: home
    name: Home block
    zones:
      - id: river-flat
        name: River flat
        soil_type: grey clay
        land_use: pasture
        landscape_position: flat
        area_ha: 58
        protocols: [topsoil, topsoil]
      - id: river-flat
        name: Hill
        soil_type: red loam
        land_use: pasture
        landscape_position: crest
        protocols: [top-soil]
        last_sampled: [{protocol: topsoil, day: 1926-02-20}]
targets:
  - {analyte: phosphorus, method: colwel, unit: mg/kg, low: 28, top_cm: 0, bottom_cm: 10, source: house}
  - {analyte: phosphorus, method: colwell, unit: mg/kg, low: 40, high: 31, top_cm: 0, bottom_cm: 10, source: house}
decisions:
  - {protocol: topsoil, day: 2027-03-20, what: order, zones: [home/riverflat]}
protocols:
  - {id: own, based_on: topsoil, season: late-sumer}
contacts: [{name: Jo Tern, role: manager}]
""",
    )
    client, problems = book.client()
    assert client is None
    expected = [
        (4, "unknown-adviser"),
        (5, "bad-time-zone"),
        (15, "zone-too-large"),
        (16, "repeated-entry"),
        (17, "area-missing"),
        (17, "repeated-id"),
        (22, "unknown-protocol"),
        (23, "year-not-possible"),
        (25, "unknown-method"),
        (26, "target-reversed"),
        (28, "unknown-zone"),
        (30, "unknown-season"),
    ]
    codes = [(problem.place.line, problem.code) for problem in problems if problem.code != "sampling-without-use"]
    assert codes == expected
    assert len({str(problem.place) for problem in problems}) >= 12
    assert all(problem.mend for problem in problems)


def test_problems_of_every_file_together(book: Book) -> None:
    """A broken table, a broken map and a wrong name in the client's file are found in one run."""
    book.edit("client.yaml", "adviser: mara-ellis", "adviser: nobody")
    book.write("applications.csv", "farm,zones\nhome,hill\n")
    book.write("map.geojson", "{")
    client, problems = book.client()
    assert client is None
    assert {problem.place.file.rsplit("/", 1)[1] for problem in problems} == {
        "client.yaml",
        "applications.csv",
        "map.geojson",
    }
    assert problems == in_order(problems)


def test_a_link_out_of_the_book(book: Book, tmp_path_factory: pytest.TempPathFactory) -> None:
    """A file of a client that links out of the book is refused unread."""
    outside = tmp_path_factory.mktemp("outside") / "applications.csv"
    outside.write_text("secret", encoding="utf-8")
    (book.root / "clients" / "anvil-creek" / "applications.csv").symlink_to(outside)
    assert book.only().code == "link-leaves-book"


def test_records_reach_the_model(book: Book) -> None:
    """Applications, notes and results come in the order of their rows, with their places."""
    book.write(
        "applications.csv",
        "farm,zones,class,material,first_day,last_day,standing,rate_kg_ha,note\n"
        "home,hill river-flat,lime,fine lime,2026-05-10,2026-05-12,done,2000,\n"
        "home,hill,gypsum,gypsum,2027-05-10,,planned,,\n",
    )
    client, problems = book.client()
    assert problems == ()
    assert client is not None
    first, second = client.applications
    assert (first.zones, first.first_day, first.last_day) == (
        ("hill", "river-flat"),
        date(2026, 5, 10),
        date(2026, 5, 12),
    )
    assert (second.last_day, second.rate_kg_ha, second.place.line) == (date(2027, 5, 10), None, 3)


MUTATIONS = ("delete", "repeat", "swap", "cut", "replace")
WORDS = (
    "",
    "-",
    "{",
    "[]",
    "x: y",
    "name: 1",
    "id: no",
    "  - {id: z}",
    "2026-02-30",
    "🙂",
    "\t",
    "null",
    "'",
    "a,b,c,d",
)


def mutated(text: str, choose: random.Random) -> str:
    """Return the text with one to three of its lines spoilt."""
    lines = text.split("\n")
    for _ in range(choose.randint(1, 3)):
        i, j = choose.randrange(len(lines)), choose.randrange(len(lines))
        kind = choose.choice(MUTATIONS)
        if kind == "delete" and len(lines) > 1:
            del lines[i]
        elif kind == "repeat":
            lines.insert(j, lines[i])
        elif kind == "swap":
            lines[i], lines[j] = lines[j], lines[i]
        elif kind == "cut":
            lines[i] = lines[i][: choose.randint(0, len(lines[i]))]
        else:
            lines[i] = choose.choice(WORDS)
    return "\n".join(lines)


RICH = """\
targets: [{analyte: phosphorus, method: colwell, unit: mg/kg, low: 28, top_cm: 0, bottom_cm: 10, source: house}]
decisions:
  - {protocol: topsoil, day: 2027-03-20, what: order, zones: [home/hill]}
gap_overrides:
  - {class: mineral-fertiliser, months: 2, reason: agreed, zones: [home/hill]}
protocols:
  - id: topsoil
    based_on: topsoil
    layers: [{top_cm: 0, bottom_cm: 10}, {top_cm: 10, bottom_cm: 30}]
"""
MAP = """\
{"type": "FeatureCollection", "features": [
{"type": "Feature", "properties": {"kind": "farm", "farm": "home"},
 "geometry": {"type": "Polygon", "coordinates":
 [[[145.0, -37.0], [145.01, -37.0], [145.01, -36.99], [145.0, -36.99], [145.0, -37.0]]]}},
{"type": "Feature", "properties": {"kind": "zone", "farm": "home", "zone": "hill"},
 "geometry": {"type": "Polygon", "coordinates":
 [[[145.0, -37.0], [145.002, -37.0], [145.002, -36.996], [145.0, -36.996], [145.0, -37.0]]]}},
{"type": "Feature", "properties": {"kind": "access", "farm": "home"},
 "geometry": {"type": "Point", "coordinates": [145.0, -37.0]}}
]}
"""
TABLES = {
    "applications.csv": "farm,zones,class,material,first_day,last_day,standing,rate_kg_ha,note\n"
    "home,hill river-flat,lime,fine lime,2026-05-10,2026-05-12,done,2000,\n"
    "home,hill,gypsum,gypsum,unknown,,planned,,\n",
    "field_notes.csv": "day,farm,zone,protocol,top_cm,bottom_cm,cores,soil_state,sampler,bag,note\n"
    "2026-02-20,home,hill,topsoil,0,10,25,moist,Jo,B1,\n2026-02-20,home,river-flat,topsoil,0,10,25,moist,Jo,B2,\n",
    "records/results/anvil-creek/r1.csv": "report,sampled,reported,farm,zone,protocol,bag,top_cm,bottom_cm,analyte,"
    "method,qualifier,value,unit,laboratory\n"
    "r1,2026-02-20,2026-03-05,home,hill,topsoil,B1,0,10,phosphorus,colwell,,31,mg/kg,north-bench\n",
}


def rich_book(root: Path) -> Book:
    """Return a book whose client uses every file."""
    book = small_book(root)
    book.add("client.yaml", RICH)
    book.write("map.geojson", MAP)
    for name, text in TABLES.items():
        book.write(name, text)
    return book


def test_the_rich_client_loads(tmp_path: Path) -> None:
    """The client that the next test spoils has no error before."""
    client, problems = rich_book(tmp_path).client()
    assert client is not None
    assert [problem.code for problem in problems] == ["day-not-known"]
    assert len(client.protocols["topsoil"].layers) == 2
    assert client.protocols["topsoil"].season == "late-summer"


@settings(max_examples=60, deadline=None, derandomize=True, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    seed=st.integers(0, 2**32),
    name=st.sampled_from(("client.yaml", "client.yaml", "map.geojson", *TABLES, "practice.yaml", "protocols.yaml")),
)
def test_no_file_makes_loading_raise(tmp_path_factory: pytest.TempPathFactory, seed: int, name: str) -> None:
    """Lines deleted, doubled, swapped, cut or replaced give problems or a client, never an exception."""
    book = rich_book(tmp_path_factory.mktemp("book"))
    path = next(book.root.rglob(Path(name).name))
    path.write_text(mutated(path.read_text(encoding="utf-8"), random.Random(seed)), encoding="utf-8")
    shared, problems = load_shared(book.root)
    assert (shared is None) == has_errors(problems)
    if shared is not None:
        client, problems = load_client(book.root, "anvil-creek", shared)
        assert (client is None) == has_errors(problems)
        assert problems == in_order(problems)


def test_no_map_no_geometry(book: Book) -> None:
    """A client without a map loads neither shapely nor pyproj."""
    script = (
        "import sys; from pathlib import Path; from soilrota.book import load_client, load_shared\n"
        "root = Path(sys.argv[1]); shared, _ = load_shared(root)\n"
        "client, _ = load_client(root, 'anvil-creek', shared)\n"
        "print(client.id, 'shapely' in sys.modules, 'pyproj' in sys.modules, 'pandas' in sys.modules)\n"
    )
    run = subprocess.run([sys.executable, "-c", script, str(book.root)], capture_output=True, text=True, check=True)
    assert run.stdout.split() == ["anvil-creek", "False", "False", "False"]


def test_every_example_client_loads() -> None:
    """The example book has at least eight clients, all without an error."""
    shared, problems = load_shared(EXAMPLE)
    assert shared is not None, [str(problem) for problem in problems]
    ids, problems = client_ids(EXAMPLE)
    assert not has_errors(problems)
    assert len(ids) >= 8
    for client_id in ids:
        client, problems = load_client(EXAMPLE, client_id, shared)
        assert client is not None, [str(problem) for problem in problems]


class _Marking(NullTranslations):
    """A catalogue that puts every text in guillemets, so that what was said again shows."""

    def gettext(self, message: str) -> str:
        """Return a text in guillemets."""
        return f"«{message}»"


def test_warnings_are_said_again(book: Book, monkeypatch: pytest.MonkeyPatch) -> None:
    """A client's warnings are English where they are kept, and can be said in its language, figures as it writes."""
    book.edit("client.yaml", "area_ha: 11.8", "area_ha: 60.5")
    book.edit("client.yaml", "red loam", "red loam #2")
    book.edit("protocols.yaml", "largest_area_ha: 20", "largest_area_ha: 60")
    book.write("clients/anvil-creek/client.yml", "name: another\n")
    client, _ = book.client()
    assert client is not None
    kept = {problem.code: problem for problem in client.warnings}
    assert kept["zone-too-large"].found == "zone river-flat has 60.5 ha under protocol topsoil"
    carried = pickle.loads(pickle.dumps(kept))  # noqa: S301 - as from a worker
    monkeypatch.setattr("soilrota.language.speech.catalogue_of", lambda _: _Marking())
    with speaking("es"):
        said = {code: (said_again(one.found), said_again(one.mend)) for code, one in carried.items()}
    assert said == {
        "cut-by-comment": (
            "«'red loam' is followed by ' #', which begins a comment»",
            "«put quotes round the whole value if '#' belongs to it»",
        ),
        "stray-file": ("«client.yml is not a file that is read here»", "«rename it to client.yaml»"),
        "zone-too-large": (
            "«zone river-flat has 60,5 ha under protocol topsoil»",
            "«split the zone, or write under the protocol's reasons: {area: ...} why one composite will do»",
        ),
    }
