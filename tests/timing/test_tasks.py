"""From a client's file to tasks: samplings, applications with their gaps, analysis waits."""

from __future__ import annotations

from dataclasses import replace

from soilrota.model.applications import Application, Standing
from soilrota.model.client import Client, Farm, GapOverride, LastSampled, Zone
from soilrota.model.practice import AnalysisWait, Gap, Hemisphere, Night, Practice, Season
from soilrota.model.protocol import Protocol
from soilrota.model.results import Result
from soilrota.model.samples import FieldNote
from soilrota.model.windows import Sampling, Task, TaskKey
from soilrota.problems import Place
from soilrota.timing import tasks_of, window_of
from tests.timing.making import LOG, day, seasons, span

CLIENT_FILE = "clients/anvil-creek/client.yaml"
NOTES = "clients/anvil-creek/field_notes.csv"
RESULTS = "records/results/anvil-creek/r-1.csv"


def zone(name: str, *protocols: str, last_sampled: tuple[LastSampled, ...] = ()) -> Zone:
    """Return a zone of the home farm."""
    return Zone(
        id=name, farm="home", name=name.title(), soil_type="grey clay", texture="", clay_percent=None,
        land_use="pasture", landscape_position="flat", area_ha=11.8, rainfall_zone="", distance_to_water_m=None,
        mixed_with=(), outline=None, protocols=protocols, last_sampled=last_sampled, place=Place(CLIENT_FILE, 12),
    )  # fmt: skip


def protocol(name: str, *analyses: str, gap_months: dict[str, int] | None = None) -> Protocol:
    """Return a protocol of the late summer, once a year."""
    return Protocol(
        id=name, name=name.title(), purpose="", season="late-summer", interval_months=12, tolerance_days=30,
        layers=(), pattern="transect", largest_area_ha=20, analyses=analyses, laboratory="",
        gap_months=gap_months or {}, soil_state="moist", reasons={}, place=Place("protocols.yaml", 3),
    )  # fmt: skip


def practice(*gaps: Gap) -> Practice:
    """Return a practice with a season for both halves of the world."""
    spans = {Hemisphere.SOUTHERN: seasons("01-20..03-31"), Hemisphere.NORTHERN: seasons("07-20..09-30")}
    lime_and_ph = AnalysisWait("lime", ("ph", "lime-requirement"), 12, "a handbook")
    usual = [Gap(name, counts=True, months=3, reason="", source="", place=Place("gaps.yaml", 1)) for name in
             ("mineral-fertiliser", "lime", "manure", "other-amendment")]  # fmt: skip
    return Practice(
        name="Two Rivers", time_zone="Australia/Melbourne", logo="", contact="", people={},
        seasons={"late-summer": Season("late-summer", "Late summer", spans, Place("practice.yaml", 9))},
        gaps={gap.material_class: gap for gap in (*usual, *gaps)}, analysis_waits=(lime_and_ph,),
        laboratories={}, night=Night(120, 1024), place=Place("practice.yaml"),
    )  # fmt: skip


def client(**changes: object) -> Client:
    """Return a client with two zones; topsoil in both, subsoil in the first."""
    zones = (zone("river-flat", "topsoil", "subsoil"), zone("bank", "topsoil"))
    farm = Farm("home", "Home block", "", None, None, (), zones, Place(CLIENT_FILE, 8))
    plain = Client(
        id="anvil-creek", name="Anvil Creek", hemisphere=Hemisphere.SOUTHERN, country="AU", subdivision="VIC",
        language="en-AU", time_zone="Australia/Melbourne", contacts=(), adviser="mara-ellis", farms=(farm,),
        targets=(), decisions=(), gap_overrides=(), applications=(), field_notes=(), results=(),
        protocols={"topsoil": protocol("topsoil", "ph.cacl2", "phosphorus.colwell"),
                   "subsoil": protocol("subsoil", "chloride.water")},
        practice=practice(), warnings=(), place=Place(CLIENT_FILE),
    )  # fmt: skip
    return replace(plain, **changes)


def row(material_class: str = "manure", zones: tuple[str, ...] = ("river-flat",), line: int = 2) -> Application:
    """Return a row of the applications log."""
    return Application(
        "home", zones, material_class, "something", day("2026-11-20"), day("2026-11-20"), Standing.DONE, None,
        Place(LOG, line),
    )  # fmt: skip


def note(on: str, bag: str = "", line: int = 2, name: str = "topsoil") -> FieldNote:
    """Return a field note of the river flat."""
    return FieldNote(day(on), "home", "river-flat", name, 0, 10, 25, "moist", "", bag, Place(NOTES, line))


def result(sampled: str, reported: str, bag: str = "", line: int = 2) -> Result:
    """Return a result of the river flat."""
    return Result(
        "r-1", day(sampled), day(reported), "home", "river-flat", "topsoil", bag, 0, 10, "ph", "cacl2", "", 5.1, "",
        "north-bench", Place(RESULTS, line),
    )  # fmt: skip


def override(months: int, line: int = 40, **where: tuple[str, ...]) -> GapOverride:
    """Return an override for manure."""
    zones, protocols = where.get("zones", ()), where.get("protocols", ())
    return GapOverride("manure", months, zones, protocols, f"reason of line {line}", Place(CLIENT_FILE, line))


def river_flat(whole: Client, name: str = "topsoil") -> Task:
    """Return the task of the river flat under a protocol."""
    return next(task for task in tasks_of(whole) if task.key == TaskKey("home", "river-flat", name))


def test_tasks_come_in_the_order_of_the_file() -> None:
    """Farm, zone, protocol; each with its season on the client's hemisphere."""
    tasks = tasks_of(client())
    assert [(task.key.zone, task.key.protocol) for task in tasks] == [
        ("river-flat", "topsoil"),
        ("river-flat", "subsoil"),
        ("bank", "topsoil"),
    ]
    assert {task.seasons for task in tasks} == {seasons("01-20..03-31")}
    northern = tasks_of(client(hemisphere=Hemisphere.NORTHERN))
    assert window_of(northern[0], day("2027-01-25")).season.span == span("2027-07-20", "2027-09-30")


def test_bags_of_one_day_are_one_sampling() -> None:
    """Field notes and results of a day go together; the earliest report counts."""
    whole = client(
        field_notes=(note("2026-02-20", "b-2", 3), note("2026-02-20", "b-1", 2), note("2025-02-18", "a-1", 1)),
        results=(result("2026-02-20", "2026-03-11", "b-2", 5), result("2026-02-20", "2026-03-09", "b-1", 4)),
    )
    assert river_flat(whole).samplings == (
        Sampling(day("2025-02-18"), None, ("a-1",), Place(NOTES, 1)),
        Sampling(day("2026-02-20"), day("2026-03-09"), ("b-1", "b-2"), Place(NOTES, 2)),
    )
    assert river_flat(whole, "subsoil").samplings == ()


def test_a_result_without_a_field_note_proves_a_sampling() -> None:
    """What came back was taken."""
    (sampling,) = river_flat(client(results=(result("2026-02-20", "2026-03-09", "b-1", 4),))).samplings
    assert sampling == Sampling(day("2026-02-20"), day("2026-03-09"), ("b-1",), Place(RESULTS, 4))


def test_a_sampling_from_before_the_records_awaits_no_results() -> None:
    """It has no bags and never will have results."""
    before = LastSampled("topsoil", day("2026-02-20"), Place(CLIENT_FILE, 20))
    farm = client().farms[0]
    farms = (replace(farm, zones=(zone("river-flat", "topsoil", "subsoil", last_sampled=(before,)),)),)
    (sampling,) = river_flat(client(farms=farms)).samplings
    assert sampling == Sampling(day("2026-02-20"), None, (), Place(CLIENT_FILE, 20), awaited=False)
    assert river_flat(client(farms=farms), "subsoil").samplings == ()


def test_an_application_touches_the_zones_it_names_or_all() -> None:
    """No zone named means the whole farm; another farm's rows touch nothing here."""
    whole = client(
        applications=(
            row(line=2),
            row(zones=(), line=3),
            row(zones=("bank",), line=4),
            replace(row(line=5), farm="hill"),
        )
    )
    lines = {task.key: [record.application.place.line for record in task.applications] for task in tasks_of(whole)}
    assert lines[TaskKey("home", "river-flat", "topsoil")] == [2, 3]
    assert lines[TaskKey("home", "bank", "topsoil")] == [3, 4]


def test_the_longer_of_practice_and_protocol_is_waited() -> None:
    """A protocol may ask for more, and never for less."""
    asking = {"topsoil": protocol("topsoil", gap_months={"manure": 4}), "subsoil": protocol("subsoil")}
    whole = client(applications=(row(),), protocols=asking)
    assert [river_flat(whole, name).applications[0].months for name in ("topsoil", "subsoil")] == [4, 3]
    less = client(applications=(row(),), protocols=asking | {"topsoil": protocol("topsoil", gap_months={"manure": 1})})
    assert river_flat(less).applications[0].months == 3


def test_an_override_wins_and_keeps_its_reason() -> None:
    """Shorter or longer, with its reason, its place and the usual months beside it."""
    (record,) = river_flat(client(applications=(row(),), gap_overrides=(override(2),))).applications
    assert (record.counts, record.months, record.usual_months) == (True, 2, 3)
    assert (record.override_reason, record.override_place) == ("reason of line 40", Place(CLIENT_FILE, 40))


def test_the_override_that_names_most_wins() -> None:
    """Zone and protocol before zone alone before all; of two alike the longer; another zone's never."""
    overrides = (
        override(1, 41),
        override(2, 42, zones=("home/river-flat",)),
        override(4, 43, zones=("home/river-flat",)),
        override(0, 44, zones=("home/river-flat",), protocols=("subsoil",)),
        override(9, 45, zones=("home/bank",)),
    )
    for order in (overrides, overrides[::-1]):
        whole = client(applications=(row(zones=()),), gap_overrides=order)
        assert [task.applications[0].months for task in tasks_of(whole)] == [4, 0, 9]


def test_a_class_that_does_not_count_carries_the_reason() -> None:
    """Declared by the practice, with its reason."""
    uncounted = Gap("other-amendment", counts=False, months=0, reason="inert mulch", source="", place=Place("p", 1))
    whole = client(applications=(row("other-amendment"),), practice=practice(uncounted))
    (record,) = river_flat(whole).applications
    assert (record.counts, record.months, record.class_reason) == (False, 0, "inert mulch")
    assert window_of(river_flat(whole), day("2027-01-25")).closed == ()


def test_an_uncounted_class_counts_where_someone_asks_for_a_wait() -> None:
    """A protocol, or an override of the client, that names months for it is taken at its word."""
    uncounted = Gap("manure", counts=False, months=0, reason="none here", source="", place=Place("p", 1))
    asking = {"topsoil": protocol("topsoil", gap_months={"manure": 4}), "subsoil": protocol("subsoil")}
    whole = client(applications=(row(),), practice=practice(uncounted), protocols=asking)
    gaps = [river_flat(whole, name).applications[0] for name in ("topsoil", "subsoil")]
    assert [(gap.counts, gap.months) for gap in gaps] == [(True, 4), (False, 0)]
    overridden = client(applications=(row(),), practice=practice(uncounted), gap_overrides=(override(2),))
    assert river_flat(overridden).applications[0].counts


def test_waits_are_cut_to_what_the_protocol_asks_for() -> None:
    """PH is asked for in the topsoil, lime requirement nowhere, and the subsoil asks for neither."""
    assert river_flat(client()).analysis_waits == (AnalysisWait("lime", ("ph",), 12, "a handbook"),)
    assert river_flat(client(), "subsoil").analysis_waits == ()
