"""Sign-off: the parts of what is signed, by name, and whether a signature stands."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from soilrota.model.advice import Signature
from soilrota.problems import Problem


class PartKind(StrEnum):
    """What a part of a signed report is a part of, and the words of its key."""

    #: Results of one sampling: farm, zone, protocol, day (ISO 8601).
    RESULTS = "results"
    #: What was written down in the field: farm, zone, protocol, day.
    NOTES = "notes"
    #: What people said about a rule's findings on results: the rule.
    ACCEPTANCES = "acceptances"
    #: A guideline set without its rows: the set; or its rows of one analysis: the set, the code.
    GUIDELINE = "guideline"
    #: The client's targets for one analysis: its code.
    TARGETS = "targets"
    #: What was or will be spread: farm, class, first day or `unknown`.
    APPLICATIONS = "applications"
    #: What grows: farm, zone, year.
    CROPPING = "cropping"
    #: One product: its id; or what spreading costs: no key.
    PRODUCTS = "products"
    #: One protocol: its id.
    PROTOCOLS = "protocols"
    #: One zone: farm, zone.
    ZONES = "zones"
    #: How long sampling waits after a class of application: the class.
    WAITS = "waits"
    #: Who the client is, where, who advises, and the guideline chosen: no key.
    CLIENT = "client"
    #: A table of the engine: its name.
    ADVICE = "advice"
    #: What the engine made of all this: farm, zone, input.
    NEEDS = "needs"


@dataclass(frozen=True, slots=True)
class PartName:
    """Names a part: its kind, and the words that tell it from others of the kind; none of them holds a `/`."""

    kind: PartKind
    key: tuple[str, ...] = ()

    def __str__(self) -> str:
        """Return the name as it is recorded, for instance `zones/home/flat`."""
        return "/".join((self.kind, *self.key))


@dataclass(frozen=True, slots=True)
class SignState:
    """Whether a client's report is signed or a draft.

    Attributes:
        signature: the last signature; None where nobody ever signed, or where its record cannot be read.
        changed: what changed since, in words; empty where the signature stands.
        problems: what is wrong with the record of signatures; with any, the report is a draft.
    """

    signature: Signature | None
    changed: tuple[str, ...] = ()
    problems: tuple[Problem, ...] = ()

    @property
    def is_signed(self) -> bool:
        """Return whether the last signature stands. Otherwise the report is a draft, and goes to no client."""
        return self.signature is not None and not self.changed
