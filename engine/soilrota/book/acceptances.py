"""From a client's file to what people said about findings on results."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any

from soilrota.book.parts import Located
from soilrota.book.places import items
from soilrota.model.result_findings import Acceptance, ResultRule


def build_acceptances(file: Located[Mapping[str, Any]]) -> tuple[Located[Acceptance], ...]:
    """Return the accepted findings, in the order of the file."""
    return tuple(
        item.holding(
            Acceptance(
                report=item.data.get("report", ""),
                bag=item.data.get("bag", ""),
                zone=item.data.get("zone", ""),
                sampled=date.fromisoformat(item.data["sampled"]) if "sampled" in item.data else None,
                rule=ResultRule(item.data["rule"]),
                analyses=tuple(item.data.get("analyses", ())),
                reason=item.data["reason"].strip(),
                by=item.data["by"],
                place=item.at(),
            )
        )
        for item in items(file, "accepted_findings")
    )
