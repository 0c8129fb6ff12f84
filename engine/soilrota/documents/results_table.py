"""`results.csv`: every accepted value of a client, one a row, for a spreadsheet or a program.

Columns: `farm`, `farm_name`, `zone`, `zone_name`, `protocol`, `protocol_name`, `bag`, `top_cm`, `bottom_cm`, `sampled`,
`received`, `reported` (ISO dates; `received` may be empty), `laboratory`, `report`, `issue`, `analysis` (code), `name`,
`qualifier` (`<`, `>` or empty), `value` (as accepted, all its figures), `unit`, `printed` (with `<` or `>` and the
decimals of the method), `as_reported` (the laboratory's own writing), `findings` and `corrections` (sentences in the
client's language; numbers have a decimal point whatever it is).
"""

from __future__ import annotations

from collections.abc import Iterator

from soilrota.documents.results_data import ResultsData
from soilrota.files import safe_table

COLUMNS = (
    "farm",
    "farm_name",
    "zone",
    "zone_name",
    "protocol",
    "protocol_name",
    "bag",
    "top_cm",
    "bottom_cm",
    "sampled",
    "received",
    "reported",
    "laboratory",
    "report",
    "issue",
    "analysis",
    "name",
    "qualifier",
    "value",
    "unit",
    "printed",
    "as_reported",
    "findings",
    "corrections",
)
_NUMBERS = ("top_cm", "bottom_cm", "value", "printed")


def results_table(data: ResultsData) -> bytes:
    """Return the results as UTF-8 CSV (RFC 4180), no text of which a spreadsheet takes for a formula."""
    return safe_table(COLUMNS, _rows(data), _NUMBERS)


def _rows(data: ResultsData) -> Iterator[dict[str, str]]:
    """Yield the rows."""
    for one in data.values:
        yield {name: _written(getattr(one, name)) for name in COLUMNS}


def _written(value: object) -> str:
    """Return a fact as text: numbers in their shortest form, nothing for what is not known."""
    if value is None:
        return ""
    return f"{value:.15g}" if isinstance(value, float) else str(value)
