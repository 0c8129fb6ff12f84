"""Cited tables: YAML beside the code, and their look-up. Every answer carries its source."""

from soilrota.guidelines.gaps import analysis_waits, gaps
from soilrota.guidelines.soil_water import WaterFigures, water_figures

__all__ = ["WaterFigures", "analysis_waits", "gaps", "water_figures"]
