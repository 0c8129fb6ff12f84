"""What makes documents, loaded once for all workers of a night: the fork server imports this before it forks any.

Every step of a night has workers of its own, and each of them would otherwise spend seconds on loading the same
libraries, tables, fonts and styles. What is loaded here is memory that they share.
"""

from __future__ import annotations

import os
from collections.abc import Callable
from contextlib import suppress
from importlib import import_module

#: Jobs of the night, and libraries that the engine loads only where it needs them.
LOADED = (
    "soilrota.batch.work",
    "soilrota.batch.calendar_work",
    "soilrota.batch.checks_work",
    "soilrota.batch.pack_work",
    "soilrota.batch.report_work",
    "soilrota.layout.zone_layout",
    "soilrota.book.rules.ground",
    "soilrota.documents.fetcher",
    "soilrota.files.validators",
    "gpxpy",
    "holidays.countries",
    "xlsxwriter",
    "ortools.sat.python.cp_model",
    "periodictable",
    "scipy.optimize",
    "scipy.special",
    "segno",
)


def _steps() -> tuple[Callable[[], object], ...]:
    """Return what is done beyond loading; the last takes all that is there by then away from the garbage collector."""
    from soilrota.batch.signing import table_digests  # noqa: PLC0415 - only where it was loaded
    from soilrota.batch.work import warm_worker  # noqa: PLC0415 - as above
    from soilrota.documents.environments import load_templates  # noqa: PLC0415 - as above
    from soilrota.guidelines.sets import guideline_sets  # noqa: PLC0415 - as above
    from soilrota.quantities.units import load_units  # noqa: PLC0415 - as above

    return load_units, load_templates, guideline_sets, table_digests, warm_worker


def warm() -> None:
    """Load everything; what cannot be loaded is left for the worker that needs it, whose fault it then is.

    Ends early where the night itself has ended: the fork server looks after that only once it has loaded.
    """
    night = os.getppid()
    for name in LOADED:
        if os.getppid() != night:
            return
        with suppress(Exception):
            import_module(name)
    with suppress(Exception):
        for step in _steps():
            with suppress(Exception):
                step()


warm()
