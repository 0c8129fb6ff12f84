"""From files of guideline sets to rows."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml

import soilrota.guidelines.sets as module
from soilrota.files import read_yaml
from soilrota.guidelines.set_problems import set_problems
from soilrota.guidelines.sets import build_set, guideline_sets, laid_over
from soilrota.model.guideline import Range, RatingClass, Sense, Source, Status
from tests.guidelines.a_set import guideline, place, row

FILES = sorted((Path(module.__file__).with_name("sets")).glob("*.yaml"))


@pytest.mark.parametrize("file", FILES, ids=lambda path: path.stem)
def test_a_shipped_file_keeps_the_schema(file: Path) -> None:
    """It reads without a problem, and the same with the schema as without: every text is a text, every number one."""
    document, problems = read_yaml(file, file.name, "guideline")
    assert problems == ()
    assert document is not None
    assert document.data == yaml.safe_load(file.read_text(encoding="utf-8"))
    first = file.read_text(encoding="utf-8").splitlines()[0]
    schema = first.removeprefix("# yaml-language-server: $schema=")
    assert (file.parent / schema).resolve().name == "guideline.schema.json"
    assert (file.parent / schema).resolve().is_file()


@pytest.mark.parametrize("name", [path.stem for path in FILES])
def test_a_shipped_set_is_sound(name: str) -> None:
    """No row is unusable or says two things; what was read nowhere is listed; no source is an address."""
    one = guideline_sets()[name]
    assert list(set_problems(one)) == []
    assert one.left_out
    assert not one.is_own
    assert not any("http" in part for source in one.sources for part in (source.author, source.title, source.where))
    assert {row.source for row in one.rows} == set(one.sources), "a source that no row refers to"


def test_a_shipped_row_knows_its_line() -> None:
    """The place of a row is the line of the file on which it begins."""
    row = guideline_sets()["southern-australia-pasture"].rows[0]
    file = next(path for path in FILES if path.stem == "southern-australia-pasture")
    assert row.place.file == "guidelines/sets/southern-australia-pasture.yaml"
    assert row.id in file.read_text(encoding="utf-8").splitlines()[row.place.line - 1]


def test_of_two_sets_for_the_same_ground_neither_is_the_default_by_accident() -> None:
    """Sets for choosing that name the same region have no land use in common."""
    taken: dict[tuple[str, str], str] = {}
    for one in guideline_sets().values():
        for country in () if one.always else one.countries:
            for land_use in one.land_uses or ("any",):
                assert (country, land_use) not in taken
                taken[country, land_use] = one.id


def test_everything_that_is_written_arrives() -> None:
    """Each property of a row and of a set comes out as it went in."""
    full = row(
        any_layer_within=True,
        land_uses=["pasture"],
        crops=["lucerne"],
        textures=["sand"],
        rainfall_zones=["low"],
        ranges=[{"covariate": "clay-percent", "low": 10, "decimals": 0}],
        goals=["95"],
        critical_low=12,
        critical_high=16,
        target=18,
        limit=40,
        decimals=0,
        status="unverified",
        note="from memory",
    )
    made = guideline(full, goal="95", countries=["AU"], land_uses=["pasture"], left_out=["copper"], always=True)
    one = made.rows[0]
    assert (made.id, made.goal, made.countries, made.land_uses) == ("trial", "95", ("AU",), ("pasture",))
    assert (made.left_out, made.always, made.is_own, made.overrides) == (("copper",), True, True, "")
    assert one.ranges == (Range("clay-percent", 10.0, None, 0),)
    assert one.classes[1] == RatingClass("fair", "fair", 10.0, 20.0)
    assert (one.critical, one.critical_low, one.critical_high, one.target, one.limit) == (14, 12, 16, 18, 40)
    assert (one.sense, one.status, one.note) == (Sense.SUFFICIENCY, Status.UNVERIFIED, "from memory")
    assert (one.crops, one.textures, one.rainfall_zones, one.goals) == (("lucerne",), ("sand",), ("low",), ("95",))
    assert one.source == Source("own", "Two Rivers Soil Practice", 2026, "Own trials", "")
    assert (one.any_layer_within, one.decimals, one.place) == (True, 0, place("rows", 0))


def test_a_line_that_follows_a_covariate() -> None:
    """It comes out as a power of the covariate; a row is verified and of one layer unless it says otherwise."""
    line = {"covariate": "exchange-capacity", "constant": 75, "factor": 2.5, "exponent": 1}
    one = guideline(row(critical=None, line=line)).rows[0]
    assert one.line is not None
    assert (one.line.covariate, one.line.constant, one.line.factor, one.line.exponent) == (
        "exchange-capacity",
        75.0,
        2.5,
        1.0,
    )
    assert (one.critical, one.status, one.any_layer_within) == (None, Status.VERIFIED, False)


def test_an_own_set_lies_over_a_shipped_one() -> None:
    """Rows of the same id replace, others add and come first; what the own set does not say is taken from below."""
    below = build_set(
        "below",
        {
            "name": "Below",
            "region": "there",
            "countries": ["AU"],
            "land_uses": ["pasture"],
            "sources": [{"id": "book", "author": "Somebody", "title": "A book"}],
            "rows": [row(source="book"), row(id="olsen-p-hay", source="book", land_uses=["hay"])],
            "left_out": ["copper"],
        },
        place,
    )
    own = guideline(row(critical=18), row(id="olsen-p-crop", land_uses=["crop"]), overrides="below")
    made = laid_over(own, below)
    assert [(one.id, one.critical) for one in made.rows] == [("olsen-p", 18), ("olsen-p-crop", 14), ("olsen-p-hay", 14)]
    assert (made.id, made.countries, made.land_uses, made.is_own) == ("trial", ("AU",), ("pasture",), True)
    assert made.left_out == ("copper",)
    assert [source.id for source in made.sources] == ["own", "book"]
    assert laid_over(guideline(countries=["NZ"], overrides="below"), below).countries == ("NZ",)
