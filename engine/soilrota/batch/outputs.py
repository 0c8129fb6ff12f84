"""The output folder: where documents lie, what is swept from it, and when it is not fit to be written to."""

from __future__ import annotations

import os
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path

from soilrota.batch.faults import CannotStartError
from soilrota.files import sweep_leftovers

#: The report of the last night.
RUN_FILE = "run.json"
#: The client's programme.
PROGRAMME = "programme.pdf"
#: The client's results, as a workbook and as a table; only where it has results.
RESULTS_WORKBOOK, RESULTS_TABLE = "results.xlsx", "results.csv"
#: The calendar feed of a client.
WINDOWS_FEED = "windows.ics"
#: Every document of a client.
DOCUMENTS = (PROGRAMME, RESULTS_WORKBOOK, RESULTS_TABLE)
_CLIENTS = "clients"
#: What is not signed yet lies apart from what clients get.
_DRAFTS = "drafts"
_OURS_IN_A_BOOK = ("clients", "records", "laboratories", "inbox")


def document_name(client: str, document: str) -> str:
    """Return the path of a document below the output folder, with forward slashes."""
    return f"{_CLIENTS}/{client}/{document}"


def report_name(client: str, farm: str, *, is_signed: bool) -> str:
    """Return the path of a farm's report below the output folder; a draft never lies among the client's documents."""
    return advice_name(client, f"farm_report-{farm}.pdf", is_signed=is_signed)


def advice_name(client: str, file: str, *, is_signed: bool) -> str:
    """Return the path of a file that gives advice, below the output folder: a draft until it is signed."""
    return f"{_CLIENTS if is_signed else _DRAFTS}/{client}/{file}"


def is_signed(file: str) -> bool:
    """Return whether a file that gives advice is signed, by its path below the output folder."""
    return file.startswith(f"{_CLIENTS}/")


def farm_of_advice(name: str, farms: Sequence[str]) -> str | None:
    """Return which farm a file that gives advice belongs to, by its name; None for another kind of file.

    Args:
        name: of the file, without its folder.
        farms: ids of the client's farms; of two that fit, the longer one.
    """
    kinds = ("farm_report-{}.pdf", "rates-{}.csv")
    for farm in sorted(farms, key=len, reverse=True):
        if name in (kind.format(farm) for kind in kinds) or name.startswith(f"rate_map-{farm}-"):
            return farm
    return None


def client_folder(out: Path, client: str) -> Path:
    """Return where the documents of a client lie."""
    return out / _CLIENTS / client


def document_file(out: Path, client: str, document: str) -> Path:
    """Return where a document lies."""
    return client_folder(out, client) / document


def prepare_output(root: Path, out: Path) -> None:
    """Make the output folder ready, and sweep what an interrupted night left in it.

    Raises:
        CannotStartError: it is the book itself or one of its own folders, or it cannot be written.
    """
    book, place = root.resolve(), out.resolve()
    kept = (book / name for name in _OURS_IN_A_BOOK)
    if place in (book, *book.parents) or any(place.is_relative_to(folder) for folder in kept):
        raise CannotStartError(f"the output folder {out} must not hold or be a part of the book; name another one")
    try:
        out.mkdir(parents=True, exist_ok=True)
        sweep_leftovers(out)
    except OSError as fault:
        raise CannotStartError(f"the output folder {out} cannot be made ready: {fault.strerror}") from fault
    if not os.access(out, os.W_OK | os.X_OK):
        raise CannotStartError(f"the output folder {out} cannot be written")


def remove_departed(out: Path, departed: Mapping[str, Iterable[str]]) -> None:
    """Remove the documents of clients that are no longer in the book, and their folders where nothing else is in them.

    Args:
        out: the output folder.
        departed: names of the documents by client.

    Raises:
        OSError: a file cannot be removed.
    """
    for client, documents in departed.items():
        for document in documents:
            document_file(out, client, document).unlink(missing_ok=True)
        folder = client_folder(out, client)
        if folder.is_dir() and not any(folder.iterdir()):
            folder.rmdir()
