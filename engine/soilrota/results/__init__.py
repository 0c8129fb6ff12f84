"""What came back: what was really taken, checked against what was planned."""

from soilrota.results.field_checks import check_notes

__all__ = ["check_notes"]
