"""Layers, cores and waiting times of protocols."""

from __future__ import annotations

import pytest

from soilrota.problems import Severity
from tests.book.small_book import Book

ONE_LAYER = "      - {top_cm: 0, bottom_cm: 10}\n"


@pytest.mark.parametrize(
    ("layers", "code"),
    [
        (("{top_cm: 0, bottom_cm: 10}", "{top_cm: 5, bottom_cm: 30}"), "layers-overlap"),
        (("{top_cm: 0, bottom_cm: 10}", "{top_cm: 15, bottom_cm: 30}"), "layers-gap"),
        (("{top_cm: 30, bottom_cm: 60}", "{top_cm: 0, bottom_cm: 20}"), "layers-gap"),
        (("{top_cm: 10, bottom_cm: 10}",), "layer-upside-down"),
        (("{top_cm: 0, bottom_cm: 10, cores: 24}",), "too-few-cores"),
        (("{top_cm: 0, bottom_cm: 10}", "{top_cm: 10, bottom_cm: 30, cores: 5}"), "too-few-cores"),
        (("{top_cm: 0, bottom_cm: 10}", "{top_cm: 10, bottom_cm: 30, cores: 7}"), "few-cores"),
    ],
)
def test_layers_and_cores(book: Book, layers: tuple[str, ...], code: str) -> None:
    """Layers join, and each has enough cores; the problem stands in the file of the protocols."""
    book.edit("protocols.yaml", ONE_LAYER, "".join(f"      - {layer}\n" for layer in layers))
    problem = book.only(shared=True)
    assert problem.code == code
    assert problem.place.file == "protocols.yaml"
    assert problem.place.line >= book.line("protocols.yaml", "layers:")
    assert (problem.severity is Severity.WARNING) == (code == "few-cores")


def test_layers_that_join_in_any_order(book: Book) -> None:
    """Layers may be written in any order; the model holds them from the top down with the usual cores."""
    book.edit("protocols.yaml", ONE_LAYER, "      - {top_cm: 10, bottom_cm: 30}\n" + ONE_LAYER)
    shared, problems = book.shared()
    assert problems == ()
    assert shared is not None
    assert [(layer.top_cm, layer.cores) for layer in shared.protocols["topsoil"].layers] == [(0.0, 25), (10.0, 8)]


def test_fewer_cores_with_a_reason(book: Book) -> None:
    """A written reason lets fewer cores pass."""
    book.edit("protocols.yaml", ONE_LAYER, "      - {top_cm: 0, bottom_cm: 10, cores: 15}\n")
    book.add("protocols.yaml", "    reasons: {cores: fixed points of five by five metres}\n")
    assert book.shared_problems() == ()


def test_own_protocols_are_held_against_the_same(book: Book) -> None:
    """A client's refinement may not take cores away either; the problem stands in the client's file."""
    book.add(
        "client.yaml",
        "protocols: [{id: topsoil, based_on: topsoil, layers: [{top_cm: 0, bottom_cm: 10, cores: 12}]}]\n",
    )
    problem = book.only()
    assert (problem.code, problem.place.line) == ("too-few-cores", book.line("client.yaml", "protocols: [{"))


def test_a_protocol_waits_no_shorter_than_the_practice(book: Book) -> None:
    """The practice waits 4 months after manure here; a protocol with 3 is refused, with 5 it is fine."""
    book.add("protocols.yaml", "    gap_months: {manure: 3}\n")
    problem = book.only(shared=True)
    assert problem.code == "gap-shorter-than-practice"
    assert "4 months" in problem.expected
    book.edit("protocols.yaml", "manure: 3", "manure: 5")
    assert book.shared_problems() == ()


@pytest.mark.parametrize("gap", ["{class: lime, months: 2}", "{class: lime, counts: false}"])
def test_the_practice_waits_three_months(book: Book, gap: str) -> None:
    """A shorter wait, or a class that does not count, needs a reason."""
    book.add("practice.yaml", f"  - {gap}\n")
    shared, problems = book.shared()
    assert shared is None
    assert all(problem.place.line == book.line("practice.yaml", gap) for problem in problems)
