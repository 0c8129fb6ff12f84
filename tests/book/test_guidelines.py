"""The practice's own guideline sets are read with the other shared files."""

from __future__ import annotations

from soilrota.guidelines.sets import guideline_sets
from tests.book.small_book import Book

OWN = """\
name: Trial set
region: north of the river
overrides: southern-australia-pasture
sources:
  - {id: own, author: Two Rivers Soil Practice, year: 2026, title: Own trials}
rows:
  - id: olsen-p
    analyte: phosphorus
    method: olsen
    unit: mg/kg
    top_cm: 0
    bottom_cm: 10
    sense: sufficiency
    critical: 18
    basis: own trials
    source: own
"""


def test_own_sets_are_laid_over_shipped_ones(book: Book) -> None:
    """The file's name is the id; its row stands before the shipped ones, of which one of the same id is gone."""
    book.write("guidelines/trial.yaml", OWN)
    shared, problems = book.shared()
    assert problems == ()
    assert shared is not None
    made = shared.practice.guidelines["trial"]
    below = guideline_sets()["southern-australia-pasture"]
    assert (made.id, made.is_own, made.countries, made.goal) == ("trial", True, below.countries, "95")
    assert len(made.rows) == len(below.rows)
    assert (made.rows[0].id, made.rows[0].critical) == ("olsen-p", 18)
    assert made.rows[0].place.file == "guidelines/trial.yaml"
    assert made.rows[0].place.line == book.line("guidelines/trial.yaml", "- id: olsen-p")


def test_a_set_of_its_own(book: Book) -> None:
    """Without `overrides` it holds its own rows alone."""
    book.write("guidelines/trial.yaml", OWN.replace("overrides: southern-australia-pasture\n", ""))
    shared, problems = book.shared()
    assert problems == ()
    assert shared is not None
    assert len(shared.practice.guidelines["trial"].rows) == 1
    assert book.shared()[0] == shared


def test_faults_are_located(book: Book) -> None:
    """A word that the schema does not have, a file whose name is no id, a row that says nothing."""
    book.write("guidelines/trial.yaml", OWN.replace("sense: sufficiency", "sense: plenty"))
    problem = book.only(shared=True)
    assert problem.place.file == "guidelines/trial.yaml"
    assert problem.place.line == book.line("guidelines/trial.yaml", "sense:")
    book.write("guidelines/trial.yaml", OWN.replace("    critical: 18\n", ""))
    problem = book.only(shared=True)
    assert problem.place.line == book.line("guidelines/trial.yaml", "- id: olsen-p")
    book.write("guidelines/trial.yaml", OWN)
    book.write("guidelines/Own Set.yaml", OWN)
    assert book.only(shared=True).code == "bad-id"


def test_no_folder_means_no_own_sets(book: Book) -> None:
    """A book without guidelines has none."""
    shared, _ = book.shared()
    assert shared is not None
    assert shared.practice.guidelines == {}


def test_choices_reach_the_model(book: Book) -> None:
    """Set and goal of client, farm and zone."""
    book.edit("client.yaml", "country: AU\n", "country: AU\nguideline: southern-australia-pasture\nyield_goal: 80-90\n")
    book.edit("client.yaml", "    name: Home block\n", "    name: Home block\n    yield_goal: 90-95\n")
    book.edit("client.yaml", "        name: Hill\n", '        name: Hill\n        yield_goal: "95"\n')
    client, problems = book.client()
    assert problems == ()
    assert client is not None
    farm = client.farms[0]
    assert (client.guideline, client.yield_goal) == ("southern-australia-pasture", "80-90")
    assert (farm.guideline, farm.yield_goal) == ("", "90-95")
    assert [(zone.guideline, zone.yield_goal) for zone in farm.zones] == [("", ""), ("", "95")]
