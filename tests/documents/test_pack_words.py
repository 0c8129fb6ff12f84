"""Words of the field pack."""

from __future__ import annotations

from dataclasses import replace

import pytest

from soilrota.documents.pack_words import (
    cores_words,
    count_sentence,
    degrees,
    feel_classes,
    feel_sentence,
    holding_days,
    is_deep_point,
    mixed_sentence,
    no_map_sentences,
    outlook_sentences,
    point_depth,
    short_lived,
    walk_sentences,
    weekday_day,
)
from soilrota.language import speaking
from soilrota.model.layout import Pattern
from soilrota.model.moisture import RecordedMoisture
from soilrota.model.protocol import Layer
from tests.documents.made import example
from tests.documents.packs import DAY, a_count, a_layout, a_pack, a_task, an_outlook

CLIENT = example("brolga-plains")
FARM = CLIENT.farms[0]
ZONE = FARM.zones[0]
DEEP = CLIENT.protocols["deep-nitrogen"]


def test_the_weekday_is_named_in_the_form_of_the_country() -> None:
    """American days come month first."""
    assert weekday_day(DAY, "en-GB") == "Thursday 18 February 2027"
    assert weekday_day(DAY, "en-US") == "Thursday, February 18, 2027"


def test_cores_of_equal_number_are_said_together() -> None:
    """Layers with the same cores share a phrase, and one core is one core."""
    assert cores_words((Layer(0, 7.5, 1),), "en-GB") == "1 core of 0–7.5 cm"
    assert cores_words(DEEP.layers, "en-GB") == "25 cores of 0–10 cm; 8 cores of 10–30 cm and 30–60 cm"


def test_layers_that_touch_are_one_depth() -> None:
    """A gap between layers stays a gap."""
    assert point_depth(((30, 60), (0, 10), (10, 30)), "en-GB") == "0–60"
    assert point_depth(((0, 10), (30, 60)), "en-GB") == "0–10, 30–60"


def test_a_deep_point_goes_below_the_shallowest_layer() -> None:
    """Of one layer no point is deep; of three those that take more than the first."""
    task = a_task(CLIENT, FARM, ZONE, DEEP)
    assert not is_deep_point(((0, 10),), task)
    assert is_deep_point(((0, 10), (10, 30)), task)


def test_nitrate_does_not_keep() -> None:
    """Its protocol has two days; the topsoil's keeps."""
    assert holding_days(DEEP) == 2
    assert short_lived(DEEP) == ["Nitrate N (KCl)", "Ammonium N (KCl)"]
    assert holding_days(CLIENT.protocols["topsoil-crop"]) is None


def test_the_walk_is_said_with_its_lengths() -> None:
    """Pattern, way in, spacing, length; squares and circles where layers differ; the row where there is one."""
    layout = a_layout(ZONE, FARM, DEEP.layers, Pattern.STRATA)
    task = a_task(CLIENT, FARM, ZONE, DEEP, layout=layout)
    said = " ".join(walk_sentences(replace(layout, walk_m=480.0, approach_m=210.4, spacing_m=18.2), task, "en-GB"))
    assert "From the way in it is 210 m straight to point 1. Points are at least 18 m apart. The walk is 480 m." in said
    assert "Squares (8 points): take 0–60 cm" in said
    assert "Hollow" not in said
    in_row = replace(layout, approach_m=None, points=tuple(replace(one, in_row=True) for one in layout.points))
    said = " ".join(walk_sentences(in_row, task, "en-GB"))
    assert "Hollow marks: core in the row" in said
    assert "way in" not in said


@pytest.mark.parametrize("pattern", [pattern.value for pattern in Pattern])
def test_without_a_map_each_pattern_says_what_to_do(pattern: str) -> None:
    """The page says that there are no points, how to walk, and what to keep away from."""
    task = a_task(CLIENT, FARM, ZONE, replace(DEEP, pattern=pattern))
    said = list(no_map_sentences(task, replace(ZONE, area_ha=16.0), "en-GB"))
    assert said[0].startswith("The map does not draw this zone")
    assert any("at least 10 m from edges" in one for one in said)
    assert any("16 m along" in one for one in said) == (pattern in {"transect", "zigzag"})


def test_moisture_says_what_is_wanted_and_known() -> None:
    """The feel always; the record only where there is one, and never more than it knows."""
    protocol = CLIENT.protocols["topsoil-crop"]
    assert "slightly moist or moist" in feel_sentence(protocol)
    assert "prefers dry soil" in feel_sentence(replace(protocol, soil_state="dry"))
    assert list(outlook_sentences(None, DAY, "en-GB")) == []
    (known,) = outlook_sentences(an_outlook(), DAY, "en-GB")
    assert "the soil moist on this day of the year in some of 20 past years" in known
    assert "On 14 February 2027 it had the soil dry, 22% of the water" in known
    unknown = replace(an_outlook(), enough_years=False, recorded=RecordedMoisture(DAY, None, "not-known"))
    assert list(outlook_sentences(unknown, DAY, "en-GB")) == []


def test_five_classes_by_feel() -> None:
    """Each has a name and a sign of its own."""
    classes = feel_classes()
    assert len({feel.name for feel in classes}) == len({feel.sign for feel in classes}) == 5


def test_what_cores_can_tell_is_one_sentence() -> None:
    """More cores, enough cores and no number of cores each have their end."""
    more = count_sentence(a_count(25))
    assert more == (
        "25 cores give the zone's mean of phosphorus to ±11% (90% sure), and two samplings must differ by 17% to tell "
        "a change from chance; ten cores more would give ±10%, and ±10% would take 31 cores."
    )
    assert count_sentence(a_count(40)).endswith("from chance; ten cores more would give ±10%.")
    assert "no number of cores gives ±10%" in count_sentence(a_count(25, needed=None))
    assert count_sentence(a_count(1)).startswith("1 core gives the zone's mean")


def test_numbers_stand_as_the_language_writes_them() -> None:
    """A decimal comma in sentences and depths; degrees keep their point, as a phone takes them."""
    assert point_depth(((0, 7.5), (10, 30)), "es") == "0–7,5, 10–30"
    with speaking("es"):
        half = replace(a_count(25), wanted=replace(a_count(25).wanted, within_percent=7.5))
        assert "7,5" in count_sentence(half)
        assert "7.5" not in count_sentence(half)
        assert degrees(-36.1969074) == "-36.196907"


def test_other_ground_inside_a_zone() -> None:
    """A uniform zone says nothing."""
    assert mixed_sentence(ZONE) == ""
    assert "holds rock and sand" in mixed_sentence(replace(ZONE, mixed_with=("rock", "sand")))


def test_a_pack_names_each_walk() -> None:
    """Every layout of the made packs has points in walking order."""
    for zone in a_pack(zones=2).zones:
        for task in zone.tasks:
            assert task.layout is not None
            assert [point.number for point in task.layout.points] == list(range(1, len(task.layout.points) + 1))
