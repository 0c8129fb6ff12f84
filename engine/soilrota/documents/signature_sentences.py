"""Signatures as sentences: who signed, what has changed since, and what is being signed."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date

from soilrota.documents.dates import counted, long_day
from soilrota.model.advice import Signature
from soilrota.model.client import Client
from soilrota.model.signing import PartKind, SignState
from soilrota.quantities import analysis_name

#: So many characters of a digest are printed; the record holds all of them.
SHORT = 12
#: Stands wherever a signature is printed.
RECORD_ONLY = "A signature is a record of who signed what on which day. It is no proof of identity"


@dataclass(frozen=True, slots=True)
class _Name:
    """How a part is spoken of: the words, and whether they stand for many."""

    words: str
    many: bool = False


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
    found = f"{counted(len(client.results), 'result', 'results')} of {counted(len(zones), 'zone', 'zones')}"
    yield f"{found} from {counted(len(reports), 'report', 'reports')}, last sampled on {long_day(last, client.language)}"


def change_sentences(signed: Mapping[str, str], now: Mapping[str, str], language: str) -> tuple[str, ...]:
    """Return what changed since a signature, a phrase a part, by kind and name; none only where nothing did.

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
    """Return what became of one part."""
    part = _name_of(name, language)
    article = "" if part.many else "the "
    if name not in signed:
        return f"new {part.words}" if part.many else f"a new {part.words}"
    if name not in now:
        return f"{article}{part.words} {'are' if part.many else 'is'} gone"
    return f"{article}{part.words} changed"


def _name_of(name: str, language: str) -> _Name:
    """Return how a part is spoken of; one that only another engine knows, by its bare name."""
    kind, *key = name.split("/")
    words = _WORDS.get((kind, len(key)))
    try:
        return words(language, *key) if words else _Name(f"part {name}")
    except ValueError:  # no day where we would write one
        return _Name(f"part {name}")


def _sampling(what: str) -> Callable[..., _Name]:
    """Return how something of a sampling is spoken of."""

    def words(language: str, farm: str, zone: str, _protocol: str, day: str) -> _Name:
        return _Name(f"{what} of {farm}/{zone} of {_day(day, language)}", many=True)

    return words


def _application(language: str, farm: str, material_class: str, day: str) -> _Name:
    """Return how an application is spoken of."""
    when = "on an unknown day" if day == "unknown" else f"on {_day(day, language)}"
    return _Name(f"application of {material_class} to {farm} {when}")


def _day(text: str, language: str) -> str:
    """Return a day of a part's name in full."""
    return long_day(date.fromisoformat(text), language)


#: How a part is spoken of, by its kind and the number of words in its key.
_WORDS: Mapping[tuple[str, int], Callable[..., _Name]] = {
    (PartKind.RESULTS, 4): _sampling("results"),
    (PartKind.NOTES, 4): _sampling("field notes"),
    (PartKind.ACCEPTANCES, 1): lambda _, rule: _Name(f"accepted findings '{rule}'", many=True),
    (PartKind.GUIDELINE, 1): lambda _, which: _Name(f"guideline set {which}"),
    (PartKind.GUIDELINE, 2): lambda _, which, code: _Name(f"guideline for {analysis_name(code)} in {which}"),
    (PartKind.TARGETS, 1): lambda _, code: _Name(f"target for {analysis_name(code)}"),
    (PartKind.APPLICATIONS, 3): _application,
    (PartKind.CROPPING, 3): lambda _, farm, zone, year: _Name(f"crop of {farm}/{zone} in {year}"),
    (PartKind.PRODUCTS, 0): lambda _: _Name("prices of spreading", many=True),
    (PartKind.PRODUCTS, 1): lambda _, product: _Name(f"product {product}"),
    (PartKind.PROTOCOLS, 1): lambda _, protocol: _Name(f"protocol {protocol}"),
    (PartKind.ZONES, 2): lambda _, farm, zone: _Name(f"zone {farm}/{zone}"),
    (PartKind.WAITS, 1): lambda _, material_class: _Name(f"waiting time after {material_class}"),
    (PartKind.CLIENT, 0): lambda _: _Name("name, country, adviser or guideline of the client"),
    (PartKind.ADVICE, 1): lambda _, table: _Name(f"table {table} of the engine"),
    (PartKind.NEEDS, 3): lambda _, farm, zone, what: _Name(f"advised amount of {what} for {farm}/{zone}"),
}
