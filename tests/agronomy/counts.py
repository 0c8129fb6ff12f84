"""How many random cases the checks draw: few in an ordinary run, the full count with SOILROTA_LONG=1."""

from __future__ import annotations

import os

_IS_LONG = os.environ.get("SOILROTA_LONG") == "1"
#: Zones of the reliability table.
RELIABILITY_CASES = 100_000 if _IS_LONG else 6_000
#: Random series that are held against an independent library.
RANDOM_SERIES = 3_000 if _IS_LONG else 200
#: Random clients whose trends are held against the rules.
RANDOM_CLIENTS = 1_000 if _IS_LONG else 60
#: Random results whose needs are held against what must hold.
RANDOM_NEEDS = 2_000 if _IS_LONG else 100
