"""All files of one client, read: each with its own problems, none stopping the others."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from soilrota.book.folders import (
    APPLICATIONS_FILE,
    CLIENT_FILE,
    CLIENTS,
    CROPPING_FILE,
    FIELD_NOTES_FILE,
    MAP_FILE,
    in_book,
    link_leaves_book,
    name_in_book,
    result_files,
)
from soilrota.book.records import build_field_notes
from soilrota.files import Document, OtherForm, Table, read_csv, read_geojson, read_what_can_be
from soilrota.model.practice import NotesForm
from soilrota.model.samples import FieldNote
from soilrota.problems import Place, Problem


@dataclass(frozen=True, slots=True)
class ClientFiles:
    """What was read of one client; None where a file is not there or has an error of its own.

    Attributes:
        client: client.yaml, or what can be used of it to find further problems.
        map: map.geojson.
        map_failed: whether there is a map that could not be read.
        applications, field_notes, cropping: the tables of the client's folder.
        results: accepted results, a table a report.
    """

    client: Document | None
    map: Document | None
    map_failed: bool
    applications: Table | None
    field_notes: Table | None
    cropping: Table | None
    results: tuple[Table, ...]


def read_client_files(
    root: Path, client_id: str, notes_form: NotesForm | None = None
) -> tuple[ClientFiles, tuple[Problem, ...]]:
    """Read every file of a client.

    Args:
        root: the book's folder.
        client_id: id of the client.
        notes_form: another form in which field notes may come; None for ours alone.

    Returns:
        What could be read, and the problems of every file by itself.
    """
    folder = root / CLIENTS / client_id
    reader = _Reader(root)
    ground = reader.document(folder / MAP_FILE, None)
    files = ClientFiles(
        client=reader.document(folder / CLIENT_FILE, "client", required=True),
        map=ground,
        map_failed=ground is None and (folder / MAP_FILE).exists(),
        applications=reader.table(folder / APPLICATIONS_FILE, "applications"),
        field_notes=reader.table(folder / FIELD_NOTES_FILE, "field_notes", _other_form(notes_form)),
        cropping=reader.table(folder / CROPPING_FILE, "cropping"),
        results=tuple(
            table for path in result_files(root, client_id) if (table := reader.table(path, "results")) is not None
        ),
    )
    return files, tuple(reader.problems)


def read_field_notes(
    root: Path, client_id: str, notes_form: NotesForm | None = None
) -> tuple[tuple[FieldNote, ...], tuple[Problem, ...]]:
    """Read the field notes of a client alone, without holding them against anything.

    Args:
        root: the book's folder.
        client_id: id of the client.
        notes_form: another form in which they may come; None for ours alone.

    Returns:
        The notes, none where their file has an error; and its problems.
    """
    reader = _Reader(root)
    table = reader.table(root / CLIENTS / client_id / FIELD_NOTES_FILE, "field_notes", _other_form(notes_form))
    return tuple(note.value for note in build_field_notes(table)), tuple(reader.problems)


def _other_form(form: NotesForm | None) -> OtherForm | None:
    """Return the practice's form of field notes as tables are read by it."""
    if form is None:
        return None
    return OtherForm(form.columns, {"soil_state": form.soil_states}, form.day_form, "practice.yaml (field_notes)")


class _Reader:
    """Reads files of one book and gathers their problems."""

    def __init__(self, root: Path) -> None:
        self.root = root
        self.problems: list[Problem] = []

    def document(self, path: Path, schema: str | None, *, required: bool = False) -> Document | None:
        """Read a YAML file, or a map where no schema is named; None where an optional one is not there."""
        if not self._may_read(path, required=required):
            return None
        name = name_in_book(self.root, path)
        document, found = read_geojson(path, name) if schema is None else read_what_can_be(path, name, schema)
        self.problems += found
        return document

    def table(self, path: Path, table: str, form: OtherForm | None = None) -> Table | None:
        """Read a CSV file; None where it is not there."""
        if not self._may_read(path, required=False):
            return None
        read, found = read_csv(path, name_in_book(self.root, path), table, form=form)
        self.problems += found
        return read

    def _may_read(self, path: Path, *, required: bool) -> bool:
        """Return whether to read the file: it is there or must be, and lies in the book."""
        if not in_book(self.root, path):
            self.problems.append(link_leaves_book(Place(name_in_book(self.root, path))))
            return False
        return required or path.exists()
