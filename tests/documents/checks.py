"""Charts of check samples by hand, for the tests of documents."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

from soilrota.guidelines.check_samples import check_limits
from soilrota.model.check_charts import CheckChart
from soilrota.model.check_values import CheckValue
from soilrota.model.practice import AssignedValue, CheckMaterial
from soilrota.problems import Place
from soilrota.results.check_charts import laboratory_state

LIMITS = check_limits()
DAY = date(2026, 1, 5)
LANGUAGE = "en-GB"
MATERIAL = CheckMaterial(
    "shed-loam", "Loam <of> the shed", (AssignedValue("phosphorus", "colwell", "mg/kg", 30.0, 2.0),), Place("p")
)


def a_chart(
    *deviations: float, qualifier: str = "", laboratory: str = "north-bench", days: Sequence[int] = ()
) -> CheckChart:
    """Return the chart of checks that lie so many standard deviations off, four weeks apart or on the days given."""
    values = []
    for number, z in enumerate(deviations):
        day = DAY + timedelta(days[number] if days else 28 * number)
        bag = f"Z{9000 + number}-A"
        values.append(
            CheckValue(
                laboratory=laboratory,
                report=f"R{number}",
                issue=1,
                bag=bag,
                material="shed-loam",
                sent=day - timedelta(14),
                received=None,
                reported=day,
                analyte="phosphorus",
                method="colwell",
                qualifier=qualifier,
                value=30.0 + 2.0 * z,
                unit="mg/kg",
            )
        )
    (chart,) = laboratory_state(values, {"shed-loam": MATERIAL}, date.max)
    return chart
