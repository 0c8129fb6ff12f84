"""The custody form has a line a bag, for each laboratory."""

from __future__ import annotations

from dataclasses import replace

from soilrota.documents.custody_view import custody_views
from soilrota.documents.pack_view import all_bags
from soilrota.language import speaking
from soilrota.model.field_pack import FieldPack
from tests.documents.packs import a_pack


def without_laboratory(pack: FieldPack, protocol: str) -> FieldPack:
    """Return a pack in which a protocol names no laboratory."""
    zones = tuple(
        replace(
            zone,
            tasks=tuple(
                replace(task, laboratory=None) if task.protocol.id == protocol else task for task in zone.tasks
            ),
        )
        for zone in pack.zones
    )
    return replace(pack, zones=zones)


def test_every_bag_has_one_line() -> None:
    """In the order of the route, with zone and depth."""
    pack = a_pack()
    (form,) = custody_views(pack)
    assert tuple(row.bag for row in form.rows) == all_bags(pack)
    assert (form.rows[3].zone, form.rows[3].depth) == ("A Paddock one", "30–60 cm")
    assert form.cold
    assert len(form.hand_overs) >= 3
    assert form.laboratory == "North Bench Laboratory"


def test_each_protocol_says_what_is_asked_for_which_bags() -> None:
    """With several protocols the bags are named."""
    form = custody_views(a_pack(zones=1))[0]
    assert [line.label for line in form.asked] == [
        "Topsoil under crops (B0001-0)",
        "Deep nitrogen before sowing (B0002-0, B0002-1 and B0002-2)",
    ]
    assert "Colwell P" in form.asked[0].words


def test_bags_of_another_laboratory_have_a_form_of_their_own() -> None:
    """None named is a form with an empty line for its name; the temperature stands only where it matters."""
    pack = a_pack()
    warm, cold = custody_views(without_laboratory(pack, "topsoil-crop"))
    assert (warm.laboratory, warm.cold) == ("", False)
    assert "dry, closed and out of the sun" in " ".join(warm.notes)
    assert cold.cold
    assert "within 2 days" in " ".join(cold.notes)
    bags = [row.bag for form in (warm, cold) for row in form.rows]
    assert sorted(bags) == sorted(all_bags(pack))


def test_the_sender_is_named() -> None:
    """Practice, its contact, the farm and who took the samples."""
    pack = a_pack(zones=1)
    sender = custody_views(pack)[0].sender
    assert "Merrow and Tarn Soil Practice" in sender
    assert "farm Brolga Plains; taken by Ned Marlow" in sender
    assert "taken by" not in custody_views(replace(pack, person=""))[0].sender


def test_the_laboratory_says_when_it_receives() -> None:
    """Weekdays as the language that is spoken names them; the courier only where there is one."""
    pack = a_pack(zones=1)
    laboratory = pack.zones[0].tasks[0].laboratory
    assert laboratory is not None
    for days, courier in ((frozenset({1, 3}), 2), (frozenset({5}), 0)):
        other = replace(laboratory, receiving_weekdays=days, courier_days=courier)
        tasks = tuple(replace(task, laboratory=other) for task in pack.zones[0].tasks)
        changed = replace(pack, zones=(replace(pack.zones[0], tasks=tasks),))
        said = " ".join(custody_views(changed)[0].notes)
        assert ("It receives on Monday and Wednesday. The courier takes 2 days. Results" in said) == bool(courier)
        assert ("It receives on Friday. Results are expected" in said) == (not courier)
        with speaking("es"):
            assert ("viernes" in " ".join(custody_views(changed)[0].notes)) == (not courier)
