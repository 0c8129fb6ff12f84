"""Files of the book to checked values with places; and files replaced whole.

In: paths of files a person wrote. Out: `Document` and `Table` with the place of every value, and every `Problem`.

What reads YAML and schemas is loaded at its first use: a night in which nothing changed needs none of it.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

from soilrota.files.headings import heading_key
from soilrota.files.replace import file_digest, replace_file, sweep_leftovers
from soilrota.files.shipped import shipped
from soilrota.files.spreadsheets import safe_table
from soilrota.files.suggest import nearest_name

if TYPE_CHECKING:
    from soilrota.files.document import Document
    from soilrota.files.grid_rows import Grid, GridRow
    from soilrota.files.grid_tables import unguarded, write_grid_csv
    from soilrota.files.grids import grid_of, read_grid
    from soilrota.files.other_form import OtherForm, day_of
    from soilrota.files.reading import read_geojson, read_what_can_be, read_yaml
    from soilrota.files.tables import Row, Table, as_day, read_csv

__all__ = [
    "Document",
    "Grid",
    "GridRow",
    "OtherForm",
    "Row",
    "Table",
    "as_day",
    "day_of",
    "file_digest",
    "grid_of",
    "heading_key",
    "nearest_name",
    "read_csv",
    "read_geojson",
    "read_grid",
    "read_what_can_be",
    "read_yaml",
    "replace_file",
    "safe_table",
    "shipped",
    "sweep_leftovers",
    "unguarded",
    "write_grid_csv",
]

#: Names that are loaded at their first use, and the module of each.
_LATER = {
    "Document": "document",
    "Grid": "grid_rows",
    "GridRow": "grid_rows",
    "OtherForm": "other_form",
    "Row": "tables",
    "Table": "tables",
    "as_day": "tables",
    "day_of": "other_form",
    "grid_of": "grids",
    "read_csv": "tables",
    "read_geojson": "reading",
    "read_grid": "grids",
    "read_what_can_be": "reading",
    "read_yaml": "reading",
    "unguarded": "grid_tables",
    "write_grid_csv": "grid_tables",
}


def __getattr__(name: str) -> Any:
    """Load a public name of this package at its first use (PEP 562)."""
    if name not in _LATER:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    value = getattr(import_module(f"{__name__}.{_LATER[name]}"), name)
    globals()[name] = value
    return value
