"""What all clients share."""

from __future__ import annotations

import pickle

from soilrota.book import load_shared
from tests.book.small_book import Book


def test_the_shared_files(book: Book) -> None:
    """Practice, protocols and laboratories are read; waiting times that the practice does not name are the engine's."""
    shared, problems = book.shared()
    assert problems == ()
    assert shared is not None
    assert set(shared.protocols) == {"topsoil"}
    laboratory = shared.practice.laboratories["north-bench"]
    assert (laboratory.receiving_weekdays, laboratory.courier_days) == ((1, 2, 3, 4), 2)
    classes = {"mineral-fertiliser", "lime", "gypsum", "manure", "compost", "biosolids", "other-amendment"}
    assert set(shared.practice.gaps) == classes
    assert shared.practice.gaps["lime"].months >= 3
    assert shared.practice.gaps["manure"].place.file == "practice.yaml"
    assert (shared.practice.night.deadline_s, shared.practice.night.memory_mb) == (120.0, 1024)


def test_it_travels_to_workers(book: Book) -> None:
    """What the clients share can be sent to another process."""
    shared, _ = book.shared()
    assert pickle.loads(pickle.dumps(shared)) == shared  # noqa: S301 - our own bytes


def test_problems_of_all_shared_files_together(book: Book) -> None:
    """A mistake in each of the files is found in one run."""
    book.edit("practice.yaml", "role: sampler", "role: digger")
    book.edit("protocols.yaml", "pattern: transect", "pattern: spiral")
    book.edit("laboratories/north-bench.yaml", "courier_days: 2", "courier_days: two")
    book.write("laboratories/South Bench.yaml", "name: South Bench\n")
    shared, problems = book.shared()
    assert shared is None
    assert {problem.place.file for problem in problems} == {
        "practice.yaml",
        "protocols.yaml",
        "laboratories/north-bench.yaml",
        "laboratories/South Bench.yaml",
    }


def test_no_practice(book: Book) -> None:
    """A folder without practice.yaml is no book; one without protocols.yaml may be."""
    (book.root / "protocols.yaml").unlink()
    shared, problems = book.shared()
    assert shared is not None
    assert problems == ()
    (book.root / "practice.yaml").unlink()
    shared, problems = load_shared(book.root)
    assert shared is None
    assert [problem.place.file for problem in problems] == ["practice.yaml"]
