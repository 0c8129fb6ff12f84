"""Which soil a bag id stands for: every bag that was given out, every field note, every blind check sample.

House defaults, where the rules leave it open:

- An id of ours (a letter, digits, a check character) is compared as people mean it: case, blanks and kind of hyphen do
  not matter. Any other id is one of the practice's older ones: it is compared as it is written, capitals apart.
- An id that is built like ours and has a wrong check character is a misread one where it is near an id that was given
  out; only where it is near none, and a field note has exactly it, is it an older id of the practice.
- Two rows of field notes about the same soil (zone, layer, day) under one id are one bag, whatever protocol asked.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from difflib import get_close_matches

from soilrota.bag_ids import has_the_form, is_bag_id, nearest_issued, normalised
from soilrota.guidelines.intake import intake_figures
from soilrota.model.field_pack import Bag
from soilrota.model.intake import ClientBags
from soilrota.model.practice import CheckBag
from soilrota.model.samples import FieldNote

_MOST_PROPOSED = 3
#: How alike an older id must be to be proposed, from 0 to 1: one wrong character of five. House default.
_ALIKE = 0.8


def bag_key(text: str) -> str:
    """Return what two writings of one bag id have in common.

    >>> bag_key(" b0412–g"), bag_key("K6-0311"), bag_key("B0412 G") == bag_key("b0412-g")
    ('B0412-G', 'k6-0311', True)
    """
    ours = normalised(text)
    return ours if has_the_form(ours) else text.strip().casefold()


@dataclass(frozen=True, slots=True)
class Claim:
    """What one client has under a bag id: the bag that it was given, and the notes that name it."""

    client: str
    bag: Bag | None
    notes: tuple[FieldNote, ...]

    def __str__(self) -> str:
        """Return it in words: the ground, and whether label or note says so."""
        said = [f"{_layer(note)} of {note.day.isoformat()}, field note line {note.place.line}" for note in self.notes]
        return "; ".join(f"{self.client}: {one}" for one in said or [f"{_layer(self.bag)}, the label"])


def _layer(soil: Bag | FieldNote | None) -> str:
    """Return zone and layer in words."""
    return "" if soil is None else f"{soil.farm}/{soil.zone}, {soil.top_cm:g}-{soil.bottom_cm:g} cm"


@dataclass(slots=True)
class BagDirectory:
    """Every bag id that means something.

    Attributes:
        claims: by key, what each client has under it.
        checks: blind check samples by key.
        issued: ids that were given out, in order.
        noted: ids of field notes that are not built like ours, by key.
    """

    claims: Mapping[str, Sequence[Claim]]
    checks: Mapping[str, CheckBag]
    issued: tuple[str, ...]
    noted: Mapping[str, str]
    _near: dict[str, tuple[str, ...]] = field(default_factory=dict)

    @classmethod
    def of(cls, clients: Sequence[ClientBags], checks: Sequence[CheckBag]) -> BagDirectory:
        """Return the directory of all clients and check samples."""
        claims: defaultdict[str, list[Claim]] = defaultdict(list)
        noted: dict[str, str] = {}
        for one in clients:
            bags = {bag_key(bag.id): bag for bag in one.bags}
            notes: defaultdict[str, list[FieldNote]] = defaultdict(list)
            for note in one.notes:
                if note.bag:
                    notes[bag_key(note.bag)].append(note)
            for key in {**bags, **notes}:
                claims[key].append(Claim(one.client, bags.get(key), tuple(notes[key])))
            noted.update({key: some[0].bag for key, some in notes.items() if not has_the_form(key)})
        blind = {bag_key(check.bag): check for check in checks}
        issued = (*(bag.id for one in clients for bag in one.bags), *(check.bag for check in checks))
        return cls(claims, blind, tuple(dict.fromkeys(issued)), noted)

    def misread(self, key: str) -> bool:
        """Return whether an id is built like ours, has a wrong check character and is near one that was given out."""
        return has_the_form(key) and not is_bag_id(key) and bool(self.near(key))

    def near(self, key: str) -> tuple[str, ...]:
        """Return ids that may have been meant; nothing is looked up any more after many odd ids of one file."""
        if key not in self._near:
            if len(self._near) >= intake_figures().proposals_a_file:
                return ()
            older = () if key in self.noted else get_close_matches(key, self.noted, _MOST_PROPOSED, _ALIKE)
            self._near[key] = (*nearest_issued(key, self.issued)[:_MOST_PROPOSED], *(self.noted[one] for one in older))
        return self._near[key]
