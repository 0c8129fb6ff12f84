"""A protocol in words, as an instruction to the crew."""

from __future__ import annotations

from soilrota.documents.dates import counted, joined, number
from soilrota.documents.words import PATTERNS, SOIL_STATES
from soilrota.language import marked, say, say_count
from soilrota.model.practice import Practice
from soilrota.model.protocol import Layer, Protocol
from soilrota.quantities import analysis_inside

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
    sentences = [
        *([protocol.purpose] if protocol.purpose else []),
        say_count(
            "One bag a zone: {layers}.",
            "{count} bags a zone, one for each layer: {layers}.",
            len(protocol.layers),
            layers=joined([_cores_words(layer, language) for layer in protocol.layers]),
        ),
        say(PATTERNS[protocol.pattern]),
        say(SOIL_STATES[protocol.soil_state]),
        say("Ask the laboratory for {analyses}.", analyses=joined(map(analysis_inside, protocol.analyses))),
    ]
    laboratory = practice.laboratories.get(protocol.laboratory)
    if laboratory is not None:
        days = counted(laboratory.turnaround_working_days, "working day", "working days")
        sentences.append(
            say("The bags go to {laboratory}, which needs {days} from receipt.", laboratory=laboratory.name, days=days)
        )
    sentences += [
        say(_REASONS[name], reason=reason) for name, reason in sorted(protocol.reasons.items()) if name in _REASONS
    ]
    return tuple(sentences)


def _cores_words(layer: Layer, language: str) -> str:
    """Return how many cores of a layer are taken."""
    cores, depth = counted(layer.cores, "core", "cores"), layer_words(layer, language)
    if layer.top_cm == 0:
        return say("{cores} of {depth} below the surface", cores=cores, depth=depth)
    return say("{cores} of {depth}", cores=cores, depth=depth)


_REASONS = {
    "cores": marked("Reason given for the number of cores: {reason}"),
    "gap_months": marked("Reason given for the waiting time: {reason}"),
    "area": marked("Reason given for the size of the zones: {reason}"),
}


def is_deep(protocol: Protocol) -> bool:
    """Return whether a core goes deeper than buried services are found."""
    return any(layer.bottom_cm > DEEP_CM for layer in protocol.layers)
