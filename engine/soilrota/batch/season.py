"""`season.csv`: every task of every client, one a row, for a spreadsheet.

Columns, all text: `client`, `client_name`, `farm`, `farm_name`, `zone`, `zone_name`, `protocol`, `protocol_name`
(ids and names); `state` (where the task stands, the words of the window engine); `season`, `season_name`,
`season_first`, `season_last` (the season that the answer is about, ISO dates); `open_days` (open days of that season,
spans `first/last` joined by blanks, days already past included); `best_day` (empty where there is none, or where the
best day has passed and any open day from now on serves); `best_day_passed` (`yes` or `no`); `last_sampled` (empty when
never); `months_overdue` (empty when not overdue); `closed_days` (days of the season that spreading, leave and blackouts
take, spans as above; they may overlap); `planned_spreading` (days of the planned spreadings that take some of it);
`adviser` (name of the client's adviser); `standing`: `current`, or `last-known` where the client could not be
looked at this time and its rows are those of an earlier night.

Neither the as-of date nor anything that changes with every day stands in it. Clients by id, tasks in the order of the
client's file.
"""

from __future__ import annotations

from collections.abc import Iterable

from soilrota.batch.values import SeasonRow
from soilrota.files import safe_table

SEASON_FILE = "season.csv"
COLUMNS = (
    "client",
    "client_name",
    "farm",
    "farm_name",
    "zone",
    "zone_name",
    "protocol",
    "protocol_name",
    "state",
    "season",
    "season_name",
    "season_first",
    "season_last",
    "open_days",
    "best_day",
    "best_day_passed",
    "last_sampled",
    "months_overdue",
    "closed_days",
    "planned_spreading",
    "adviser",
    "standing",
)


def season_table(rows: Iterable[SeasonRow]) -> bytes:
    """Return the table as UTF-8 CSV (RFC 4180), no text of which a spreadsheet takes for a formula."""
    return safe_table(COLUMNS, rows)
