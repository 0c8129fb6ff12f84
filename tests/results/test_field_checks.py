"""What was really taken: each oddity by itself, and what is not held against the crew."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from soilrota.bag_ids import bag_id
from soilrota.model.client import Client, Forebear
from soilrota.model.field_pack import Bag
from soilrota.model.findings import SampleFinding, SampleRule, Weight
from soilrota.model.protocol import Layer
from soilrota.model.samples import FieldNote
from soilrota.problems import Place
from soilrota.results.field_checks import check_notes
from tests.timing.test_tasks import client as plain_client
from tests.timing.test_tasks import protocol

LAYERS = (Layer(0, 10, 25), Layer(10, 30, 8))
ISSUED = tuple(
    Bag(bag_id(number), "home", zone, "topsoil", "2027", layer.top_cm, layer.bottom_cm)
    for number, (zone, layer) in enumerate([(zone, layer) for zone in ("river-flat", "bank") for layer in LAYERS], 412)
)
TOP, DEEP, OTHER_TOP, OTHER_DEEP = (bag.id for bag in ISSUED)


def note(**changes: object) -> FieldNote:
    """Return a note of the topsoil of the river flat, as it should be."""
    right = FieldNote(
        date(2027, 2, 10), "home", "river-flat", "topsoil", 0, 10, 25, "moist", "Jo", TOP, Place("field_notes.csv", 2)
    )
    return replace(right, **changes)


def deep(**changes: object) -> FieldNote:
    """Return a note of the deeper layer, as it should be."""
    return note(**{"top_cm": 10, "bottom_cm": 30, "cores": 8, "bag": DEEP, "place": Place("f.csv", 3), **changes})


def client(*notes: FieldNote, soil_state: str = "moist") -> Client:
    """Return a client whose topsoil has two layers; the bank uses it too, and the river flat a subsoil protocol."""
    topsoil = replace(protocol("topsoil", "ph.cacl2"), layers=LAYERS, soil_state=soil_state)
    subsoil = replace(protocol("subsoil", "chloride.water"), layers=(Layer(0, 10, 25),))
    return plain_client(protocols={"topsoil": topsoil, "subsoil": subsoil}, field_notes=notes)


def found(*notes: FieldNote, issued: tuple[Bag, ...] = ISSUED, soil_state: str = "moist") -> list[SampleFinding]:
    """Return the findings about the notes."""
    return list(check_notes(client(*notes, soil_state=soil_state), issued))


def only(*notes: FieldNote, issued: tuple[Bag, ...] = ISSUED) -> SampleFinding:
    """Return the one finding there is."""
    (finding,) = found(*notes, issued=issued)
    return finding


def test_what_was_planned_is_not_remarked_on() -> None:
    """The right cores, depths, soil and bags give no finding; more cores than planned neither."""
    assert found(note(), deep()) == []
    assert found(note(cores=40), deep()) == []
    assert found(note(bag=TOP.lower()), deep()) == []


def test_too_few_cores() -> None:
    """Under the layer's number a doubt, under a quarter of it unusable; each layer has its own number."""
    few = only(note(cores=24), deep())
    assert (few.rule, few.weight, few.facts) == (SampleRule.TOO_FEW_CORES, Weight.DOUBT, {"cores": 24, "least": 25})
    assert few.sample.day == date(2027, 2, 10)
    assert few.place == Place("field_notes.csv", 2)
    assert only(note(cores=7), deep()).weight is Weight.DOUBT
    assert only(note(cores=6), deep()).weight is Weight.UNUSABLE
    assert only(note(), deep(cores=7)).sample.top_cm == 10


def test_cores_that_nobody_wrote_down() -> None:
    """That is said as a note."""
    finding = only(note(cores=None), deep())
    assert (finding.rule, finding.weight) == (SampleRule.CORES_NOT_WRITTEN, Weight.NOTE)
    assert finding.facts == {"least": 25}


def test_another_depth() -> None:
    """A depth that is no layer is unusable; the layer it cuts is not said to be missing too, nor the bag wrong."""
    finding = only(note(bottom_cm=7.5), deep())
    assert (finding.rule, finding.weight) == (SampleRule.OTHER_DEPTH, Weight.UNUSABLE)
    assert finding.facts == {"top_cm": 0, "bottom_cm": 7.5, "layers": ("0-10", "10-30")}


def test_a_layer_left_out_that_day() -> None:
    """It is said once, about the layer that lacks; another day's bag does not stand for it."""
    finding = only(note())
    assert (finding.rule, finding.sample.top_cm, finding.sample.bottom_cm) == (SampleRule.LAYER_MISSING, 10, 30)
    both = found(note(), deep(day=date(2027, 2, 12)))
    assert [(one.rule, one.sample.top_cm, one.sample.day.day) for one in both] == [
        (SampleRule.LAYER_MISSING, 10, 10),
        (SampleRule.LAYER_MISSING, 0, 12),
    ]


@pytest.mark.parametrize(
    ("wanted", "state", "said"),
    [
        ("moist", "moist", False), ("moist", "dry", True), ("moist", "wet", True), ("moist", "", False),
        ("dry", "dry", False), ("dry", "moist", False), ("dry", "wet", True), ("dry", "", False),
    ],
)  # fmt: skip
def test_soil_other_than_wanted(wanted: str, state: str, *, said: bool) -> None:
    """Wet soil is always doubtful, dry soil where moist is wanted; moist soil does for a survey that prefers dry."""
    findings = found(note(soil_state=state), deep(), soil_state=wanted)
    assert [(one.rule, one.facts) for one in findings] == [
        (SampleRule.OTHER_MOISTURE, {"state": state, "wanted": wanted})
    ] * said


def test_what_nobody_planned() -> None:
    """A zone that is not under the protocol, and a protocol or zone that is not there."""
    stray = note(zone="bank", protocol="subsoil", bag="")
    assert [one.rule for one in found(stray)] == [SampleRule.NOT_PLANNED]
    assert [one.rule for one in found(note(protocol="gone", bag=""))] == [SampleRule.NOT_PLANNED]
    assert [one.rule for one in found(note(zone="gone", bag=""))] == [SampleRule.NOT_PLANNED]


def test_a_bag_that_stands_twice() -> None:
    """Both rows say where the other is; of the same soil it is a note, of other soil nobody knows whose value it is."""
    twice = found(note(), deep(bag=TOP))
    assert [one.rule for one in twice] == [SampleRule.BAG_TWICE, SampleRule.BAG_TWICE, SampleRule.BAG_OTHER]
    assert [one.weight for one in twice] == [Weight.UNUSABLE] * 3
    assert (twice[0].facts["other"], twice[0].facts["other_top_cm"], twice[1].facts["other_top_cm"]) == (
        "home/river-flat",
        10,
        0,
    )
    doubled = found(note(), deep(), note(place=Place("field_notes.csv", 4)))
    assert [(one.rule, one.weight) for one in doubled] == [(SampleRule.BAG_TWICE, Weight.NOTE)] * 2
    assert [one.facts["other_line"] for one in doubled] == [4, 2]


def test_a_wrong_check_character() -> None:
    """The issued ids that may be meant stand beside it; without any the id alone does."""
    slip = TOP[:-1] + ("7" if TOP[-1] != "7" else "8")
    finding = only(note(bag=slip), deep())
    assert (finding.rule, finding.weight) == (SampleRule.BAG_CHECK, Weight.DOUBT)
    assert finding.facts == {"bag": slip, "nearest": (TOP,)}
    assert only(note(bag="Z9999-0"), deep()).facts == {"bag": "Z9999-0"}


def test_a_bag_that_was_never_issued() -> None:
    """A right id of another client, and any other text where the crew had bags of ours."""
    for bag in (bag_id(9_000), "K7-red"):
        finding = only(note(bag=bag), deep())
        assert (finding.rule, finding.weight, finding.facts) == (SampleRule.BAG_UNKNOWN, Weight.DOUBT, {"bag": bag})


def test_what_was_sampled_before_the_first_issue() -> None:
    """Older samples carry what was in use then, and so does a task for which no bag was issued."""
    old = date(2026, 2, 10)
    assert found(note(day=old, bag="A25-001"), deep(day=old, bag=bag_id(9_000))) == []
    assert found(note(bag="A25-001"), deep(bag=bag_id(9_000)), issued=()) == []
    assert found(note(day=date(2027, 1, 19), bag="A25-001"), deep(day=date(2027, 1, 19))) == []
    bank = ISSUED[2:]
    assert found(note(bag="A25-001"), deep(bag=""), issued=bank) == []
    assert only(note(bag=bag_id(9_000)), deep(bag=""), issued=bank).rule is SampleRule.BAG_UNKNOWN


@pytest.mark.parametrize(
    ("wrong", "weight"),
    [
        ({"bag": OTHER_TOP}, Weight.UNUSABLE),
        ({"bag": OTHER_DEEP}, Weight.UNUSABLE),
        ({"protocol": "subsoil"}, Weight.NOTE),
    ],
)
def test_a_bag_issued_for_something_else(wrong: dict[str, object], weight: Weight) -> None:
    """Other ground bars the value; another protocol of the same soil does not."""
    findings = [one for one in found(note(**wrong), deep()) if one.rule is SampleRule.BAG_OTHER]
    assert [one.weight for one in findings] == [weight]
    assert findings[0].facts["issued"] == ("home/river-flat" if "protocol" in wrong else "home/bank")


def test_swapped_layers_are_found() -> None:
    """The bags of two layers, changed over, are both said to hold the other."""
    swapped = found(note(bag=DEEP), deep(bag=TOP))
    assert [(one.rule, one.facts["issued_top_cm"]) for one in swapped] == [
        (SampleRule.BAG_OTHER, 10),
        (SampleRule.BAG_OTHER, 0),
    ]


def test_a_season_that_is_no_longer_there() -> None:
    """A bag issued under a protocol that is gone counts from the first day of its year."""
    gone = Bag(bag_id(7), "home", "river-flat", "gone", "2026/27", 0, 10)
    assert only(note(bag="Z1234-0"), deep(bag=""), issued=(gone,)).rule is SampleRule.BAG_CHECK
    assert (
        found(note(day=date(2025, 12, 31), bag="Z1234-0"), deep(bag="", day=date(2025, 12, 31)), issued=(gone,)) == []
    )


def test_a_zone_that_is_gone() -> None:
    """What was planned for a former zone nobody can say any more; of a zone that never was it is said."""
    one = client(note(zone="north", bag=""))
    assert [finding.rule for finding in check_notes(one, ISSUED)] == [SampleRule.NOT_PLANNED]
    (farm,) = one.farms
    forebear = Forebear(("north", "south"), date(2027, 7, 1), "merged", Place("client.yaml"))
    zones = (replace(farm.zones[0], follows=(forebear,)), *farm.zones[1:])
    assert check_notes(replace(one, farms=(replace(farm, zones=zones),)), ISSUED) == ()
