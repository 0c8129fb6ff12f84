"""The folders of a book: which clients there are, which files belong to each, and nothing outside the book."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator
from pathlib import Path

from soilrota.files import nearest_name
from soilrota.language import phrase
from soilrota.problems import Place, Problem, error, in_order, warning

PRACTICE_FILE = "practice.yaml"
PROTOCOLS_FILE = "protocols.yaml"
CHECK_SAMPLES_FILE = "check_samples.csv"
PRODUCTS_FILE = "products.yaml"
LABORATORIES = "laboratories"
GUIDELINES = "guidelines"
CLIENTS = "clients"
CLIENT_FILE = "client.yaml"
MAP_FILE = "map.geojson"
APPLICATIONS_FILE = "applications.csv"
FIELD_NOTES_FILE = "field_notes.csv"
CROPPING_FILE = "cropping.csv"
RESULTS = "records/results"
WEATHER = "weather"

CLIENT_FILES = (CLIENT_FILE, MAP_FILE, APPLICATIONS_FILE, FIELD_NOTES_FILE, CROPPING_FILE)
_LOOKS_LIKE_OURS = frozenset({".csv", ".yaml", ".yml", ".geojson", ".json"})
_ID = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")
_LONGEST_ID = 64
#: Names that Windows keeps for devices, so that no folder or file can have them there.
_DEVICE = re.compile(r"con|prn|aux|nul|(com|lpt)[0-9]")
_ID_IN_WORDS = f"lower-case words and digits joined by hyphens, at most {_LONGEST_ID} characters, no device name"


def is_id(name: str) -> bool:
    """Return whether the name may serve as an id, and so as a part of a path on any system."""
    return len(name) <= _LONGEST_ID and bool(_ID.fullmatch(name)) and not _DEVICE.fullmatch(name)


def in_book(root: Path, path: Path) -> bool:
    """Return whether the path, links followed, lies in the book's folder."""
    return path.resolve().is_relative_to(root.resolve())


def name_in_book(root: Path, path: Path) -> str:
    """Return the path relative to the book, with forward slashes."""
    return path.relative_to(root).as_posix()


def bad_id(place: Place, what: str, name: str) -> Problem:
    """Return the error that a name of a folder or file cannot be an id, with one that could."""
    better = "-".join(re.findall(r"[a-z0-9]+", name.casefold()))[:_LONGEST_ID].strip("-")
    mend = f"rename it, for instance to {better}" if is_id(better) else "rename it"
    return error("bad-id", place, f"the {what} '{name}' cannot be an id", _ID_IN_WORDS, mend)


def link_leaves_book(place: Place) -> Problem:
    """Return the error that a link leads out of the book."""
    return error("link-leaves-book", place, "a link that leads out of the book", "a file of the book", "copy it in")


def client_ids(root: Path) -> tuple[tuple[str, ...], tuple[Problem, ...]]:
    """Return the ids of the clients, sorted, and what is wrong with their folders.

    Args:
        root: the book's folder.

    Returns:
        The ids of the folders that can be read; a folder with an error is left out. Problems: `no-clients-folder`,
        `bad-id`, `same-id`, `link-leaves-book`, `client-file-missing`, and the warning `stray-file`.
    """
    folder = root / CLIENTS
    if not folder.is_dir():
        place = Place(CLIENTS)
        mend = "make the folder, with a folder for each client in it"
        return (), (error("no-clients-folder", place, "there is no folder clients", "a folder", mend),)
    entries = sorted(entry for entry in folder.iterdir() if not entry.name.startswith("."))
    alike: defaultdict[str, list[Path]] = defaultdict(list)
    for entry in entries:
        alike[entry.name.casefold()].append(entry)
    ids: list[str] = []
    problems: list[Problem] = []
    for entry in entries:
        found = tuple(_folder_problems(root, entry, alike[entry.name.casefold()]))
        problems += found
        if not found:
            ids.append(entry.name)
    return tuple(ids), in_order(problems)


def _folder_problems(root: Path, entry: Path, alike: list[Path]) -> Iterator[Problem]:
    """Yield what is wrong with one entry of the clients folder."""
    place = Place(name_in_book(root, entry))
    if not in_book(root, entry):
        yield link_leaves_book(place)
        return
    if not entry.is_dir():
        mend = "move it into its client's folder, or out of clients"
        yield warning("stray-file", place, "a file beside the clients' folders", "only folders", mend)
        return
    if not is_id(entry.name):
        yield bad_id(place, "folder", entry.name)
    if len(alike) > 1:
        others = ", ".join(other.name for other in alike if other != entry)
        yield error("same-id", place, f"{entry.name} and {others} differ in case only", "ids apart", "rename one")
    if not (entry / CLIENT_FILE).is_file():
        mend = f"write {CLIENT_FILE}, or move the folder out of clients"
        yield error("client-file-missing", place, f"there is no {CLIENT_FILE}", f"a {CLIENT_FILE}", mend)


def stray_files(root: Path, client_id: str) -> Iterator[Problem]:
    """Yield a warning for each file of a client's folder that looks like ours but is read by nobody."""
    for path in sorted((root / CLIENTS / client_id).iterdir()):
        if path.suffix.casefold() not in _LOOKS_LIKE_OURS or path.name in CLIENT_FILES or path.name.startswith("."):
            continue
        nearest = nearest_name(path.name, CLIENT_FILES)
        mend = phrase("rename it to {name}", name=nearest) if nearest else phrase("move it elsewhere")
        found = phrase("{file} is not a file that is read here", file=path.name)
        place, expected = Place(name_in_book(root, path)), phrase("one of {names}", names=", ".join(CLIENT_FILES))
        yield warning("stray-file", place, found, expected, mend)


def result_files(root: Path, client_id: str) -> tuple[Path, ...]:
    """Return the files of accepted results of a client, sorted by name."""
    return tuple(sorted((root / RESULTS / client_id).glob("*.csv")))


def laboratory_files(root: Path) -> tuple[Path, ...]:
    """Return the files of the laboratories, sorted by name."""
    return tuple(sorted((root / LABORATORIES).glob("*.yaml")))


def guideline_files(root: Path) -> tuple[Path, ...]:
    """Return the files of the practice's own guideline sets, sorted by name."""
    return tuple(sorted((root / GUIDELINES).glob("*.yaml")))


def weather_files(root: Path) -> tuple[Path, ...]:
    """Return the weather files of the book, sorted."""
    return tuple(sorted((root / WEATHER).glob("*.csv")))


def input_files(root: Path, client_id: str, logo: str = "") -> tuple[Path, ...]:
    """Return every file that a client's documents depend on, sorted, those that exist.

    Args:
        root: the book's folder.
        client_id: id of the client.
        logo: the practice's logo, relative to the book's folder; empty without one.
    """
    client = root / CLIENTS / client_id
    files = [
        root / PRACTICE_FILE,
        root / PROTOCOLS_FILE,
        root / CHECK_SAMPLES_FILE,
        root / PRODUCTS_FILE,
        *laboratory_files(root),
        *guideline_files(root),
        *weather_files(root),
        *(client / name for name in CLIENT_FILES),
        *result_files(root, client_id),
    ]
    if logo:
        files.append(root / logo)
    return tuple(sorted(path for path in files if path.is_file()))
