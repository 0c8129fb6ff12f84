"""Files are replaced whole."""

from __future__ import annotations

import hashlib
from pathlib import Path

import pytest

from soilrota.files import file_digest, replace_file, sweep_leftovers


def test_content_and_folder_are_made(tmp_path: Path) -> None:
    """A file in a folder that is not there yet is written; a second time it is replaced."""
    file = tmp_path / "a" / "b.txt"
    replace_file(file, b"one")
    replace_file(file, b"two")
    assert file.read_bytes() == b"two"
    assert [path.name for path in file.parent.iterdir()] == ["b.txt"]
    assert file_digest(file) == hashlib.sha256(b"two").hexdigest()


def test_a_fault_leaves_the_old_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """When the disk refuses, the old file stands and nothing lies beside it."""
    file = tmp_path / "b.txt"
    replace_file(file, b"one")

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("soilrota.files.replace.os.fsync", full)
    with pytest.raises(OSError, match="No space"):
        replace_file(file, b"two")
    assert file.read_bytes() == b"one"
    assert [path.name for path in tmp_path.iterdir()] == ["b.txt"]


def test_leftovers_are_swept(tmp_path: Path) -> None:
    """What an interrupted writer left is removed, and nothing else."""
    (tmp_path / "deep").mkdir()
    left = tmp_path / "deep" / ".~programme.pdf.4711.tmp"
    left.write_bytes(b"half")
    (tmp_path / ".~mine.tmp").write_bytes(b"kept")
    assert sweep_leftovers(tmp_path) == (left,)
    assert (tmp_path / ".~mine.tmp").exists()
