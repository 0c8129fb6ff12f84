"""The signature block of a report, and the words that stand on every page of a draft."""

from __future__ import annotations

from soilrota.documents.dates import long_day
from soilrota.documents.report_views import SignatureView
from soilrota.documents.signature_sentences import RECORD_ONLY, SHORT
from soilrota.language import said_again, say
from soilrota.model.client import Client
from soilrota.model.signing import SignState


def signature_view(client: Client, state: SignState) -> SignatureView:
    """Return whether a client's reports are signed, who signed or must sign, and what changed since."""
    adviser = client.practice.people[client.adviser]
    who = ", ".join(filter(None, (adviser.name, adviser.qualification)))
    signed = state.signature
    if state.is_signed and signed is not None:
        record_only = say(RECORD_ONLY)
        lines = (
            say(
                "Signed by {person}, {qualification}, on {day}.",
                person=signed.name,
                qualification=signed.qualification,
                day=long_day(signed.day, client.language),
            ),
            say(
                "The signature covers the data that this report rests on, digest {digest}.",
                digest=signed.digest[:SHORT],
            ),
            f"{record_only}.",
        )
        return SignatureView(is_signed=True, banner="", who=f"{signed.name}, {signed.qualification}", lines=lines)
    why = (
        say("This is a draft. It must be signed by {person} before anybody acts on it.", person=who),
        *_why_draft(state, client.language),
    )
    banner = say("DRAFT · not signed · {person} must sign", person=adviser.name)
    return SignatureView(is_signed=False, banner=banner, who=who, lines=why)


def _why_draft(state: SignState, language: str) -> tuple[str, ...]:
    """Return what became of an earlier signature."""
    if state.problems:
        return (say("The record of its signatures is damaged and must be mended first."),)
    if state.signature is None:
        return ()
    day = long_day(state.signature.day, language)
    changed = "; ".join(map(said_again, state.changed))
    signer = state.signature.name
    return (say("It was signed by {person} on {day}. Since then: {changes}.", person=signer, day=day, changes=changed),)
