"""What came back: what was really taken, checked against what was planned, and whether results can be believed."""

from soilrota.results.acceptances import idle_acceptances, with_acceptances
from soilrota.results.field_checks import check_notes
from soilrota.results.plausibility import check_results, waiting

__all__ = ["check_notes", "check_results", "idle_acceptances", "waiting", "with_acceptances"]
