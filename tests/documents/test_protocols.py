"""Protocols in words."""

from __future__ import annotations

from dataclasses import replace

from soilrota.documents.protocols import is_deep, protocol_sentences
from tests.documents.made import example


def test_a_protocol_is_an_instruction() -> None:
    """Cores, depth, pattern, analyses by name, laboratory and its time."""
    client = example("brolga-plains")
    said = protocol_sentences(client.protocols["deep-nitrogen"], client.practice, "en-AU")
    text = " ".join(said)
    assert "3 bags a zone, one for each layer: 25 cores of 0–10 cm below the surface" in text
    assert "8 cores of 30–60 cm." in text
    assert "nitrate N (KCl) and ammonium N (KCl)" in text
    assert "North Bench Laboratory, which needs 8 working days" in text
    assert is_deep(client.protocols["deep-nitrogen"])


def test_written_reasons_are_printed() -> None:
    """A departure from the practice's minimum is told with its reason."""
    client = example("brolga-plains")
    protocol = replace(client.protocols["topsoil-crop"], reasons={"cores": "Stony ground."})
    assert "Reason given for the number of cores: Stony ground." in protocol_sentences(
        protocol, client.practice, "en-AU"
    )
    assert not is_deep(protocol)
