"""The field calendar: visits of all clients placed on the days of the people who sample.

```
calendar      inputs → calendar: the plan, what is late or left over and why, how far from the best
  frame         inputs as numbered visits, people and days; points of a visit on a day
    travel        great-circle distance → minutes of driving; the shortest round of up to five farms
  draft         a plan in the making, and its score
  greedy        the first plan: visit by visit; long visits split over days
  search        parts of the plan solved again: which part, when to stop
    rounds        one part as a model: every feasible day of every person in it is one choice
  bound         what no calendar can beat
  leftovers     why a visit is late or has no day
checks        an independent reading of the promises, in the most obvious way
weeks         the calendar week by week, as plain data
```
"""

from soilrota.timing.field_calendar.calendar import plan_calendar
from soilrota.timing.field_calendar.checks import broken_promises
from soilrota.timing.field_calendar.weeks import weeks

__all__ = ["broken_promises", "plan_calendar", "weeks"]
