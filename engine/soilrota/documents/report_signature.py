"""The signature block of a report, and the words that stand on every page of a draft."""

from __future__ import annotations

from soilrota.documents.dates import long_day
from soilrota.documents.report_views import SignatureView
from soilrota.documents.signature_sentences import RECORD_ONLY, SHORT
from soilrota.model.client import Client
from soilrota.model.signing import SignState


def signature_view(client: Client, state: SignState) -> SignatureView:
    """Return whether a client's reports are signed, who signed or must sign, and what changed since."""
    adviser = client.practice.people[client.adviser]
    who = ", ".join(filter(None, (adviser.name, adviser.qualification)))
    signed = state.signature
    if state.is_signed and signed is not None:
        lines = (
            f"Signed by {signed.name}, {signed.qualification}, on {long_day(signed.day, client.language)}.",
            f"The signature covers the data that this report rests on, digest {signed.digest[:SHORT]}.",
            f"{RECORD_ONLY}.",
        )
        return SignatureView(is_signed=True, banner="", who=f"{signed.name}, {signed.qualification}", lines=lines)
    why = (
        f"This is a draft. It must be signed by {who} before anybody acts on it.",
        *_why_draft(state, client.language),
    )
    banner = f"DRAFT · not signed · {adviser.name} must sign"
    return SignatureView(is_signed=False, banner=banner, who=who, lines=why)


def _why_draft(state: SignState, language: str) -> tuple[str, ...]:
    """Return what became of an earlier signature."""
    if state.problems:
        return ("The record of its signatures is damaged and must be mended first.",)
    if state.signature is None:
        return ()
    day = long_day(state.signature.day, language)
    changed = "; ".join(state.changed)
    return (f"It was signed by {state.signature.name} on {day}. Since then: {changed}.",)
