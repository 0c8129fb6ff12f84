"""Folders of clients: bad names, links, strays."""

from __future__ import annotations

from pathlib import Path

import pytest

from soilrota.book.folders import client_ids, input_files, is_id, stray_files
from soilrota.problems import Severity


def add_client(root: Path, name: str) -> Path:
    """Make a client's folder with an empty file in it."""
    folder = root / "clients" / name
    folder.mkdir(parents=True)
    (folder / "client.yaml").write_text("", encoding="utf-8")
    return folder


@pytest.mark.parametrize(
    ("name", "good"),
    [
        ("anvil-creek", True),
        ("a", True),
        ("2-rivers", True),
        ("x" * 64, True),
        ("console", True),
        ("x" * 65, False),
        ("", False),
        ("-a", False),
        ("a-", False),
        ("a--b", False),
        ("A", False),
        ("a_b", False),
        ("a.b", False),
        ("..", False),
        ("a b", False),
        ("a\n", False),
        ("é", False),
        ("con", False),
        ("nul", False),
        ("com1", False),
        ("lpt9", False),
    ],
)
def test_ids(name: str, good: bool) -> None:
    """An id can be part of a path on any system."""
    assert is_id(name) is good


def test_clients_in_order(tmp_path: Path) -> None:
    """Good folders come sorted; hidden files are no clients."""
    for name in ("willow", "anvil-creek", "moor-1"):
        add_client(tmp_path, name)
    (tmp_path / "clients" / ".DS_Store").write_bytes(b"")
    assert client_ids(tmp_path) == (("anvil-creek", "moor-1", "willow"), ())


def test_no_clients(tmp_path: Path) -> None:
    """A book without the folder is an error; an empty folder is for the caller to judge."""
    ids, problems = client_ids(tmp_path)
    assert ids == ()
    assert [problem.code for problem in problems] == ["no-clients-folder"]
    (tmp_path / "clients").mkdir()
    assert client_ids(tmp_path) == ((), ())


@pytest.mark.parametrize(
    ("name", "mend"),
    [("Anvil Creek", "anvil-creek"), ("con", "rename it"), ("a_b", "a-b"), ("x" * 80, "x" * 64)],
)
def test_a_bad_name(tmp_path: Path, name: str, mend: str) -> None:
    """A folder whose name cannot be an id is left out, and a name that can be is offered."""
    add_client(tmp_path, name)
    add_client(tmp_path, "moor")
    ids, (problem,) = client_ids(tmp_path)
    assert ids == ("moor",)
    assert problem.code == "bad-id"
    assert problem.mend.endswith(mend)


def test_names_that_differ_in_case(tmp_path: Path) -> None:
    """Neither of two names that differ in case only is read."""
    add_client(tmp_path, "moor")
    add_client(tmp_path, "Moor")
    ids, problems = client_ids(tmp_path)
    assert ids == ()
    assert [(problem.place.file, problem.code) for problem in problems] == [
        ("clients/Moor", "bad-id"),
        ("clients/Moor", "same-id"),
        ("clients/moor", "same-id"),
    ]


def test_links(tmp_path: Path, tmp_path_factory: pytest.TempPathFactory) -> None:
    """A link inside the book is a folder like any other; one that leads out is refused, also one that leads nowhere."""
    outside = add_client(tmp_path_factory.mktemp("outside"), "willow")
    real = add_client(tmp_path, "moor")
    (tmp_path / "clients" / "heath").symlink_to(real, target_is_directory=True)
    (tmp_path / "clients" / "willow").symlink_to(outside, target_is_directory=True)
    (tmp_path / "clients" / "ridge").symlink_to(tmp_path.parent / "nowhere", target_is_directory=True)
    ids, problems = client_ids(tmp_path)
    assert ids == ("heath", "moor")
    assert [problem.code for problem in problems] == ["link-leaves-book"] * 2


def test_a_folder_without_its_file_and_a_stray_file(tmp_path: Path) -> None:
    """A folder needs client.yaml; a file among the folders is a warning."""
    (tmp_path / "clients" / "moor").mkdir(parents=True)
    (tmp_path / "clients" / "moor.yaml").write_text("", encoding="utf-8")
    ids, problems = client_ids(tmp_path)
    assert ids == ()
    assert [(problem.code, problem.severity) for problem in problems] == [
        ("client-file-missing", Severity.ERROR),
        ("stray-file", Severity.WARNING),
    ]


def test_a_file_that_nobody_reads(tmp_path: Path) -> None:
    """A misspelt file would be passed over in silence: it is named, with its right name; other files are left alone."""
    folder = add_client(tmp_path, "moor")
    for name in ("application.csv", "photo.jpg", "notes.txt"):
        (folder / name).write_text("", encoding="utf-8")
    (problem,) = stray_files(tmp_path, "moor")
    assert problem.mend == "rename it to applications.csv"


def test_input_files(tmp_path: Path) -> None:
    """The files that documents depend on are those that exist, of this client only, with the logo."""
    add_client(tmp_path, "moor")
    add_client(tmp_path, "heath")
    for name in (
        "practice.yaml",
        "laboratories/b.yaml",
        "records/results/moor/r1.csv",
        "records/results/heath/r2.csv",
        "clients/moor/map.geojson",
        "logo.png",
        "other.png",
    ):
        path = tmp_path / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text("", encoding="utf-8")
    names = [path.relative_to(tmp_path).as_posix() for path in input_files(tmp_path, "moor", "logo.png")]
    assert names == [
        "clients/moor/client.yaml",
        "clients/moor/map.geojson",
        "laboratories/b.yaml",
        "logo.png",
        "practice.yaml",
        "records/results/moor/r1.csv",
    ]
