"""From the files of a book to checked values of the model: every problem found, none raised.

- `load_shared`: the practice, its protocols, its laboratories.
- `client_ids`: which clients there are.
- `load_client`: one client, held against every rule across its files.
- `read_field_notes`: what was really taken, by itself.
- `read_results`: every accepted result of a client, of every issue.
- `standing`: which of several issues of a report stand, and what they changed.
- `input_files`: the files that a client's documents depend on.
"""

from soilrota.book.client_files import read_field_notes
from soilrota.book.corrections import standing
from soilrota.book.folders import client_ids, input_files
from soilrota.book.loading import load_client
from soilrota.book.parts import Shared
from soilrota.book.results import read_results
from soilrota.book.shared import load_shared
from soilrota.book.weather import load_weather

__all__ = [
    "Shared",
    "client_ids",
    "input_files",
    "load_client",
    "load_shared",
    "load_weather",
    "read_field_notes",
    "read_results",
    "standing",
]
