"""How many random tables the long checks draw: few in an ordinary run, the full count with SOILROTA_LONG=1."""

from __future__ import annotations

import os

#: Random tables that are written, read and held against what was written.
RANDOM_TABLES = 2_000 if os.environ.get("SOILROTA_LONG") == "1" else 120
