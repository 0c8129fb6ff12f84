"""How much of an input a mix of products may supply beyond its need, from the shipped table."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import yaml

from soilrota.model.advice import Input

_FILE = Path(__file__).with_name("mix.yaml")


@cache
def beyond_need() -> dict[Input, float]:
    """Return what may be supplied beyond a need without a maximum [kg/ha; t/ha of pure lime or gypsum], by input.

    An input that is missing has no such limit. Source: common practice, no source.
    """
    content = yaml.load(_FILE.read_text(encoding="utf-8"), Loader=yaml.CSafeLoader)
    return {Input(name): float(amount) for name, amount in content["beyond"].items()}
