"""Signatures as sentences: who signed, what has changed since, and what is being signed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date
from typing import NamedTuple

from soilrota.documents.dates import counted, long_day
from soilrota.documents.words import CLASSES
from soilrota.language import marked, phrase
from soilrota.model.advice import Signature
from soilrota.model.client import Client
from soilrota.model.signing import PartKind, SignState
from soilrota.quantities import analyte, method, split_code

#: So many characters of a digest are printed; the record holds all of them.
SHORT = 12
#: Stands wherever a signature is printed.
RECORD_ONLY = marked("A signature is a record of who signed what on which day. It is no proof of identity")


class _Words(NamedTuple):
    """How a part of a kind is spoken of: the names of the facts in its key, and what is said of it."""

    facts: tuple[str, ...]
    new: str
    gone: str
    changed: str


def signature_words(signature: Signature, language: str) -> str:
    """Return who signed, on which day, under which digest, without a full stop."""
    who = f"{signature.name} ({signature.qualification})"
    return f"signed by {who} on {long_day(signature.day, language)}, digest {signature.digest[:SHORT]}"


def state_sentences(state: SignState, language: str) -> Iterator[str]:
    """Yield whether a report is signed or a draft, and why, without full stops."""
    if state.problems:
        yield "A draft: the record of its signatures is damaged"
    elif state.signature is None:
        yield "A draft: nobody has signed it"
    elif state.is_signed:
        yield f"It stands as {signature_words(state.signature, language)}"
    else:
        yield f"A draft: {signature_words(state.signature, language)}; what changed since:"
        yield from (f"  {change}" for change in state.changed)


def contents_sentences(client: Client, digest: str) -> Iterator[str]:
    """Yield what is being signed, without full stops.

    Args:
        client: whose report; it has results.
        digest: of everything that is signed.
    """
    zones = {(result.farm, result.zone) for result in client.results}
    reports = {(result.laboratory, result.report) for result in client.results}
    last = max(result.sampled for result in client.results)
    yield f"Report for {client.name} ({client.id}), digest {digest[:SHORT]}"
    found, ground = counted(len(client.results), "result", "results"), counted(len(zones), "zone", "zones")
    sent, day = counted(len(reports), "report", "reports"), long_day(last, client.language)
    yield f"{found} of {ground} from {sent}, last sampled on {day}"


def change_sentences(signed: Mapping[str, str], now: Mapping[str, str], language: str) -> tuple[str, ...]:
    """Return what changed since a signature, a phrase a part, by kind and name; none only where nothing did.

    The phrases are English and can be said again in the language of a document.

    Args:
        signed: digests of the parts as they were signed, by name.
        now: digests as they are.
        language: of the client, for days.
    """
    differing = sorted((name for name in {*signed, *now} if signed.get(name) != now.get(name)), key=_order)
    return tuple(dict.fromkeys(_change(name, signed, now, language) for name in differing))


def _order(name: str) -> tuple[int, str]:
    """Return where a part is spoken of: in the order of the kinds, then by name."""
    kinds: list[str] = list(PartKind)
    kind = name.partition("/")[0]
    return kinds.index(kind) if kind in kinds else len(kinds), name


def _change(name: str, signed: Mapping[str, str], now: Mapping[str, str], language: str) -> str:
    """Return what became of one part; one that only another engine knows is called by its bare name."""
    kind, *key = name.split("/")
    words = _WORDS.get((kind, len(key)), _UNKNOWN)
    if key[-1:] == ["unknown"] and words is _WORDS[PartKind.APPLICATIONS, 3]:
        words = _UNKNOWN_DAY
    try:
        facts = {fact: _fact(fact, text, language) for fact, text in zip(words.facts, key, strict=False) if fact}
    except ValueError:  # no day where we would write one
        words = _UNKNOWN
    if words is _UNKNOWN:
        facts = {"part": name}
    said = words.new if name not in signed else words.gone if name not in now else words.changed
    return phrase(said, **facts)


def _fact(fact: str, text: str, language: str) -> str:
    """Return a word of a part's name as it is read.

    Raises:
        ValueError: there is no day where one should be.
    """
    if fact == "day":
        return long_day(date.fromisoformat(text), language)
    if fact == "analysis":
        known = method(*split_code(text)) or analyte(text.partition(".")[0])
        return phrase(known.name) if known else text
    return phrase(CLASSES.get(text, text)) if fact in {"material", "input"} else text


_UNKNOWN = _Words((), marked("a new part {part}"), marked("the part {part} is gone"), marked("the part {part} changed"))
_UNKNOWN_DAY = _Words(
    ("farm", "material"),
    marked("a new application of {material} to {farm} on an unknown day"),
    marked("the application of {material} to {farm} on an unknown day is gone"),
    marked("the application of {material} to {farm} on an unknown day changed"),
)
#: How a part is spoken of, by its kind and the number of words in its key.
_WORDS: Mapping[tuple[str, int], _Words] = {
    (PartKind.RESULTS, 4): _Words(
        ("farm", "zone", "", "day"),
        marked("new results of {farm}/{zone} of {day}"),
        marked("results of {farm}/{zone} of {day} are gone"),
        marked("results of {farm}/{zone} of {day} changed"),
    ),
    (PartKind.NOTES, 4): _Words(
        ("farm", "zone", "", "day"),
        marked("new field notes of {farm}/{zone} of {day}"),
        marked("field notes of {farm}/{zone} of {day} are gone"),
        marked("field notes of {farm}/{zone} of {day} changed"),
    ),
    (PartKind.ACCEPTANCES, 1): _Words(
        ("rule",),
        marked("new accepted findings '{rule}'"),
        marked("accepted findings '{rule}' are gone"),
        marked("accepted findings '{rule}' changed"),
    ),
    (PartKind.GUIDELINE, 1): _Words(
        ("guideline",),
        marked("a new guideline set {guideline}"),
        marked("the guideline set {guideline} is gone"),
        marked("the guideline set {guideline} changed"),
    ),
    (PartKind.GUIDELINE, 2): _Words(
        ("guideline", "analysis"),
        marked("a new guideline for {analysis} in {guideline}"),
        marked("the guideline for {analysis} in {guideline} is gone"),
        marked("the guideline for {analysis} in {guideline} changed"),
    ),
    (PartKind.TARGETS, 1): _Words(
        ("analysis",),
        marked("a new target for {analysis}"),
        marked("the target for {analysis} is gone"),
        marked("the target for {analysis} changed"),
    ),
    (PartKind.APPLICATIONS, 3): _Words(
        ("farm", "material", "day"),
        marked("a new application of {material} to {farm} on {day}"),
        marked("the application of {material} to {farm} on {day} is gone"),
        marked("the application of {material} to {farm} on {day} changed"),
    ),
    (PartKind.CROPPING, 3): _Words(
        ("farm", "zone", "year"),
        marked("a new crop of {farm}/{zone} in {year}"),
        marked("the crop of {farm}/{zone} in {year} is gone"),
        marked("the crop of {farm}/{zone} in {year} changed"),
    ),
    (PartKind.PRODUCTS, 0): _Words(
        (),
        marked("new prices of spreading"),
        marked("prices of spreading are gone"),
        marked("prices of spreading changed"),
    ),
    (PartKind.PRODUCTS, 1): _Words(
        ("product",),
        marked("a new product {product}"),
        marked("the product {product} is gone"),
        marked("the product {product} changed"),
    ),
    (PartKind.PROTOCOLS, 1): _Words(
        ("protocol",),
        marked("a new protocol {protocol}"),
        marked("the protocol {protocol} is gone"),
        marked("the protocol {protocol} changed"),
    ),
    (PartKind.ZONES, 2): _Words(
        ("farm", "zone"),
        marked("a new zone {farm}/{zone}"),
        marked("the zone {farm}/{zone} is gone"),
        marked("the zone {farm}/{zone} changed"),
    ),
    (PartKind.WAITS, 1): _Words(
        ("material",),
        marked("a new waiting time after {material}"),
        marked("the waiting time after {material} is gone"),
        marked("the waiting time after {material} changed"),
    ),
    (PartKind.CLIENT, 0): _Words(
        (),
        marked("a new name, country, adviser or guideline of the client"),
        marked("the name, country, adviser or guideline of the client is gone"),
        marked("the name, country, adviser or guideline of the client changed"),
    ),
    (PartKind.ADVICE, 1): _Words(
        ("table",),
        marked("a new table {table} of the engine"),
        marked("the table {table} of the engine is gone"),
        marked("the table {table} of the engine changed"),
    ),
    (PartKind.NEEDS, 3): _Words(
        ("farm", "zone", "input"),
        marked("a new advised amount of {input} for {farm}/{zone}"),
        marked("the advised amount of {input} for {farm}/{zone} is gone"),
        marked("the advised amount of {input} for {farm}/{zone} changed"),
    ),
}
