"""Distances, spacings and ratios that layouts are made with, from the shipped table."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import yaml

from soilrota.model.layout import BandRatio, KeptDistance, LayoutFigures, Pattern

_FILE = Path(__file__).with_name("layout.yaml")


@cache
def layout_figures() -> LayoutFigures:
    """Return distances [m], spacings [m], cores in banded rows [-] and walking speed [km/h], with their sources."""
    content = yaml.load(_FILE.read_text(encoding="utf-8"), Loader=yaml.CSafeLoader)
    return LayoutFigures(
        edge=KeptDistance(**content["edge"]),
        classes={kind: KeptDistance(**row) for kind, row in content["classes"].items()},
        least_spacing_m={pattern: content["least_spacing_m"][pattern.value] for pattern in Pattern},
        cluster_radius_m=content["cluster_radius_m"],
        narrow_m=content["narrow_m"],
        least_legs=content["least_legs"],
        reach_m=content["reach_m"],
        bands=tuple(sorted((BandRatio(**row) for row in content["bands"]), key=lambda band: band.row_spacing_cm)),
        bands_source=content["bands_source"],
        walking_speed_km_h=content["walking_speed_km_h"],
        source=content["source"],
    )
