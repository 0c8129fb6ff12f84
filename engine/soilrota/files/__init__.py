"""Files of the book to checked values with places; and files replaced whole.

In: paths of files a person wrote. Out: `Document` and `Table` with the place of every value, and every `Problem`.
"""

from soilrota.files.document import Document
from soilrota.files.reading import read_geojson, read_yaml
from soilrota.files.replace import file_digest, replace_file, sweep_leftovers
from soilrota.files.shipped import shipped
from soilrota.files.suggest import nearest_name
from soilrota.files.tables import Row, Table, as_day, read_csv

__all__ = [
    "Document",
    "Row",
    "Table",
    "as_day",
    "file_digest",
    "nearest_name",
    "read_csv",
    "read_geojson",
    "read_yaml",
    "replace_file",
    "shipped",
    "sweep_leftovers",
]
