"""When to sample: tasks, the window of a task on an as-of date, and the arithmetic of days beneath.

```
tasks     client → tasks: samplings, applications with their gaps, analysis waits
windows   task, as-of date → window; carries the frame through the steps below
  frame     which season is asked about, which day is aimed at, what closes days
    seasons   month-day spans → occurrences; the due one, the next one, the anniversary
    gaps      applications → closed days (one closer of a list)
  score     the one measure by which a day is preferred
  waits     analyses that are not ready on a day
  states    where the task stands
  ways_out  what to do when no day is left
  reasons   all of it as data
  holds     until when the answer stands
visits_of windows of a client → the fewest visits of each farm, exactly
visits_to_place  those visits, as the field calendar (a package of its own) places them
taken     field notes → what is odd about the days on which samples were really taken
spans, months   sorted disjoint spans of days; calendar months
```
"""

from soilrota.timing.changes import changes_of
from soilrota.timing.farm_visits import visits_of
from soilrota.timing.gaps import closes_until
from soilrota.timing.holds import same_but_for_passed_days
from soilrota.timing.laboratory_time import results_day
from soilrota.timing.taken import check_days
from soilrota.timing.tasks import tasks_of
from soilrota.timing.visits_to_place import visits_to_place
from soilrota.timing.windows import window_of

__all__ = [
    "changes_of",
    "check_days",
    "closes_until",
    "results_day",
    "same_but_for_passed_days",
    "tasks_of",
    "visits_of",
    "visits_to_place",
    "window_of",
]
