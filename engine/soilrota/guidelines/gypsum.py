"""What gypsum must bring to change sodium for calcium: constants and the arithmetic that they belong to."""

from __future__ import annotations

from functools import cache

from soilrota.guidelines.cited import Cited, cited, shipped_table

_TABLE = "gypsum"


@cache
def gypsum_figures(group: str) -> dict[str, float]:
    """Return the figures of a group: `material`, `requirement`, `incomplete`, `acre_foot` or `magnesium`.

    The table gives their units.

    Raises:
        KeyError: there is no such group: a fault of the program.
    """
    return {name: float(figure) for name, figure in shipped_table(_TABLE)[group].items() if not isinstance(figure, str)}


@cache
def gypsum_source(group: str) -> Cited:
    """Return what stands behind a group of figures."""
    return cited(_TABLE, shipped_table(_TABLE)[group])


def gypsum_requirement(sodium: float, depth_cm: float, bulk_density: float) -> float:
    """Return the pure gypsum that changes sodium for calcium, if nothing is lost [t/ha].

    Real exchange is incomplete: `gypsum_figures("incomplete")` says by how much more, and that is unverified.

    Source: equivalent mass of gypsum, from the atomic weights in Rayment and Lyons 2011.

    Args:
        sodium: exchangeable sodium that is to go [cmol(+)/kg].
        depth_cm: thickness of the layer [cm].
        bulk_density: bulk density [g/cm3].

    >>> round(gypsum_requirement(1.0, 10, 1.0), 3)
    0.861
    """
    return gypsum_figures("requirement")["factor"] * depth_cm * bulk_density * sodium
