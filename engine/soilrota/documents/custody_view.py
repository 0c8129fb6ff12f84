"""The custody form: every bag of a visit by laboratory, from hand to hand, with what is asked for.

What a form records (bag, place, date, time, condition, temperature, every hand-over with its time and signature)
follows the published handbooks of environmental sampling; the form itself is ours.
"""

from __future__ import annotations

from collections.abc import Iterator

from babel.dates import get_day_names

from soilrota.documents.dates import counted, joined, locale_of
from soilrota.documents.pack_views import CustodyRow, CustodyView, LabelledLine
from soilrota.documents.pack_words import holding_days, short_lived, shortened
from soilrota.documents.protocols import depth_words
from soilrota.language import say, spoken
from soilrota.model.field_pack import FieldPack, PackTask, PackZone
from soilrota.model.practice import Laboratory
from soilrota.quantities import analysis_inside

#: Lines for handing over: crew to carrier, carrier to laboratory, and two to spare.
_HAND_OVERS = 4
#: Letters of a name beside its bag; the first page has it in full [-].
_LONGEST_ZONE = 44


def custody_views(pack: FieldPack) -> tuple[CustodyView, ...]:
    """Return the custody forms of a visit, one a laboratory, in the order of the route."""
    work = [(zone, task) for zone in pack.zones for task in zone.tasks]
    laboratories = dict.fromkeys("" if task.laboratory is None else task.laboratory.id for _, task in work)
    return tuple(
        _form(pack, [one for one in work if ("" if one[1].laboratory is None else one[1].laboratory.id) == laboratory])
        for laboratory in laboratories
    )


def _form(pack: FieldPack, work: list[tuple[PackZone, PackTask]]) -> CustodyView:
    """Return the form of the tasks of one laboratory."""
    laboratory = work[0][1].laboratory
    cold = any(holding_days(task.protocol) is not None for _, task in work)
    return CustodyView(
        laboratory=laboratory.name if laboratory is not None else "",
        sender=_sender(pack),
        asked=tuple(_asked([task for _, task in work])),
        notes=tuple(_notes([task for _, task in work], laboratory)),
        rows=tuple(
            CustodyRow(
                bag=bag.id,
                zone=f"{zone.letter} {shortened(zone.zone.name, _LONGEST_ZONE)}",
                depth=depth_words(bag.top_cm, bag.bottom_cm, pack.client.language),
            )
            for zone, task in work
            for bag in task.bags
        ),
        cold=cold,
        hand_overs=tuple(str(number) for number in range(1, _HAND_OVERS + 1)),
    )


def _sender(pack: FieldPack) -> str:
    """Return who sends the bags, and from where."""
    practice = pack.client.practice
    sender = f"{practice.name} ({practice.contact})" if practice.contact else practice.name
    if not pack.person:
        return say("{practice}; farm {farm}", practice=sender, farm=pack.farm.name)
    return say("{practice}; farm {farm}; taken by {person}", practice=sender, farm=pack.farm.name, person=pack.person)


def _asked(tasks: list[PackTask]) -> Iterator[LabelledLine]:
    """Yield what is asked for, a line a protocol with its bags."""
    protocols = {task.protocol.id: task.protocol for task in tasks}
    for protocol in protocols.values():
        bags = [bag.id for task in tasks if task.protocol.id == protocol.id for bag in task.bags]
        names = joined([analysis_inside(code) for code in protocol.analyses])
        yield LabelledLine(f"{protocol.name} ({joined(bags)})" if len(protocols) > 1 else protocol.name, names)


def _notes(tasks: list[PackTask], laboratory: Laboratory | None) -> Iterator[str]:
    """Yield how to keep and send the bags."""
    cold = [task for task in tasks if holding_days(task.protocol) is not None]
    if cold:
        days = min(found for task in cold if (found := holding_days(task.protocol)) is not None)
        names = dict.fromkeys(name for task in cold for name in short_lived(task.protocol))
        yield say(
            "{analyses}: keep the bags on ice from the first core on; at the laboratory within {days}, counted from "
            "the time written below.",
            analyses=joined(names),
            days=counted(days, "day", "days"),
        )
    else:
        yield say("Keep the bags dry, closed and out of the sun.")
    if laboratory is not None:
        yield " ".join(_laboratory(laboratory))
    yield say("Bags are in your hand, in your sight or locked away until somebody signs for them.")


def _laboratory(laboratory: Laboratory) -> Iterator[str]:
    """Yield when a laboratory receives bags, how long they travel and when results are expected."""
    names = get_day_names("wide", locale=locale_of(spoken()))
    # Babel counts the days of the week from 0, Monday.
    weekdays = [names[number - 1] for number in sorted(laboratory.receiving_weekdays)]
    yield say("It receives on {weekdays}.", weekdays=joined(weekdays))
    if laboratory.courier_days:
        yield say("The courier takes {days}.", days=counted(laboratory.courier_days, "day", "days"))
    turnaround = counted(laboratory.turnaround_working_days, "working day", "working days")
    yield say("Results are expected {days} from receipt.", days=turnaround)
