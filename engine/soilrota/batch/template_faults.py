"""A practice's own templates in the night and in the check: what they cost is said, and they are tried in a worker.

A template may run for ever, or ask for all the memory there is: only workers run one, with a deadline and a limit.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from soilrota.batch.values import Entry, Failure
from soilrota.model.documents import TEMPLATES
from soilrota.problems import Place, Problem, error

#: The job that tries the templates of a book.
JOB = "soilrota.batch.template_faults:try_templates"
_DEADLINE_S = 60.0
_MEMORY_MB = 1024
_MOST_NAMED = 3


@dataclass(frozen=True, slots=True)
class TemplatesOrder:
    """What a worker is asked: the templates of the book in this folder."""

    client: str
    root: Path


@dataclass(frozen=True, slots=True)
class TemplatesAnswer:
    """What a worker found."""

    client: str
    problems: tuple[Problem, ...]


def of_template(problem: Problem) -> bool:
    """Return whether a problem is one of a template of the practice."""
    return problem.place.file.split("/")[0] == TEMPLATES


def programme_faults(entries: Iterable[Entry]) -> Iterator[str]:
    """Yield in words which programmes a template of the practice kept from being made.

    Args:
        entries: what is said of each client.
    """
    clients: defaultdict[str, list[str]] = defaultdict(list)
    for entry in entries:
        for problem in entry.problems:
            if of_template(problem):
                clients[str(problem)].append(entry.client)
    for words, found in sorted(clients.items()):
        named = sorted(found)[:_MOST_NAMED]
        more = f" and {len(found) - len(named)} more" if len(found) > len(named) else ""
        yield f"the programme of {', '.join(named)}{more} could not be made: {words}"


def tried_templates(root: Path) -> tuple[Problem, ...]:
    """Return every problem of the templates of a book, as a worker finds them; none where there are no templates.

    Args:
        root: the book's folder.
    """
    if not (root / TEMPLATES).is_dir():
        return ()
    from soilrota.batch.workers import Limits, work_through  # noqa: PLC0415 - few practices have templates

    limits = Limits(1, _DEADLINE_S, _MEMORY_MB)
    answer = next(iter(work_through([TemplatesOrder(TEMPLATES, root)], JOB, limits, lambda: False)))
    if isinstance(answer, Failure):
        mend = "look for a loop that does not end, or a text that grows without end"
        return (error("template-fault", Place(TEMPLATES), f"trying the templates failed: {answer.words}", "", mend),)
    return tuple(answer.problems)


def try_templates(order: TemplatesOrder) -> TemplatesAnswer:
    """Return every problem of the templates of a book; called in a worker."""
    from soilrota.documents.template_trial import template_problems  # noqa: PLC0415 - only workers run templates

    return TemplatesAnswer(order.client, template_problems(order.root))
