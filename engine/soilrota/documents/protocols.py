"""A protocol in words, as an instruction to the crew."""

from __future__ import annotations

from soilrota.documents.dates import counted, joined, number
from soilrota.documents.words import PATTERNS, SOIL_STATES
from soilrota.model.practice import Practice
from soilrota.model.protocol import Layer, Protocol
from soilrota.quantities import analysis_name

#: From this depth on, buried services are looked for first [cm]. Common practice, no source.
DEEP_CM = 30


def layer_words(layer: Layer, language: str) -> str:
    """Return a depth layer in words.

    >>> layer_words(Layer(0, 7.5, 25), "en-GB")
    '0–7.5 cm'
    """
    return depth_words(layer.top_cm, layer.bottom_cm, language)


def depth_words(top_cm: float, bottom_cm: float, language: str) -> str:
    """Return a depth from `top_cm` to `bottom_cm` [cm] in words."""
    return f"{number(top_cm, language)}–{number(bottom_cm, language)} cm"


def protocol_sentences(protocol: Protocol, practice: Practice, language: str) -> tuple[str, ...]:
    """Return how to sample, a sentence an entry."""
    bags = "One bag a zone" if len(protocol.layers) == 1 else f"{len(protocol.layers)} bags a zone, one for each layer"
    layers = [
        f"{counted(layer.cores, 'core', 'cores')} of {layer_words(layer, language)}"
        + (" below the surface" if layer.top_cm == 0 else "")
        for layer in protocol.layers
    ]
    sentences = [
        *([protocol.purpose] if protocol.purpose else []),
        f"{bags}: {joined(layers)}.",
        PATTERNS[protocol.pattern],
        SOIL_STATES[protocol.soil_state],
        f"Ask the laboratory for {joined([analysis_name(code) for code in protocol.analyses])}.",
    ]
    laboratory = practice.laboratories.get(protocol.laboratory)
    if laboratory is not None:
        turnaround = counted(laboratory.turnaround_working_days, "working day", "working days")
        sentences.append(f"The bags go to {laboratory.name}, which needs {turnaround} from receipt.")
    sentences += [
        f"{_REASONS[name]}: {reason}" for name, reason in sorted(protocol.reasons.items()) if name in _REASONS
    ]
    return tuple(sentences)


_REASONS = {
    "cores": "Reason given for the number of cores",
    "gap_months": "Reason given for the waiting time",
    "area": "Reason given for the size of the zones",
}


def is_deep(protocol: Protocol) -> bool:
    """Return whether a core goes deeper than buried services are found."""
    return any(layer.bottom_cm > DEEP_CM for layer in protocol.layers)
