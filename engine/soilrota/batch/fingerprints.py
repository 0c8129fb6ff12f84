"""Digests of what a night depends on, with the standard library alone: they are compared before anything is read.

A digest covers at least the files that `soilrota.book` reads, and which files there are; that it covers more only
means that a client is looked at again. Links are told apart from files, and what is not a regular file of the book
is never opened.
"""

from __future__ import annotations

import os
import stat
import sys
from collections.abc import Iterable, Iterator, Mapping
from hashlib import sha256
from pathlib import Path

from soilrota.batch.engine_files import engine_folders, libraries
from soilrota.model.documents import TEMPLATES, DocumentKind

_READ = (".csv", ".yaml", ".yml", ".geojson", ".json")
_OF_DOCUMENTS = frozenset(kind.template for kind in DocumentKind)


def shared_digest(root: Path, logo: str) -> str:
    """Return the digest of the files that all clients share.

    Args:
        root: the book's folder.
        logo: the practice's logo, relative to the book's folder; empty where there is none or it is not known yet.
    """
    names = ["practice.yaml", "protocols.yaml", "check_samples.csv", "products.yaml", *([logo] if logo else [])]
    marks = [f"{name} {_mark(root, root / name)}" for name in names]
    for folder in ("laboratories", "guidelines", "weather"):
        marks += [folder, *_marks_in(root, root / folder)]
    return _digest(marks)


def listing_digest(root: Path) -> str:
    """Return the digest of which clients there are: the entries of the clients' folder and what kind each is."""
    return _digest(
        f"{entry.name} {_kind(entry)} {os.path.isfile(os.path.join(entry.path, 'client.yaml'))}"  # noqa: PTH113, PTH118 - a path object an entry is slow
        for entry in _entries(root / "clients")
    )


def client_digest(root: Path, client: str, shared: str) -> str:
    """Return the digest of everything that a client's documents depend on in the book.

    Args:
        root: the book's folder.
        client: id of the client.
        shared: digest of the files that all clients share.
    """
    own = _marks_in(root, root / "clients" / client)
    results = _marks_in(root, root / "records" / "results" / client)
    checks = _marks_in(root, root / "records" / "check_samples")
    return _digest([shared, *own, "results", *results, "check samples", *checks])


def engine_digest() -> str:
    """Return the digest of the engine itself: its code, tables, schemas and templates, and the libraries beside it."""
    folders = map(str, engine_folders())
    # Text paths, as of `_bytes_mark`: path objects take half of the time of a night in which nothing changed.
    marks = [f"{path[len(folder) + 1 :]} {_bytes_mark(path)}" for folder in folders for path in _walk(folder)]
    return _digest([sys.version, *sorted(libraries()), *marks])


def made_by(engine: str, root: Path, *kinds: DocumentKind) -> str:
    """Return the digest of what makes some documents: the engine, and the practice's own templates of their kinds.

    Args:
        engine: digest of the engine; this is returned where the book has no template for them.
        root: the book's folder.
        kinds: which documents.
    """
    marks = _marks_in(root, root / TEMPLATES, (".jinja",))
    own = {kind.template for kind in kinds}
    if (root / TEMPLATES).is_symlink():
        marks = [f"link {(root / TEMPLATES).readlink()}", *marks]
    elif not any(mark.partition(" ")[0] in own for mark in marks):
        return engine
    # What is no document's own may be used by all of them.
    return _digest([engine, *(mark for mark in marks if mark.partition(" ")[0] not in _OF_DOCUMENTS - own)])


def same_file(path: Path, digest: str) -> bool:
    """Return whether the file is there and has this SHA-256."""
    return _bytes_mark(str(path)) == digest


def same_files(folder: Path, files: Mapping[str, str]) -> bool:
    """Return whether a folder holds every one of some files, at least one, each with its SHA-256."""
    return bool(files) and all(same_file(folder / name, digest) for name, digest in files.items())


def _digest(lines: Iterable[str]) -> str:
    """Return the SHA-256 of lines of text; a name that is not UTF-8 keeps its bytes."""
    return sha256("\n".join(lines).encode(errors="surrogateescape")).hexdigest()


def _entries(folder: Path | str) -> list[os.DirEntry[str]]:
    """Return the entries of a folder by name, hidden ones apart; none where it cannot be listed."""
    try:
        with os.scandir(folder) as entries:
            return sorted((entry for entry in entries if not entry.name.startswith(".")), key=lambda entry: entry.name)
    except OSError:
        return []


def _marks_in(root: Path, folder: Path, read: tuple[str, ...] = _READ) -> list[str]:
    """Return a line a file of the folder that may be read, by the ends of its name."""
    return [
        f"{entry.name} {_mark(root, Path(entry.path)) if entry.is_symlink() else _bytes_mark(entry.path)}"
        for entry in _entries(folder)
        if entry.name.casefold().endswith(read)
    ]


def _kind(entry: os.DirEntry[str]) -> str:
    """Return what an entry is; of a link, where it leads."""
    if entry.is_symlink():
        return f"link {Path(entry.path).readlink()}"
    return "folder" if entry.is_dir() else "file"


def _mark(root: Path, path: Path) -> str:
    """Return what stands for a file: the digest of its bytes; of a link, where it leads as well."""
    if not path.is_symlink():
        return _bytes_mark(str(path))
    link = f"link {path.readlink()}"
    return f"{link} {_bytes_mark(str(path))}" if path.resolve().is_relative_to(root.resolve()) else link


def _bytes_mark(path: str) -> str:
    """Return the digest of a file's bytes, or why there is none.

    Text paths and one read a file: hundreds of small files make up most of a night in which nothing changed.
    """
    try:
        if not stat.S_ISREG(os.stat(path).st_mode):  # noqa: PTH116 - as said above
            return "no file"
        with open(path, "rb", buffering=0) as file:  # noqa: PTH123 - as said above
            return sha256(file.readall()).hexdigest()
    except OSError as fault:
        return f"unreadable {fault.errno}"


def _walk(folder: str) -> Iterator[str]:
    """Yield the files below a folder, in order, compiled ones apart."""
    for entry in _entries(folder):
        if entry.is_dir():
            if entry.name != "__pycache__":
                yield from _walk(entry.path)
        elif not entry.name.endswith(".pyc"):
            yield entry.path
