"""The cropping plan: crops that tables of removal know, with what they are to yield."""

from __future__ import annotations

from collections.abc import Iterator

from soilrota.book.parts import ClientParts, Located
from soilrota.files import nearest_name
from soilrota.guidelines.crop_produce import NOTHING, crop_names, leaves_of, plain, produce_of
from soilrota.guidelines.nutrient_regions import region_of
from soilrota.language import phrase
from soilrota.model.cropping import CropYear
from soilrota.problems import Problem, warning


def crops_are_known(parts: ClientParts) -> Iterator[Problem]:
    """A crop, and what leaves the field of it, stands in a table of what harvests take off in the client's region."""
    for row in parts.cropping:
        editions = _editions(parts, row)
        if not editions or plain(row.value.leaves) == NOTHING:
            continue
        names = crop_names(editions)
        if plain(row.value.crop) not in names:
            found = phrase("no table of removal of the region knows the crop '{crop}'", crop=row.value.crop)
            yield _unknown("crop-unknown", row, "crop", found, names)
        elif produce_of(editions, row.value.crop, row.value.leaves) is None:
            found = phrase(
                "no table of removal of the region knows '{leaves}' of {crop}",
                leaves=row.value.leaves,
                crop=row.value.crop,
            )
            yield _unknown("produce-unknown", row, "leaves_field", found, leaves_of(editions, row.value.crop))


def yields_are_given(parts: ClientParts) -> Iterator[Problem]:
    """A crop of which something leaves the field has a yield that is aimed at."""
    for row in parts.cropping:
        if row.value.target_yield is None and plain(row.value.leaves) != NOTHING:
            found = phrase("no target yield of {crop} in {year}", crop=row.value.crop, year=row.value.year)
            mend = phrase("write it; until then what the harvest takes off is not counted")
            yield warning("yield-missing", row.at("target_yield_t_ha"), found, phrase("a yield [t/ha]"), mend)


def _editions(parts: ClientParts, row: Located[CropYear]) -> tuple[str, ...]:
    """Return the removal editions of a row's ground; empty where the region has none."""
    data = parts.file.data
    region = region_of(None, data["country"], data.get("subdivision", ""))
    zone = parts.zones_by_name().get(f"{row.value.farm}/{row.value.zone}")
    return region.editions_on(zone.value.land_use) if region and zone else ()


def _unknown(code: str, row: Located[CropYear], column: str, found: str, names: tuple[str, ...]) -> Problem:
    """Return the warning that the word in a column is not known, with the nearest that is."""
    nearest = nearest_name(plain(str(row.data.get(column))), names)
    mend = phrase("its removal is not counted")
    if nearest:
        mend = phrase("write {nearest}, or leave it: its removal is not counted", nearest=nearest)
    return warning(code, row.at(column), found, phrase("one of {names}", names=", ".join(names)), mend)
