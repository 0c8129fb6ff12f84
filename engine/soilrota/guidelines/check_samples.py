"""When a laboratory is taken to be off by its check samples, from the shipped table."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

import yaml

from soilrota.language import phrase
from soilrota.model.check_charts import CheckLimits, CheckRule, CheckState

_FILE = Path(__file__).with_name("check_samples.yaml")


@cache
def _content() -> dict[str, Any]:
    """Return the shipped file's content."""
    content: dict[str, Any] = yaml.load(_FILE.read_text(encoding="utf-8"), Loader=yaml.CSafeLoader)
    return content


@cache
def check_limits() -> CheckLimits:
    """Return the figures of the rules."""
    rows = {CheckRule(row["rule"]): row for row in _content()["rules"]}
    return CheckLimits(
        action=float(rows[CheckRule.ACTION]["sd"]),
        warning=float(rows[CheckRule.WARNING]["sd"]),
        one_side=int(rows[CheckRule.ONE_SIDE]["checks"]),
        slack=float(rows[CheckRule.DRIFT]["slack"]),
        drift=float(rows[CheckRule.DRIFT]["limit"]),
        back=float(_content()["back"]["sd"]),
        states={rule: CheckState(row["state"]) for rule, row in rows.items()},
    )


@cache
def check_sources() -> dict[CheckRule, str]:
    """Return the source of each rule, with the word `unverified` where it was not read in print.

    That word can be said again in the language of a document.
    """
    return {
        CheckRule(row["rule"]): phrase("{source} (unverified)", source=row["source"])
        if row.get("status") == "unverified"
        else row["source"]
        for row in _content()["rules"]
    }
