"""Own guideline sets stand beside the shipped ones; sets and goals that are chosen exist."""

from __future__ import annotations

import pytest

from tests.book.small_book import Book
from tests.book.test_guidelines import OWN

ALONE = OWN.replace("overrides: southern-australia-pasture\n", "")


def test_a_fault_of_a_row_stands_at_the_row(book: Book) -> None:
    """What is wrong with a row itself is found where the row begins, with what would be right."""
    book.write("guidelines/trial.yaml", OWN.replace("method: olsen", "method: olson"))
    problem = book.only(shared=True)
    assert problem.code == "unknown-method"
    assert problem.place.line == book.line("guidelines/trial.yaml", "- id: olsen-p")
    assert "olsen" in problem.mend


def test_what_is_overridden_is_shipped(book: Book) -> None:
    """A set that does not exist is named with the nearest one that does."""
    book.write("guidelines/trial.yaml", OWN.replace("southern-australia-pasture", "southern-australia-pastures"))
    problem = book.only(shared=True)
    assert (problem.code, problem.mend) == ("unknown-guideline", "write southern-australia-pasture")
    assert problem.place.line == book.line("guidelines/trial.yaml", "overrides:")


def test_one_set_overrides_one(book: Book) -> None:
    """Two files over the same shipped set are found at the second."""
    book.write("guidelines/trial.yaml", OWN)
    book.write("guidelines/upland.yaml", OWN)
    problem = book.only(shared=True)
    assert (problem.code, problem.place.file) == ("overridden-twice", "guidelines/upland.yaml")


def test_an_own_set_hides_no_shipped_one_by_its_name(book: Book) -> None:
    """Its name is that of a shipped set only where it overrides that set."""
    book.write("guidelines/southern-australia-pasture.yaml", ALONE)
    assert book.only(shared=True).code == "id-of-shipped-set"
    book.write("guidelines/southern-australia-pasture.yaml", OWN)
    assert book.shared_problems() == ()


@pytest.mark.parametrize(
    ("after", "indent"), [("country: AU\n", ""), ("    name: Home block\n", "    "), ("        name: Hill\n", " " * 8)]
)
def test_a_chosen_set_exists(book: Book, after: str, indent: str) -> None:
    """On client, farm and zone, shipped or own; a set that holds always is not for choosing."""
    book.write("guidelines/trial.yaml", ALONE)
    text = (book.root / "clients/anvil-creek/client.yaml").read_text(encoding="utf-8")

    def choose(word: str) -> None:
        book.write("client.yaml", text.replace(after, f"{after}{indent}guideline: {word}\n"))

    for word in ("trial", "southern-australia-pasture"):
        choose(word)
        assert book.problems() == ()
    choose("southern-australia-pastur")
    problem = book.only()
    assert (problem.code, problem.mend) == ("unknown-guideline", "write southern-australia-pasture")
    assert problem.place.line == book.line("client.yaml", "guideline:")
    choose("constraints-australia")
    assert book.only().code == "guideline-holds-always"


@pytest.mark.parametrize(
    ("after", "indent"), [("country: AU\n", ""), ("    name: Home block\n", "    "), ("        name: Hill\n", " " * 8)]
)
def test_a_chosen_goal_is_served(book: Book, after: str, indent: str) -> None:
    """By the set that is chosen, or by the default of country, subdivision and land use."""
    text = (book.root / "clients/anvil-creek/client.yaml").read_text(encoding="utf-8")

    def choose(goal: str, region: str = "country: AU\nsubdivision: VIC\n") -> None:
        chosen = text.replace(after, f'{after}{indent}yield_goal: "{goal}"\n')
        book.write("client.yaml", chosen.replace("country: AU\n", region))

    choose("80-90")
    assert book.problems() == ()
    choose("80-91")
    problem = book.only()
    assert (problem.code, problem.mend) == ("unknown-yield-goal", "write 80-90")
    assert problem.place.line == book.line("client.yaml", "yield_goal:")
    choose("95", region="country: AU\nsubdivision: QLD\n")
    assert book.only().code == "unknown-yield-goal"
    choose("95", region="country: AU\nsubdivision: QLD\nguideline: southern-australia-pasture\n")
    assert book.problems() == ()
    choose("95", region="country: AU\nguideline: no-such-set\n")
    assert book.only().code == "unknown-guideline", "of goals nothing is said where the set is not known"
