"""User and password: from where the book says, kept safely, never shown."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from soilrota.delivery.faults import LoginError
from soilrota.delivery.login import Login, find_login, read_login
from soilrota.model.mail import LoginFrom

SECRET = "corr-ect horse"  # noqa: S105 - invented


@pytest.fixture
def file(tmp_path: Path) -> Path:
    """Return a file with a login that its owner alone can read."""
    path = tmp_path / "login"
    path.write_text(f"small\n{SECRET}\n", encoding="utf-8")
    path.chmod(0o600)
    return path


def test_from_the_environment(tmp_path: Path) -> None:
    """Two variables; the words of a refusal name the missing one and no value."""
    environment = {"SOILROTA_MAIL_USER": "small", "SOILROTA_MAIL_PASSWORD": SECRET}
    assert find_login(LoginFrom.ENVIRONMENT, environment, tmp_path) == Login("small", SECRET)
    del environment["SOILROTA_MAIL_USER"]
    with pytest.raises(LoginError, match="SOILROTA_MAIL_USER") as told:
        find_login(LoginFrom.ENVIRONMENT, environment, tmp_path)
    assert SECRET not in str(told.value)


def test_none_is_asked_for(tmp_path: Path) -> None:
    """Then none is looked for."""
    assert find_login(LoginFrom.NONE, {"SOILROTA_MAIL_USER": "small"}, tmp_path) is None


def test_from_a_file(file: Path, tmp_path: Path) -> None:
    """The environment names it."""
    book = tmp_path / "book"
    assert find_login(LoginFrom.FILE, {"SOILROTA_MAIL_LOGIN": str(file)}, book) == Login("small", SECRET)
    with pytest.raises(LoginError, match="SOILROTA_MAIL_LOGIN"):
        find_login(LoginFrom.FILE, {}, book)


@pytest.mark.parametrize("mode", [0o640, 0o604, 0o620, 0o602, 0o610, 0o666])
def test_a_file_that_others_can_open_is_refused(file: Path, tmp_path: Path, mode: int) -> None:
    """Read, write or run, by group or others; the words say how to close it."""
    file.chmod(mode)
    with pytest.raises(LoginError, match=f"mode {mode:03o}.*chmod 600"):
        read_login(file, tmp_path / "book")


def test_a_file_in_the_book_is_refused(file: Path) -> None:
    """Also through a link: books are shared."""
    book = file.parent / "book"
    book.mkdir()
    inside = book / "login"
    file.rename(inside)
    file.symlink_to(inside)
    for path in (inside, file):
        with pytest.raises(LoginError, match="lies in the book"):
            read_login(path, book)


@pytest.mark.parametrize("content", [b"", b"small\n", b"small\n\n", b"small\nhorse\nmore\n", b"\xff\xfe\n\xff\n"])
def test_a_file_of_another_form_is_refused(file: Path, tmp_path: Path, content: bytes) -> None:
    """And nothing of what it holds is told."""
    file.write_bytes(content)
    with pytest.raises(LoginError, match="two lines") as told:
        read_login(file, tmp_path / "book")
    assert "horse" not in str(told.value)


def test_no_file_and_no_ordinary_file(tmp_path: Path) -> None:
    """A folder or a pipe is none, and nothing waits for it."""
    os.mkfifo(tmp_path / "pipe", 0o600)
    for name, said in (("missing", "cannot be read"), (".", "lies in|no ordinary"), ("pipe", "no ordinary file")):
        with pytest.raises(LoginError, match=said):
            read_login(tmp_path / name, tmp_path / "book")


def test_a_password_does_not_show() -> None:
    """In a printed value, for instance of a failed test or a log."""
    assert SECRET not in repr(Login("small", SECRET))
