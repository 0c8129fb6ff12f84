"""Signatures in words."""

from __future__ import annotations

from datetime import date

import pytest

from soilrota.documents.signature_sentences import (
    change_sentences,
    contents_sentences,
    signature_words,
    state_sentences,
)
from soilrota.language import said_again, speaking
from soilrota.model.advice import Signature
from soilrota.model.signing import PartKind, SignState
from soilrota.problems import Place, error
from tests.documents.made import example
from tests.documents.shouting import shout, unsaid

SIGNED = Signature("a-farm", "ann-lee", "Ann Lee", "Agronomist", date(2027, 2, 20), "3f2a91c0e1b2ffff", {})
DAMAGE = error("damaged-signature", Place("records/signatures/a-farm.jsonl", 1, 1), "this is no JSON", "", "restore it")

#: A part, and what is said where it changed, is new, or is gone.
SAID = {
    "results/home/flat/topsoil/2027-02-04": (
        "results of home/flat of 4 February 2027 changed",
        "new results of home/flat of 4 February 2027",
        "results of home/flat of 4 February 2027 are gone",
    ),
    "notes/home/flat/topsoil/2027-02-04": ("field notes of home/flat of 4 February 2027 changed",),
    "acceptances/history": ("accepted findings 'history' changed",),
    "guideline/made-up": ("the guideline set made-up changed",),
    "guideline/made-up/phosphorus.colwell": ("the guideline for Colwell P in made-up changed",),
    "targets/ph.cacl2": ("the target for pH (CaCl2) changed",),
    "applications/home/lime/2026-10-01": (
        "the application of lime to home on 1 October 2026 changed",
        "a new application of lime to home on 1 October 2026",
        "the application of lime to home on 1 October 2026 is gone",
    ),
    "applications/home/lime/unknown": ("the application of lime to home on an unknown day changed",),
    "cropping/home/flat/2027": ("the crop of home/flat in 2027 changed", "a new crop of home/flat in 2027"),
    "products": ("prices of spreading changed",),
    "products/ground-lime": ("the product ground-lime changed",),
    "protocols/topsoil": ("the protocol topsoil changed",),
    "zones/home/flat": ("the zone home/flat changed", "a new zone home/flat", "the zone home/flat is gone"),
    "waits/lime": ("the waiting time after lime changed",),
    "waits/mineral-fertiliser": ("the waiting time after mineral fertiliser changed",),
    "client": ("the name, country, adviser or guideline of the client changed",),
    "advice/plausibility": ("the table plausibility of the engine changed",),
    "needs/home/flat/lime": ("the advised amount of lime for home/flat changed",),
    "later/kind": ("the part later/kind changed",),
    "results/home/flat/topsoil/some-day": ("the part results/home/flat/topsoil/some-day changed",),
}


def test_every_kind_has_its_words() -> None:
    """Nothing that is signed changes without a name."""
    assert {name.partition("/")[0] for name in SAID} >= {kind.value for kind in PartKind}


@pytest.mark.parametrize("name", SAID)
def test_what_became_of_a_part(name: str) -> None:
    """Changed, new, gone."""
    found = (
        *change_sentences({name: "a"}, {name: "b"}, "en-AU"),
        *change_sentences({}, {name: "b"}, "en-AU"),
        *change_sentences({name: "a"}, {}, "en-AU"),
    )
    assert found[: len(SAID[name])] == SAID[name]
    assert len(set(found)) == 3


def test_changes_are_english_whatever_is_spoken_and_can_be_said_again() -> None:
    """What a record or a digest keeps depends on no language; days are those of the client."""
    names = dict.fromkeys(name for name in SAID if not name.startswith("client"))
    changed = change_sentences(dict.fromkeys(names, "a"), dict.fromkeys(names, "b"), "en-AU")
    with speaking("es"):
        assert change_sentences(dict.fromkeys(names, "a"), dict.fromkeys(names, "b"), "en-AU") == changed
    assert tuple(map(said_again, changed)) == changed
    assert set(changed) == {SAID[name][0] for name in names}


def test_every_change_can_be_said_in_another_language(monkeypatch: pytest.MonkeyPatch) -> None:
    """In a language of capitals small letters stand in ids and days alone; what was kept stays English."""
    names = [name for name in SAID if "later" not in name and "some-day" not in name]
    changed = [change_sentences({name: "a"}, {name: "b"}, "en-AU")[0] for name in names]
    shout(monkeypatch)
    words = "home/flat made-up plausibility topsoil ground-lime 'history' February October home Colwell"
    ids = set(words.split())
    assert {word for one in changed for word in unsaid(said_again(one))} <= ids
    assert [str(one) for one in changed] == [SAID[name][0] for name in names]


def test_changes_come_by_kind_then_by_name() -> None:
    """Results first; what did not change is not named; two parts of one name in words are said once."""
    signed = dict.fromkeys(("zones/b/y", "zones/a/x", "client", "targets/ph.cacl2"), "a")
    now = {**signed, "zones/b/y": "b", "zones/a/x": "b", "results/a/x/deep/2027-02-04": "c"}
    now["results/a/x/topsoil/2027-02-04"] = "d"
    assert change_sentences(signed, now, "en-US") == (
        "new results of a/x of February 4, 2027",
        "the zone a/x changed",
        "the zone b/y changed",
    )
    assert change_sentences(signed, dict(signed), "en-AU") == ()


def test_who_signed() -> None:
    """Name, qualification, day and the first letters of the digest."""
    assert signature_words(SIGNED, "en-AU") == (
        "signed by Ann Lee (Agronomist) on 20 February 2027, digest 3f2a91c0e1b2"
    )


@pytest.mark.parametrize(
    ("state", "said"),
    [
        (SignState(None), ["A draft: nobody has signed it"]),
        (SignState(None, problems=(DAMAGE,)), ["A draft: the record of its signatures is damaged"]),
        (SignState(SIGNED), [f"It stands as {signature_words(SIGNED, 'en-AU')}"]),
        (
            SignState(SIGNED, ("a new zone home/flat",)),
            [f"A draft: {signature_words(SIGNED, 'en-AU')}; what changed since:", "  a new zone home/flat"],
        ),
    ],
)
def test_signed_or_a_draft(state: SignState, said: list[str]) -> None:
    """Signed only where a signature stands and nothing changed."""
    assert list(state_sentences(state, "en-AU")) == said
    assert state.is_signed == (state.signature is not None and not state.changed)


def test_what_is_being_signed() -> None:
    """Counts, the last day of sampling, the digest."""
    client = example("anvil-creek")
    first, second = contents_sentences(client, SIGNED.digest)
    assert first == "Report for Anvil Creek Pastoral (anvil-creek), digest 3f2a91c0e1b2"
    assert second == f"{len(client.results)} results of 8 zones from 6 reports, last sampled on 2 March 2026"
