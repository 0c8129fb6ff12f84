"""What came back: laboratory files read and matched to bags, what was really taken, whether results can be believed.

```
find_form_for   a file's cells, all forms of the laboratories → the form in which it is written
read_rows       cells by that form → rows with facts and values in the glossary's units, or set aside
match_rows      rows → bags, zones and days, or set aside
versions_of     matched rows, what is known → which issue of which report, what is to be written
check_results   results of a client → findings: limits, relations, the zone's history, swapped bags
check_notes     field notes → findings about samples
missing_bags    field notes, results → bags that have not come back
```
"""

from soilrota.results.acceptances import idle_acceptances, with_acceptances
from soilrota.results.accepting import results_table
from soilrota.results.check_charts import findings_for, laboratory_state
from soilrota.results.field_checks import check_notes
from soilrota.results.form_finding import find_form_for
from soilrota.results.laboratory_table import as_table
from soilrota.results.matching import match_rows
from soilrota.results.missing_bags import missing_bags
from soilrota.results.plausibility import check_results, waiting
from soilrota.results.reading import read_rows
from soilrota.results.set_aside_table import set_aside_table
from soilrota.results.versions import versions_of

__all__ = [
    "as_table",
    "check_notes",
    "check_results",
    "find_form_for",
    "findings_for",
    "idle_acceptances",
    "laboratory_state",
    "match_rows",
    "missing_bags",
    "read_rows",
    "results_table",
    "set_aside_table",
    "versions_of",
    "waiting",
    "with_acceptances",
]
