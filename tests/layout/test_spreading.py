"""Some of many: as many as asked for, evenly, and within the points of the layer before."""

from __future__ import annotations

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from soilrota.layout.spreading import points_of_layers, spread


@given(many=st.integers(0, 200), data=st.data())
def test_spread_evenly(many: int, data: st.DataObject) -> None:
    """Gaps differ by one at most, and both ends are left out alike."""
    few = data.draw(st.integers(0, many))
    chosen = spread(few, many)
    assert len(set(chosen)) == few
    assert all(0 <= number < many for number in chosen)
    gaps = [after - before for before, after in pairwise(chosen)]
    assert max(gaps, default=0) - min(gaps, default=0) <= 1
    assert few == 0 or abs(chosen[0] - (many - 1 - chosen[-1])) <= 1


def test_a_layer_with_fewer_cores_is_taken_over_the_whole_walk() -> None:
    """25 cores at the top, 8 and 6 below: the 8 are spread over the 25, the 6 lie among the 8."""
    top, middle, deep = points_of_layers([25, 8, 6])
    assert top == list(range(25))
    assert middle == [1, 4, 7, 10, 14, 17, 20, 23]
    assert set(deep) < set(middle)
    assert len(deep) == 6


@given(cores=st.lists(st.integers(1, 60), min_size=1, max_size=6))
def test_every_layer_has_its_cores(cores: list[int]) -> None:
    """Every layer has as many points as cores; the layer with the most is taken everywhere; sets lie in each other."""
    taken = points_of_layers(cores)
    assert [len(set(points)) for points in taken] == cores
    assert list(range(max(cores))) in taken
    ordered = sorted(taken, key=len)
    assert all(set(small) <= set(large) for small, large in pairwise(ordered))


def test_no_layers() -> None:
    """Nothing is taken where there is no layer."""
    assert points_of_layers([]) == []
