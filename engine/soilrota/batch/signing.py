"""What an adviser signs: inputs, guideline and results as parts with names, a digest each, and one over all of them.

A digest is over what a part says: moving a row in a file, a comment, or another writing of the same number changes
none. What only says where, when and by whom to sample (weather, seasons, contacts, map features besides zones) is no
part: the programme says it anew every night, and nobody signs it.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any, TypeVar

from soilrota.batch.canonical import canonical, digest_of_texts
from soilrota.guidelines.choosing import sets_for
from soilrota.model.advice import Need, NoNeed
from soilrota.model.client import Client, GapOverride
from soilrota.model.cropping import CropYear
from soilrota.model.guideline import GuidelineSet
from soilrota.model.practice import AnalysisWait, Gap
from soilrota.model.products import ProductList
from soilrota.model.signing import PartKind, PartName

Value = TypeVar("Value")
Parts = Iterator[tuple[PartName, str]]

_TABLES = Path(__file__).resolve().parents[1] / "guidelines"
#: Tables that say where and when to sample; waiting times are signed as the practice has them, under `waits`.
_OF_SAMPLING = frozenset({"layout", "field_work", "soil_water", "gaps"})
#: Where a row came from, and how the laboratory wrote its number: the value says what it says.
_ORIGIN = ("origin", "as_reported")
#: How a zone is sampled is no fact about its ground.
_SAMPLING = ("protocols", "last_sampled", "rows", "fixed_point")


@dataclass(frozen=True, slots=True)
class SignedValues:
    """Everything that a signature speaks of.

    Attributes:
        client: the checked client.
        sets: guideline sets that apply to its zones, a practice's own laid over the shipped one.
        cropping: its cropping plan.
        products: the products of the practice; None where it lists none.
        tables: digests of the engine's tables by name, see `table_digests`.
        needs: what the engine makes of it all, so that another engine that advises otherwise is noticed.
    """

    client: Client
    sets: tuple[GuidelineSet, ...] = ()
    cropping: tuple[CropYear, ...] = ()
    products: ProductList | None = None
    tables: Mapping[str, str] | None = None
    needs: tuple[Need | NoNeed, ...] = ()


def signed_values(client: Client) -> SignedValues:
    """Return what a client's report rests on: the one place that gathers it, for signing and for every night alike."""
    zones = (zone for farm in client.farms for zone in farm.zones)
    sets = {one.id: one for zone in zones for one in sets_for(client, zone)}
    return SignedValues(client, sets=tuple(sets.values()), tables=table_digests())


@cache
def table_digests(folder: Path = _TABLES) -> dict[str, str]:
    """Return the digest of what each table of the engine says that advice may rest on, by name; comments say nothing.

    Args:
        folder: where the tables lie; guideline sets, in a folder below it, are parts of their own.
    """
    import yaml  # noqa: PLC0415 - a quiet night reads no table

    return {
        path.stem: digest_of_texts([canonical(yaml.load(path.read_bytes(), Loader=yaml.CSafeLoader))])
        for path in sorted(folder.glob("*.yaml"))
        if path.stem not in _OF_SAMPLING
    }


def parts_of(values: SignedValues) -> dict[str, str]:
    """Return the digest (SHA-256) of every part of what is signed, by the part's name, in the order of the names."""
    parts = (
        *_of_records(values.client),
        *_of_agreements(values.client),
        *_of_ground(values.client),
        *_of_guidelines(values.sets),
        *_of_plans(values),
        *((PartName(PartKind.ADVICE, (name,)), digest) for name, digest in (values.tables or {}).items()),
    )
    return dict(sorted((str(name), digest) for name, digest in parts))


def digest_of(parts: Mapping[str, str]) -> str:
    """Return the one digest (SHA-256) over all parts and their names."""
    return digest_of_texts(f"{name} {digest}" for name, digest in sorted(parts.items()))


def _grouped(
    kind: PartKind, values: Iterable[Value], key: Callable[[Value], tuple[str, ...]], without: Collection[str] = ()
) -> Parts:
    """Yield a part for all values of one key; their order says nothing."""
    groups: defaultdict[tuple[str, ...], list[str]] = defaultdict(list)
    for value in values:
        groups[key(value)].append(canonical(value, without))
    for words, texts in groups.items():
        yield PartName(kind, words), digest_of_texts(sorted(texts))


def _of_records(client: Client) -> Parts:
    """Yield what was measured, taken and spread."""
    yield from _grouped(
        PartKind.RESULTS,
        client.results,
        lambda one: (one.farm, one.zone, one.protocol, one.sampled.isoformat()),
        _ORIGIN,
    )
    yield from _grouped(
        PartKind.NOTES, client.field_notes, lambda one: (one.farm, one.zone, one.protocol, one.day.isoformat())
    )
    yield from _grouped(
        PartKind.APPLICATIONS,
        client.applications,
        lambda one: (one.farm, one.material_class, one.first_day.isoformat() if one.first_day else "unknown"),
    )


def _of_agreements(client: Client) -> Parts:
    """Yield what was agreed: targets, protocols, what people said about findings, waiting times."""
    yield from _grouped(PartKind.ACCEPTANCES, client.acceptances, lambda one: (one.rule,))
    yield from _grouped(PartKind.TARGETS, client.targets, lambda one: (f"{one.analyte}.{one.method}",))
    yield from _grouped(PartKind.PROTOCOLS, client.protocols.values(), lambda one: (one.id,))
    practice = client.practice
    waits: tuple[Gap | AnalysisWait | GapOverride, ...] = (
        *practice.gaps.values(),
        *practice.analysis_waits,
        *client.gap_overrides,
    )
    yield from _grouped(PartKind.WAITS, waits, lambda one: (one.material_class,))


def _of_ground(client: Client) -> Parts:
    """Yield the zones, and who the client is, where, who advises, and which guideline was chosen."""
    zones = (zone for farm in client.farms for zone in farm.zones)
    yield from _grouped(PartKind.ZONES, zones, lambda one: (one.farm, one.id), _SAMPLING)
    about: dict[str, Any] = {
        "name": client.name,
        "country": client.country,
        "subdivision": client.subdivision,
        "hemisphere": client.hemisphere,
        "adviser": client.adviser,
        "chosen": (client.guideline, client.yield_goal, client.build_up_years),
        "farms": {farm.id: (farm.name, farm.guideline, farm.yield_goal) for farm in client.farms},
    }
    yield PartName(PartKind.CLIENT), digest_of_texts([canonical(about)])


def _of_guidelines(sets: Iterable[GuidelineSet]) -> Parts:
    """Yield the sets that apply: each by itself, and its rows by analysis.

    Rows keep their order within an analysis: of two that fit a result equally well the first is taken.
    """
    for one in sets:
        yield PartName(PartKind.GUIDELINE, (one.id,)), digest_of_texts([canonical(one, ("rows", "sources"))])
        rows: defaultdict[str, list[str]] = defaultdict(list)
        for row in one.rows:
            rows[f"{row.analyte}.{row.method}"].append(canonical(row))
        for code, texts in rows.items():
            yield PartName(PartKind.GUIDELINE, (one.id, code)), digest_of_texts(texts)


def _of_plans(values: SignedValues) -> Parts:
    """Yield what is to grow, what can be bought, and what is advised."""
    yield from _grouped(PartKind.CROPPING, values.cropping, lambda one: (one.farm, one.zone, str(one.year)))
    yield from _grouped(PartKind.NEEDS, values.needs, lambda one: (one.farm, one.zone, one.input))
    if values.products is not None:
        yield PartName(PartKind.PRODUCTS), digest_of_texts([canonical(values.products, ("products",))])
        yield from _grouped(PartKind.PRODUCTS, values.products.products.values(), lambda one: (one.id,))
