"""How many random tasks the long checks draw: few in an ordinary run, the full count with SOILROTA_LONG=1."""

from __future__ import annotations

import os

#: Random tasks held against the day-by-day oracle.
RANDOM_TASKS = 20_000 if os.environ.get("SOILROTA_LONG") == "1" else 1_500
