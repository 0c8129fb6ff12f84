"""A small book that loads without a problem; each test says what it changes in it."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from soilrota.book import Shared, load_client, load_shared
from soilrota.language import Phrase
from soilrota.model.client import Client
from soilrota.problems import Problem, Severity

PRACTICE = """\
name: Two Rivers Soil Practice
time_zone: Australia/Melbourne
contact: 12 Example Street, Exampleton
people:
  - {id: mara-ellis, name: Mara Ellis, role: adviser}
  - {id: jo-finch, name: Jo Finch, role: sampler}
seasons:
  - id: late-summer
    name: Late summer
    southern: [{first: 01-20, last: 03-31}]
    northern: [{first: 07-20, last: 09-30}]
  - id: midwinter
    name: Midwinter
    southern: [{first: 06-01, last: 07-31}]
gaps:
  - {class: manure, months: 4, reason: wet soils}
"""
PROTOCOLS = """\
protocols:
  - id: topsoil
    name: Topsoil fertility
    season: late-summer
    interval_months: 12
    layers:
      - {top_cm: 0, bottom_cm: 10}
    pattern: transect
    largest_area_ha: 20
    analyses: [ph.cacl2, phosphorus.colwell]
    laboratory: north-bench
"""
LABORATORY = """\
name: North Bench Laboratory
country: AU
turnaround_working_days: 8
courier_days: 2
receiving_weekdays: [monday, tuesday, wednesday, thursday]
"""
CLIENT = """\
name: Anvil Creek Pastoral
hemisphere: southern
country: AU
adviser: mara-ellis
contacts:
  - {name: Lee Example, role: manager}
farms:
  - id: home
    name: Home block
    zones:
      - id: river-flat
        name: River flat
        soil_type: grey clay
        land_use: pasture
        landscape_position: flat
        area_ha: 11.8
        protocols: [topsoil]
      - id: hill
        name: Hill
        soil_type: red loam
        land_use: pasture
        landscape_position: crest
        area_ha: 8
        protocols: [topsoil]
"""


@dataclass(frozen=True)
class Book:
    """A book on disk that a test changes and reads."""

    root: Path

    def write(self, name: str, text: str) -> None:
        """Write a file of the book; the client's files by their bare name."""
        path = self._path(name)
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")

    def edit(self, name: str, old: str, new: str) -> None:
        """Replace a text that stands in a file."""
        text = self._path(name).read_text(encoding="utf-8")
        assert old in text
        self.write(name, text.replace(old, new, 1))

    def add(self, name: str, text: str) -> None:
        """Add text at the end of a file."""
        self.write(name, self._path(name).read_text(encoding="utf-8") + text)

    def line(self, name: str, text: str) -> int:
        """Return the number of the first line of a file that holds the text."""
        lines = self._path(name).read_text(encoding="utf-8").splitlines()
        return next(number for number, line in enumerate(lines, start=1) if text in line)

    def shared(self) -> tuple[Shared | None, tuple[Problem, ...]]:
        """Load what the clients share."""
        return load_shared(self.root)

    def client(self) -> tuple[Client | None, tuple[Problem, ...]]:
        """Load the client; the shared files must be right."""
        shared, problems = load_shared(self.root)
        assert shared is not None, problems
        client, problems = load_client(self.root, "anvil-creek", shared)
        # Its programme prints warnings, so each can be said again in its language.
        plain = [str(one) for one in problems if one.severity is Severity.WARNING and not _is_phrased(one)]
        assert plain == []
        return client, problems

    def problems(self) -> tuple[Problem, ...]:
        """Return the problems of the client's files."""
        return self.client()[1]

    def shared_problems(self) -> tuple[Problem, ...]:
        """Return the problems of the shared files."""
        return self.shared()[1]

    def only(self, *, shared: bool = False) -> Problem:
        """Return the one problem there is."""
        problems = self.shared_problems() if shared else self.problems()
        assert len(problems) == 1, [str(problem) for problem in problems]
        return problems[0]

    def _path(self, name: str) -> Path:
        """Return where a file lies."""
        ours = {"client.yaml", "map.geojson", "applications.csv", "field_notes.csv", "cropping.csv"}
        return self.root / "clients" / "anvil-creek" / name if name in ours else self.root / name


def _is_phrased(problem: Problem) -> bool:
    """Return whether all that a problem says can be said again."""
    said = (problem.found, problem.expected, problem.mend)
    return all(isinstance(text, Phrase) for text in said if text)


def small_book(root: Path) -> Book:
    """Write the small book into a folder."""
    made = Book(root)
    made.write("practice.yaml", PRACTICE)
    made.write("protocols.yaml", PROTOCOLS)
    made.write("laboratories/north-bench.yaml", LABORATORY)
    made.write("client.yaml", CLIENT)
    return made
