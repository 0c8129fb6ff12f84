"""Cited tables: YAML beside the code, and their look-up. Every answer carries its source."""

from soilrota.guidelines.gaps import analysis_waits, gaps

__all__ = ["analysis_waits", "gaps"]
