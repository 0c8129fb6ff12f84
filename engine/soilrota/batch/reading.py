"""Reads the book as the night and the check both see it: `soilrota.book`, with the blanks of new files as errors."""

from __future__ import annotations

from pathlib import Path

from soilrota.batch.blanks import blanks_in, with_blanks
from soilrota.batch.faults import CannotStartError
from soilrota.batch.fingerprints import client_digest, shared_digest
from soilrota.batch.read_once import once
from soilrota.batch.weather import weather_for
from soilrota.book import Shared, client_ids, load_client, load_shared
from soilrota.files import nearest_name
from soilrota.model.client import Client
from soilrota.problems import Problem, in_order


def read_shared(root: Path) -> tuple[Shared | None, tuple[Problem, ...]]:
    """Return what all clients share, or None where it has errors; and its problems in order."""
    return once(lambda: f"shared {root} {shared_digest(root, '')}", lambda: _read_shared(root))


def _read_shared(root: Path) -> tuple[Shared | None, tuple[Problem, ...]]:
    """Read what all clients share."""
    named = ("practice.yaml", "protocols.yaml", "products.yaml")
    files = (*(root / name for name in named), *sorted((root / "laboratories").glob("*.yaml")))
    shared, problems = load_shared(root)
    blanks = tuple(blanks_in(root, files))
    return (None if blanks else shared), in_order(with_blanks(problems, blanks))


def read_clients(root: Path) -> tuple[tuple[str, ...], tuple[Problem, ...]]:
    """Return the ids of the clients, sorted, and what is wrong with their folders."""
    return client_ids(root)


def read_client(root: Path, client: str, shared: Shared) -> tuple[Client | None, tuple[Problem, ...]]:
    """Return one client, or None where it has errors; and its problems in order."""

    def digest() -> str:
        return f"client {root} {client} {client_digest(root, client, shared_digest(root, shared.practice.logo))}"

    return once(digest, lambda: _read_client(root, client, shared))


def _read_client(root: Path, client: str, shared: Shared) -> tuple[Client | None, tuple[Problem, ...]]:
    """Read one client."""
    loaded, problems = load_client(root, client, shared)
    if loaded is not None:
        weather, of_weather = weather_for(root, loaded)
        problems = in_order((*problems, *of_weather))
        loaded = None if weather is None else loaded
    blanks = tuple(blanks_in(root, (root / "clients" / client / "client.yaml",)))
    return (None if blanks else loaded), in_order(with_blanks(problems, blanks))


def read_sound_client(root: Path, client_id: str) -> Client:
    """Return one client without errors, for commands that are about one client.

    Raises:
        CannotStartError: it is no book, the client is not there, or its files or the shared ones have errors.
    """
    if not (root / "practice.yaml").is_file():
        raise CannotStartError(f"{root} is not a book: it has no practice.yaml")
    shared, problems = read_shared(root)
    if shared is None:
        raise CannotStartError("the files that all clients share have errors", problems)
    names, _ = read_clients(root)
    if client_id not in names:
        near = nearest_name(client_id, names)
        raise CannotStartError(f"there is no client {client_id}" + (f"; did you mean {near}?" if near else ""))
    client, problems = read_client(root, client_id, shared)
    if client is None:
        raise CannotStartError(f"the files of {client_id} have errors", problems)
    return client
