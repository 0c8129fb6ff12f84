"""Words of the field pack: layers and depths, how to walk, moisture by feel, what the cores can tell."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date
from itertools import groupby

from babel.dates import format_date

from soilrota.documents.dates import counted, joined, locale_of, long_day, number
from soilrota.documents.layout_sentences import metres_words
from soilrota.documents.pack_views import FeelClass
from soilrota.documents.protocols import DEEP_CM, layer_words
from soilrota.language import marked, marked_as, say, say_as, say_count, spoken
from soilrota.model.client import Zone
from soilrota.model.cores import CoreCount
from soilrota.model.field_pack import PackTask
from soilrota.model.layout import ZoneLayout
from soilrota.model.moisture import Likelihood, MoistureOutlook
from soilrota.model.protocol import Layer, Protocol
from soilrota.quantities import analysis_inside, analysis_name, analyte, split_code

#: Five classes by the share of the water that plants can use: a quarter each, then free water. The limits are those
#: of the method by feel and appearance of the United States Natural Resources Conservation Service; words are ours.
_FEEL = (
    (marked_as("feel", "Dry"), marked_as("feel", "loose, no ball")),
    (marked_as("feel", "Slightly moist"), marked_as("feel", "weak ball")),
    (marked_as("feel", "Moist"), marked_as("feel", "firm ball")),
    (marked_as("feel", "Wet"), marked_as("feel", "coats fingers")),
    (marked_as("feel", "Free water"), marked_as("feel", "drips, shines")),
)
_FEEL_WANTED = {
    "moist": marked(
        "Squeeze a handful and tick. Core in slightly moist or moist soil; if dry or wet, ring the office first."
    ),
    "dry": marked("Squeeze a handful and tick. This survey prefers dry soil; if it is wet, ring the office first."),
}
_OFTEN = {
    Likelihood.MOSTLY: marked("The weather record has the soil {state} on this day of the year in most of {years}."),
    Likelihood.SOMETIMES: marked("The weather record has the soil {state} on this day of the year in some of {years}."),
    Likelihood.SELDOM: marked("The weather record has the soil {state} on this day of the year in few of {years}."),
}
_STATES = {"dry": marked_as("soil", "dry"), "moist": marked_as("soil", "moist"), "wet": marked_as("soil", "wet")}

_WALKS = {
    "transect": marked("Walk the straight line from point 1 on and take a core at every number, in order."),
    "zigzag": marked("Walk the zigzag from point 1 on and take a core at every number, in order."),
    "cluster": marked("All cores come from one spot: go to it, then take a core at every number, in order."),
    "strata": marked("Each point stands for a part of the zone of equal size: take a core at every number, in order."),
}
_FREE_WALKS = {
    "transect": marked("Choose one straight line over the longest way through the zone, and walk it from end to end."),
    "zigzag": marked("Walk a zigzag over the whole zone, from one end to the other, turning short of its edges."),
    "cluster": marked("Choose one spot typical of the zone, mark it, and take all cores within a few steps of it."),
    "strata": marked("Divide the zone by eye into as many parts of equal size as there are cores; one core in each."),
}
#: What a composite bag should hold: the guide to soil sampling of British Columbia's government gives about 0.5 kg.
BAG_KG = 0.5


def weekday_day(day: date, language: str) -> str:
    """Return a day in full with its weekday.

    >>> weekday_day(date(2027, 2, 18), "en-AU"), weekday_day(date(2027, 2, 18), "en-US")
    ('Thursday 18 February 2027', 'Thursday, February 18, 2027')
    """
    weekday, words = format_date(day, "EEEE", locale=locale_of(language)), long_day(day, language)
    if locale_of(language).territory == "US":
        return f"{weekday}, {words}"
    return say_as("day", "{weekday} {day}", weekday=weekday, day=words)


def degrees(value: float) -> str:
    """Return a latitude or longitude [degree] with six decimals, about a decimetre on the ground.

    The decimals stand behind a point in every language, as a phone takes them.

    >>> degrees(-36.1969074), degrees(143.0259951)
    ('-36.196907', '143.025995')
    """
    return f"{value:.6f}"


def shortened(name: str, most: int) -> str:
    """Return a name of at most so many letters, cut with an ellipsis where it must be.

    >>> shortened("Paddock one", 20), shortened("Paddock one", 8)
    ('Paddock one', 'Paddock…')
    """
    return name if len(name) <= most else f"{name[: most - 1].rstrip()}…"


def is_deep_layer(layer: Layer) -> bool:
    """Return whether a layer ends below the depth of a topsoil corer."""
    return layer.bottom_cm > DEEP_CM


def is_deep_point(layers: Iterable[tuple[float, float]], task: PackTask) -> bool:
    """Return whether more is taken at a point than the layers of most cores: its mark on the map is a square."""
    least = min(layer.bottom_cm for layer in task.layers)
    return max((bottom for _, bottom in layers), default=0) > least


def point_depth(layers: Iterable[tuple[float, float]], language: str) -> str:
    """Return what is taken at a point [cm]; layers that touch become one span.

    >>> point_depth(((0, 10), (10, 30)), "en-GB"), point_depth(((0, 10), (30, 60)), "en-GB")
    ('0–30', '0–10, 30–60')
    """
    spans: list[tuple[float, float]] = []
    for top, bottom in sorted(layers):
        if spans and spans[-1][1] == top:
            spans[-1] = (spans[-1][0], bottom)
        else:
            spans.append((top, bottom))
    return ", ".join(f"{number(top, language)}–{number(bottom, language)}" for top, bottom in spans)


def cores_words(layers: Iterable[Layer], language: str) -> str:
    """Return how many cores of which depth, neighbours with the same number together.

    >>> cores_words((Layer(0, 10, 25), Layer(10, 30, 8), Layer(30, 60, 8)), "en-GB")
    '25 cores of 0–10 cm; 8 cores of 10–30 cm and 30–60 cm'
    """
    groups = groupby(layers, key=lambda layer: layer.cores)
    return "; ".join(
        say(
            "{cores} of {depths}",
            cores=counted(cores, "core", "cores"),
            depths=joined([layer_words(layer, language) for layer in same]),
        )
        for cores, same in groups
    )


def holding_days(protocol: Protocol) -> int | None:
    """Return within how many days of sampling the laboratory must have the bags [d]; None where the soil keeps."""
    found = [analyte(split_code(code)[0]) for code in protocol.analyses]
    return min((one.holding_days for one in found if one and one.holding_days is not None), default=None)


def short_lived(protocol: Protocol) -> list[str]:
    """Return the names of the analyses that the soil does not keep for."""
    found = {code: analyte(split_code(code)[0]) for code in protocol.analyses}
    return [analysis_name(code) for code, one in found.items() if one is not None and one.holding_days is not None]


def walk_sentences(layout: ZoneLayout, task: PackTask, language: str) -> Iterator[str]:
    """Yield how to walk the points of a layout."""
    yield say(_WALKS[layout.pattern or layout.wanted])
    lengths = []
    if layout.approach_m is not None:
        to_first = metres_words(layout.approach_m)
        lengths.append(say("From the way in it is {distance} straight to point 1.", distance=to_first))
    if layout.spacing_m:
        lengths.append(say("Points are at least {distance} apart.", distance=metres_words(layout.spacing_m)))
    yield " ".join([*lengths, say("The walk is {distance}.", distance=metres_words(layout.walk_m))])
    yield from _depth_sentences(layout, task, language)
    if any(point.in_row for point in layout.points):
        yield say("Hollow marks: core in the row, on the band. Filled marks: between the rows.")
    yield say("On dung, a urine patch or a stone, step 1 m aside (house rule); leave no point out.")


def _depth_sentences(layout: ZoneLayout, task: PackTask, language: str) -> Iterator[str]:
    """Yield what is taken at squares and circles; nothing where every point is the same single layer."""
    deep = [one for one in layout.points if is_deep_point(one.layers, task)]
    depths = {point_depth(one.layers, language) for one in deep}
    depth = depths.pop() if len(depths) == 1 else ""
    if deep and len(deep) < len(layout.points):
        points = counted(len(deep), "point", "points")
        squares = (
            say("Squares ({points}): take {depth} cm, each layer into its own bucket.", points=points, depth=depth)
            if depth
            else say("Squares ({points}): take what the table says, each layer into its own bucket.", points=points)
        )
        circles = say("Circles: the top layer only.")
        yield f"{squares} {circles}"
    elif deep:
        yield (
            say("At every point take {depth} cm, each layer into its own bucket.", depth=depth)
            if depth
            else say("At every point take what the table says, each layer into its own bucket.")
        )


def no_map_sentences(task: PackTask, zone: Zone, language: str) -> Iterator[str]:
    """Yield what to do where the map does not draw the zone."""
    cores = max(layer.cores for layer in task.layers)
    yield say("The map does not draw this zone, so there are no points. Ask the farmer to show you its edges.")
    yield say(_FREE_WALKS[task.protocol.pattern])
    step = (zone.area_ha * 10_000) ** 0.5 / cores
    if task.protocol.pattern in {"transect", "zigzag"}:
        yield say(
            "If the zone is about as wide as it is long, a core every {step} m along a straight line makes {cores}; "
            "on a zigzag take longer steps.",
            step=number(step, language, 0),
            cores=cores,
        )
    edge = task.protocol.edge_m
    yield say(
        "Keep {distance} from edges and fences (house rule where the protocol says nothing), and well away from "
        "gates, troughs, stock camps, trees, roads, old heaps and wet spots.",
        distance=f"{number(edge, language)} m" if edge is not None else say("at least 10 m"),
    )
    yield say(
        "Write down where the first and the last core lie, in degrees from your phone, and draw your walk below: next "
        "time it is walked again."
    )


def feel_classes() -> tuple[FeelClass, ...]:
    """Return the classes of moisture by feel, from the driest."""
    return tuple(FeelClass(say_as("feel", name), say_as("feel", sign)) for name, sign in _FEEL)


def feel_sentence(protocol: Protocol) -> str:
    """Return what moisture is wanted, by feel."""
    return say(_FEEL_WANTED[protocol.soil_state])


def outlook_sentences(outlook: MoistureOutlook | None, day: date, language: str) -> Iterator[str]:
    """Yield what the weather record says of the soil on a day; nothing where it says nothing."""
    if outlook is None:
        return
    said = []
    if outlook.enough_years:
        years = counted(outlook.years, "past year", "past years")
        said.append(say(_OFTEN[outlook.on(day)], state=say_as("soil", _STATES[outlook.wanted]), years=years))
    recorded = outlook.recorded
    if recorded is not None and recorded.state in _STATES:
        state, on = say_as("soil", _STATES[recorded.state]), long_day(recorded.day, language)
        said.append(
            say("On {day} it had the soil {state}.", day=on, state=state)
            if recorded.share is None
            else say(
                "On {day} it had the soil {state}, {percent}% of the water that plants can use.",
                day=on,
                state=state,
                percent=f"{recorded.share * 100:.0f}",
            )
        )
    if said:
        yield " ".join([*said, say("What you feel on the day counts more.")])


def count_sentence(count: CoreCount) -> str:
    """Return what the planned cores can tell of one analyte, as one sentence."""
    language = spoken()
    facts = {
        "wanted": number(count.wanted.within_percent, language),
        "ten_more": number(count.ten_more_percent, language, 0),
    }
    if count.needed is None:
        more = say("no number of cores gives ±{wanted}%, because the laboratory's own spread is wider", **facts)
    elif count.needed > count.planned:
        needed = counted(count.needed, "core", "cores")
        more = say("ten cores more would give ±{ten_more}%, and ±{wanted}% would take {cores}", **facts, cores=needed)
    else:
        more = say("ten cores more would give ±{ten_more}%", **facts)
    return say_count(
        "{count} core gives the zone's mean of {analyte} to ±{reached}% ({sure}% sure), and two samplings must differ "
        "by {change}% to tell a change from chance; {more}.",
        "{count} cores give the zone's mean of {analyte} to ±{reached}% ({sure}% sure), and two samplings must differ "
        "by {change}% to tell a change from chance; {more}.",
        count.planned,
        analyte=analysis_inside(count.spread.analyte),
        reached=number(count.reached_percent, language, 0),
        sure=f"{count.wanted.confidence * 100:.0f}",
        change=number(count.change_percent, language, 0),
        more=more,
    )


def mixed_sentence(zone: Zone) -> str:
    """Return what to do about other ground inside a zone; empty for a uniform one."""
    if not zone.mixed_with:
        return ""
    return say(
        "The zone also holds {ground}: if a point falls there, say so under deviations.",
        ground=joined(zone.mixed_with),
    )
