"""Who signed, or who must."""

from __future__ import annotations

from dataclasses import replace

from soilrota.documents.report_signature import signature_view
from soilrota.model.signing import SignState
from soilrota.problems import Place, error
from tests.documents.made import example
from tests.documents.reports import SIGNED

CLIENT = example("anvil-creek")


def test_a_draft_names_who_must_sign() -> None:
    """On every page and in the block."""
    view = signature_view(CLIENT, SignState(None))
    assert view.banner == "DRAFT · not signed · Mara Ellis must sign"
    assert view.lines[0].startswith("This is a draft. It must be signed by Mara Ellis, Agronomist")


def test_signed_with_name_qualification_and_date() -> None:
    """And that it proves no identity."""
    view = signature_view(CLIENT, SIGNED)
    assert (view.is_signed, view.banner) == (True, "")
    assert view.lines[0] == "Signed by Mara Ellis, Agronomist, on 10 February 2027."
    assert view.lines[-1].endswith("It is no proof of identity.")


def test_what_took_the_signature_away_is_named() -> None:
    """A change, or a record that cannot be read."""
    changed = signature_view(CLIENT, replace(SIGNED, changed=("the target for Colwell P changed",)))
    assert not changed.is_signed
    assert changed.lines[1].endswith("Since then: the target for Colwell P changed.")
    damaged = signature_view(CLIENT, SignState(None, problems=(error("damaged-signature", Place("x"), "a", "b", "c"),)))
    assert "damaged" in damaged.lines[1]
