"""`soilrota new`: the first files of a client, or of a book, with marked blanks."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

from soilrota.batch.faults import CannotStartError
from soilrota.cli.exit_codes import ExitCode
from soilrota.cli.speech import say
from soilrota.files import replace_file, shipped

_TEMPLATES = Path(__file__).parent / "new_book"
_SHARED = ("practice", "protocols")
_ID = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")
_LONGEST_ID = 64


def new(chosen: Any) -> int:
    """Write the files that the arguments ask for, and return the exit code."""
    files = new_files(chosen.book, chosen.client)
    for path, content in files.items():
        replace_file(path, content)
        say(path)
    say(f"Fill in the blanks, marked __FILL__; what is left is listed by:\n    soilrota check {chosen.book}")
    return ExitCode.GOOD


def new_files(book: Path, client: str) -> dict[Path, bytes]:
    """Return the files to write, with their content.

    Args:
        book: the book's folder; where it does not exist or is empty, the files of a practice are begun too.
        client: id of the client.

    Raises:
        CannotStartError: the id cannot be one, the client is there already, or the folder holds something else.
    """
    if not _ID.fullmatch(client) or len(client) > _LONGEST_ID:
        words = "-".join(re.findall(r"[a-z0-9]+", client.casefold()))[:_LONGEST_ID].strip("-")
        hint = f"; try {words}" if words else ""
        raise CannotStartError(
            f"{client} cannot be an id: lower-case words joined by hyphens, at most 64 letters{hint}"
        )
    folder = book / "clients" / client
    if folder.exists():
        raise CannotStartError(f"{folder} is there already; nothing was touched")
    begun = (book / "practice.yaml").is_file()
    if not begun and book.exists() and (not book.is_dir() or any(book.iterdir())):
        raise CannotStartError(f"{book} is not a book (it has no practice.yaml) and not empty; nothing was touched")
    files = {} if begun else {book / f"{kind}.yaml": _template(kind) for kind in _SHARED}
    return {**files, folder / "client.yaml": _template("client")}


def _template(kind: str) -> bytes:
    """Return a first file, with the line by which editors find its schema."""
    schema = (shipped("schemas") / f"{kind}.schema.json").as_uri()
    text = (_TEMPLATES / f"{kind}.yaml").read_text(encoding="utf-8")
    return f"# yaml-language-server: $schema={schema}\n{text}".encode()
