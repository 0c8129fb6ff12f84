"""Minutes of a visit, from figures that are easy to add up."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from soilrota.model.protocol import Layer
from soilrota.model.visits import WorkMinutes, ZoneWork
from soilrota.timing.visit_minutes import visit_minutes

FIGURES = WorkMinutes(arrival=20, zone_set_up=10, walking_a_hectare=1.5, topsoil_core=1, deep_core_each_30_cm=4)
TOPSOIL = Layer(0, 10, 25)


def work(zone: str, *layers: Layer, area_ha: float = 10.0) -> ZoneWork:
    """Return work in a zone of the home block."""
    return ZoneWork("home", zone, area_ha, layers)


def test_a_topsoil_sample() -> None:
    """20 to arrive, 10 to set up, 15 to walk 10 ha, 25 cores of a minute."""
    assert visit_minutes([work("flat", TOPSOIL)], FIGURES) == 70


def test_no_work_takes_no_time() -> None:
    """Without a task nobody arrives."""
    assert visit_minutes([], FIGURES) == 0


def test_deep_layers_share_their_holes() -> None:
    """Layers to 30, 60 and 90 cm with 8 cores are 8 holes of three 30 cm steps, 4 minutes each."""
    deep = [Layer(10, 30, 8), Layer(30, 60, 8), Layer(60, 90, 6)]
    assert visit_minutes([work("flat", TOPSOIL, *deep)], FIGURES) == 70 + 8 * 3 * 4


def test_a_profile_from_the_surface_is_deep_work() -> None:
    """A core from the surface to 60 cm is not a topsoil core."""
    assert visit_minutes([work("flat", Layer(0, 60, 5), area_ha=0)], FIGURES) == 20 + 10 + 5 * 2 * 4


def test_two_protocols_on_one_zone_share_what_they_can() -> None:
    """Set-up, walking and the common layer are taken once, with the greater number of cores."""
    both = [work("flat", TOPSOIL), work("flat", Layer(0, 10, 30), Layer(10, 30, 2))]
    assert visit_minutes(both, FIGURES) == 20 + 10 + 15 + 30 + 8


@given(st.lists(st.sampled_from(["flat", "crest", "hollow"]), min_size=1, max_size=6))
def test_sharing_never_takes_longer_and_order_does_not_matter(zones: list[str]) -> None:
    """A visit for all tasks is at most as long as one visit a task, and the same in any order."""
    pieces = [work(zone, TOPSOIL, Layer(10, 40, 1 + index)) for index, zone in enumerate(zones)]
    together = visit_minutes(pieces, FIGURES)
    assert together <= sum(visit_minutes([piece], FIGURES) for piece in pieces)
    assert together == visit_minutes(reversed(pieces), FIGURES)
