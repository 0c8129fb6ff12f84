"""The results of a client as data: one row a value, with all that is known of it, in words where words are needed.

Values stand as they were accepted: number, unit, `<` or `>`. What later issues of a report changed and what was found
about a value stand beside it.
"""

from __future__ import annotations

import hashlib
import json
from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import asdict, dataclass
from datetime import date
from importlib.metadata import version

from soilrota import __version__
from soilrota.documents.correction_sentences import correction_sentence
from soilrota.documents.result_finding_sentences import Names, result_finding_sentence
from soilrota.language import speaking
from soilrota.model.client import Client
from soilrota.model.result_findings import ResultFinding
from soilrota.model.results import Result
from soilrota.quantities import analysis_name, format_value, method

#: Decimals of a value whose method the glossary does not know [-].
_DECIMALS = 2


@dataclass(frozen=True, slots=True)
class ResultValue:
    """One value of one bag.

    Attributes:
        farm, farm_name, zone, zone_name, protocol, protocol_name: ids and names of the ground and the protocol.
        bag: bag id; may be empty.
        top_cm, bottom_cm: its layer [cm].
        sampled, received, reported: days; `received` is None when not known.
        laboratory: name of the laboratory.
        report, issue: number of its report, and which issue of it stands.
        analysis, name: code in the glossary, and its printed name.
        qualifier: empty, `<` or `>`.
        value: the number [unit].
        unit: its unit.
        decimals: decimals that its method prints [-].
        as_reported: the value as the laboratory wrote it; may be empty.
        findings: what was found about it, in sentences; may be empty.
        corrections: what later issues of its report changed of it, in sentences; may be empty.
    """

    farm: str
    farm_name: str
    zone: str
    zone_name: str
    protocol: str
    protocol_name: str
    bag: str
    top_cm: float
    bottom_cm: float
    sampled: date
    received: date | None
    reported: date
    laboratory: str
    report: str
    issue: int
    analysis: str
    name: str
    qualifier: str
    value: float
    unit: str
    decimals: int
    as_reported: str
    findings: str
    corrections: str

    @property
    def printed(self) -> str:
        """The value as its method prints it, with `<` or `>` and a decimal point."""
        analyte, _, way = self.analysis.partition(".")
        return self.qualifier + format_value(analyte, way, self.value)


@dataclass(frozen=True, slots=True)
class ResultsData:
    """All results of a client: whose they are, whose practice, and a row a value, by ground, day and layer.

    `language` is the tag of the language in which the values are spoken of.
    """

    client: str
    practice: str
    values: tuple[ResultValue, ...]
    language: str = "en-GB"


def results_data(client: Client, findings: Iterable[ResultFinding] = ()) -> ResultsData:
    """Return the results of a client as data.

    Args:
        client: the client.
        findings: what is odd about its results.
    """
    places = {(zone.farm, zone.id): number for number, zone in enumerate(z for f in client.farms for z in f.zones)}

    def where(result: Result) -> tuple[object, ...]:
        place = places.get((result.farm, result.zone), len(places))
        layer = (result.top_cm, result.bottom_cm)
        return place, result.zone, result.sampled, result.protocol, result.bag, layer, result.reported

    with speaking(client.language):
        reader = _Reader(client, findings)
        values = tuple(reader.value(result) for result in sorted(client.results, key=where))
    return ResultsData(client.name, client.practice.name, values, client.language)


def results_digest(data: ResultsData) -> str:
    """Return the SHA-256 of everything that the files of the results depend on, their date apart."""
    parts = (__version__, version("xlsxwriter"))
    content = json.dumps([parts, asdict(data)], ensure_ascii=False, sort_keys=True, default=str)
    return hashlib.sha256(content.encode()).hexdigest()


class _Reader:
    """Names, findings and corrections of a client, by what they are of."""

    def __init__(self, client: Client, findings: Iterable[ResultFinding]) -> None:
        self._client = client
        self._names = Names.of(client)
        self._farms = {farm.id: farm.name for farm in client.farms}
        self._zones = {(zone.farm, zone.id): zone.name for farm in client.farms for zone in farm.zones}
        self._findings: defaultdict[tuple[str, str, str], list[ResultFinding]] = defaultdict(list)
        for finding in findings:
            self._findings[finding.key.report, finding.key.farm, finding.key.zone].append(finding)
        self._corrections = self._corrections_by_value()

    def _corrections_by_value(self) -> Mapping[object, list[str]]:
        """Return what later issues changed, in sentences, by the value that they are of."""
        found: defaultdict[object, list[str]] = defaultdict(list)
        for correction in self._client.corrections:
            result = correction.later or correction.earlier
            if result is not None:
                found[result.key].append(f"{correction_sentence(correction, self._client)}.")
        return found

    def value(self, result: Result) -> ResultValue:
        """Return one value with all that is known of it."""
        client, code = self._client, f"{result.analyte}.{result.method}"
        protocol, laboratory = (
            client.protocols.get(result.protocol),
            client.practice.laboratories.get(result.laboratory),
        )
        way = method(result.analyte, result.method)
        return ResultValue(
            farm=result.farm,
            farm_name=self._farms.get(result.farm, result.farm),
            zone=result.zone,
            zone_name=self._zones.get((result.farm, result.zone), result.zone),
            protocol=result.protocol,
            protocol_name=protocol.name if protocol else result.protocol,
            bag=result.bag,
            top_cm=result.top_cm,
            bottom_cm=result.bottom_cm,
            sampled=result.sampled,
            received=result.received,
            reported=result.reported,
            laboratory=laboratory.name if laboratory else result.laboratory,
            report=result.report,
            issue=result.issue,
            analysis=code,
            name=analysis_name(code),
            qualifier=result.qualifier,
            value=result.value,
            unit=result.unit,
            decimals=way.decimals if way else _DECIMALS,
            as_reported=result.as_reported,
            findings=" ".join(self._said(result)),
            corrections=" ".join(self._corrections.get(result.key, ())),
        )

    def _said(self, result: Result) -> Iterable[str]:
        """Return what was found about a value, each sentence once."""
        about = self._findings.get((result.report, result.farm, result.zone), ())
        chosen = [finding for finding in about if finding.speaks_of(result)]
        language = self._client.language
        return dict.fromkeys(result_finding_sentence(one, language, self._names, is_recorded=True) for one in chosen)
