"""User and password of the mail server: from the environment, or from a file that its owner alone can read."""

from __future__ import annotations

import os
import stat
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from soilrota.delivery.faults import LoginError
from soilrota.model.mail import LoginFrom

USER = "SOILROTA_MAIL_USER"
PASSWORD = "SOILROTA_MAIL_PASSWORD"  # noqa: S105 - the name of a variable
FILE = "SOILROTA_MAIL_LOGIN"
_OTHERS = stat.S_IRWXG | stat.S_IRWXO
_LONGEST = 4096
_LINES = 2


@dataclass(frozen=True, slots=True)
class Login:
    """User and password; the password never shows when the value is printed."""

    user: str
    password: str = field(repr=False)


def find_login(wanted: LoginFrom, environment: Mapping[str, str], book: Path) -> Login | None:
    """Return the login that a book asks for; None where it asks for none.

    Args:
        wanted: where it comes from.
        environment: the variables of the environment.
        book: the book's folder, in which no login may lie.

    Raises:
        LoginError: it is not there, or is not kept safely.
    """
    if wanted is LoginFrom.NONE:
        return None
    if wanted is LoginFrom.FILE:
        if not environment.get(FILE):
            raise LoginError(f"the book takes its mail login from a file, and {FILE} in the environment names none")
        return read_login(Path(environment[FILE]), book)
    missing = [name for name in (USER, PASSWORD) if not environment.get(name)]
    if missing:
        words = "the book takes its mail login from the environment, which does not hold"
        raise LoginError(f"{words} {' and '.join(missing)}")
    return Login(environment[USER], environment[PASSWORD])


def read_login(path: Path, book: Path) -> Login:
    """Return the login of a file: user on the first line, password on the second.

    Raises:
        LoginError: the file is not there, lies in the book, is open to others, or has another form; what it holds is
            never part of the words.
    """
    if path.resolve().is_relative_to(book.resolve()):
        raise LoginError(f"the mail login {path} lies in the book; keep it outside, for a book is shared and copied")
    try:
        descriptor = os.open(path, os.O_RDONLY | os.O_NONBLOCK | os.O_CLOEXEC)
    except OSError as fault:
        raise LoginError(f"the mail login {path} cannot be read: {fault.strerror}") from fault
    try:
        _refuse_unsafe(os.fstat(descriptor), path)
        content = os.read(descriptor, _LONGEST)
    finally:
        os.close(descriptor)
    try:
        lines = content.decode().splitlines()
    except UnicodeDecodeError:
        lines = []
    if len(lines) != _LINES or not all(lines):
        raise LoginError(f"the mail login {path} must hold two lines: the user, and the password")
    return Login(*lines)


def _refuse_unsafe(found: os.stat_result, path: Path) -> None:
    """Raise where a file may have been read or written by somebody else."""
    if not stat.S_ISREG(found.st_mode):
        raise LoginError(f"the mail login {path} is no ordinary file")
    if found.st_uid not in (os.geteuid(), 0):
        raise LoginError(f"the mail login {path} belongs to somebody else; it must be yours")
    if stat.S_IMODE(found.st_mode) & _OTHERS:
        mode = f"{stat.S_IMODE(found.st_mode):03o}"
        raise LoginError(f"the mail login {path} is open to others (mode {mode}); close it with: chmod 600 {path}")
