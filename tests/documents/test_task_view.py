"""A zone's part of the programme: what was found about its results stands beside them, and only there."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from soilrota.documents import Found, programme_view
from soilrota.documents.task_view import task_view
from soilrota.documents.views import TaskView
from soilrota.model.client import Client
from soilrota.model.findings import SampleFinding, SampleKey, SampleRule, Weight
from soilrota.model.result_findings import Acceptance, Grade, ResultFinding, ResultKey, ResultRule
from soilrota.model.results import Result
from soilrota.model.windows import TaskKey
from soilrota.problems import Place
from tests.documents.made import answers, example

TASK = TaskKey("home", "barn", "topsoil-pasture")
FACTS = {"analysis": "phosphorus.colwell", "value": 340.0, "usual": 34.0, "spread": 5.0, "years": 2}


def last_phosphorus(client: Client) -> Result:
    """Return the last Colwell P of the task."""
    own = [one for one in client.results if TaskKey(one.farm, one.zone, one.protocol) == TASK]
    return max((one for one in own if one.analyte == "phosphorus"), key=lambda one: one.sampled)


def finding(result: Result, grade: Grade = Grade.SET_ASIDE, **changes: object) -> ResultFinding:
    """Return that a result lies far from the zone's history."""
    odd = ResultFinding(ResultKey.of(result), ResultRule.HISTORY, grade, ("phosphorus.colwell",), FACTS)
    return replace(odd, **changes)  # type: ignore[arg-type]


def shown(*findings: ResultFinding) -> TaskView:
    """Return the task's part with these findings about results."""
    client = example("anvil-creek")
    window = next(window for window in answers(client)[1] if window.key == TASK)
    zone = next(zone for farm in client.farms for zone in farm.zones if (farm.id, zone.id) == (TASK.farm, TASK.zone))
    return task_view(client, zone, window, Found(results=findings), [])


def noted(view: TaskView) -> dict[str, tuple[str, bool]]:
    """Return the note of each row that has one, and whether the row is held against its target."""
    return {row.name: (row.note, bool(row.against)) for row in view.results if row.note}


def test_a_finding_stands_with_the_value_it_is_about() -> None:
    """A value that nobody accepted is in doubt, is not held against its target, and the doubt is told below."""
    view = shown(finding(last_phosphorus(example("anvil-creek"))))
    assert noted(view) == {"Colwell P": ("In doubt, see below.", False)}
    (words,) = view.about_results
    assert words.startswith("About the sample of Barn, Home block, 0–10 cm, of 20 February 2026, bag A26-006: ")
    assert words.endswith("The results are in doubt until somebody accepts them with a reason.")


def test_a_doubt_leaves_the_value_beside_its_target() -> None:
    """A weaker finding weakens the value alone; a note does not even that, and both are told."""
    result = last_phosphorus(example("anvil-creek"))
    assert noted(shown(finding(result, Grade.DOUBT))) == {"Colwell P": ("In doubt, see below.", True)}
    note = shown(finding(result, Grade.NOTE))
    assert noted(note) == {}
    assert len(note.about_results) == 1


def test_an_accepted_finding_is_printed_with_who_and_why() -> None:
    """The value is in doubt no more; the acceptance stands behind what was found."""
    result = last_phosphorus(example("anvil-creek"))
    word = Acceptance("", result.bag, "", None, ResultRule.HISTORY, (), "Old yard", "mara-ellis", Place("client.yaml"))
    view = shown(finding(result, accepted=word))
    assert noted(view) == {}
    assert view.about_results[0].endswith("Accepted by Mara Ellis: Old yard.")


def test_of_results_that_are_not_shown_nothing_is_said() -> None:
    """An older sampling, another analysis of the bag, another zone."""
    client = example("anvil-creek")
    result = last_phosphorus(client)
    older = finding(replace(result, sampled=date(2024, 2, 14), bag="A24-004", report="nb-2024-anvil-01"))
    other_method = finding(result, analyses=("phosphorus.olsen",))
    assert shown(older, other_method).about_results == ()
    elsewhere = finding(replace(result, zone="lane"))
    view = programme_view(client, *answers(client), found=Found(results=(elsewhere,)))
    assert not any(task.about_results for farm in view.farms for zone in farm.zones for task in zone.tasks)


def test_what_is_known_is_told_apart_by_task() -> None:
    """Findings about samples and results come under their own task, and nothing is lost."""
    result = last_phosphorus(example("anvil-creek"))
    key = SampleKey("hill", "saddle", TASK.protocol, 0, 10, date(2026, 3, 2))
    sample = SampleFinding(key, SampleRule.TOO_FEW_CORES, Weight.DOUBT)
    odd = finding(result)
    by_task = Found(samples=(sample,), results=(odd, odd)).by_task()
    assert by_task == {
        TASK: Found(results=(odd, odd)),
        TaskKey("hill", "saddle", TASK.protocol): Found(samples=(sample,)),
    }
