"""Protocols, new and refined."""

from __future__ import annotations

from typing import Any

from soilrota.book.protocols import build_protocols, protocols_named
from soilrota.model.protocol import Layer
from tests.book.written import written

NEW: dict[str, Any] = {
    "id": "topsoil",
    "name": "Topsoil fertility",
    "season": "late-summer",
    "interval_months": 12,
    "layers": [{"top_cm": 10, "bottom_cm": 30}, {"top_cm": 0, "bottom_cm": 10}],
    "pattern": "transect",
    "largest_area_ha": 20,
    "analyses": ["ph.cacl2"],
}


def test_defaults() -> None:
    """What is not written is filled in; layers come from the top down."""
    (built,), problems = build_protocols(written({"protocols": [NEW]}), {})
    assert problems == ()
    protocol = built.value
    assert (protocol.tolerance_days, protocol.soil_state, protocol.laboratory) == (30, "moist", "")
    assert protocol.layers == (Layer(0.0, 10.0, 25), Layer(10.0, 30.0, 8))


def test_a_refinement_keeps_the_rest() -> None:
    """A refined protocol differs in what is written and in nothing else."""
    (built,), _ = build_protocols(written({"protocols": [NEW]}), {})
    shared = {"topsoil": built.value}
    change = {"id": "own", "based_on": "topsoil", "interval_months": 24, "layers": [{"top_cm": 0, "bottom_cm": 8}]}
    (own,), problems = build_protocols(written({"protocols": [change]}), shared)
    assert problems == ()
    assert (own.value.id, own.value.interval_months, own.value.layers) == ("own", 24, (Layer(0.0, 8.0, 25),))
    assert own.value.analyses == ("ph.cacl2",)
    assert own.value.name == "Topsoil fertility"
    assert own.value.place.path == "protocols/0"


def test_distances() -> None:
    """Spacing and edge are numbers, none where nothing is written; a refinement may set them."""
    (plain,), _ = build_protocols(written({"protocols": [NEW]}), {})
    assert (plain.value.spacing_m, plain.value.edge_m) == (None, None)
    change = {"id": "own", "based_on": "topsoil", "spacing_m": 20, "edge_m": 0}
    (own,), _ = build_protocols(written({"protocols": [change]}), {"topsoil": plain.value})
    assert (own.value.spacing_m, own.value.edge_m) == (20.0, 0.0)
    assert isinstance(own.value.edge_m, float)


def test_a_refinement_of_nothing() -> None:
    """A basis that does not exist is a problem at `based_on`, and no protocol."""
    built, (problem,) = build_protocols(written({"protocols": [{"id": "own", "based_on": "topsoil"}]}), {})
    assert built == ()
    assert (problem.code, problem.place.path) == ("unknown-protocol", "protocols/0/based_on")


def test_protocols_that_are_named() -> None:
    """Each is given once, those of zones first; unknown words are left to the rules."""
    (built,), _ = build_protocols(written({"protocols": [NEW]}), {})
    known = dict.fromkeys(("a", "b", "c"), built.value)
    assert list(protocols_named(["b", "b"], ["x", "a", "b"], known)) == ["b", "a"]
