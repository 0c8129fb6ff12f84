"""PDF/UA-1 (ISO 14289-1) by a checker that others wrote: what of a document breaks which rule."""

from __future__ import annotations

import page


def faults(content: bytes) -> list[str]:
    """Return the rules that a PDF breaks, each with what is wrong, once."""
    report = page.validate_pdf_bytes(content, profile="ua1")
    found = dict.fromkeys(f"{one.rule_id}: {one.message}" for one in report.failures)
    return list(found) if found or report.is_compliant else ["not compliant"]
