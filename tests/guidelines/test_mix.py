"""What may be supplied beyond a need: every input is either limited, or said to be without limit and why."""

from __future__ import annotations

from pathlib import Path

import yaml

from soilrota.guidelines import mix
from soilrota.guidelines.mix import beyond_need
from soilrota.model.advice import Input


def test_every_input_is_spoken_of() -> None:
    """Limits are positive; an input without one has a reason, and no publication is claimed."""
    table = yaml.safe_load(Path(mix.__file__).with_name("mix.yaml").read_text(encoding="utf-8"))
    assert all(amount > 0 for amount in beyond_need().values())
    assert {*beyond_need(), *map(Input, table["unlimited"])} == set(Input)
    assert table["source"] == "common practice, no source"
