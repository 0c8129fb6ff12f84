"""The values of the season page."""

from __future__ import annotations

from soilrota.documents import SeasonTask, SeasonView
from soilrota.model.windows import State


def test_a_task_of_which_little_is_known_has_no_day() -> None:
    """Rows of a client that could not be read lately may lack everything but names and state."""
    task = SeasonTask("alder-farm", "", "flat", "", State.NOT_KNOWN)
    assert (task.season, task.best, task.planned, task.papers) == (None, None, None, ())
    assert SeasonView("", (task,), ()).wanted == ()
