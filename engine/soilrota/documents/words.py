"""Plain words for what the data names by a code: states, classes, land uses, patterns.

The tables hold English; whoever shows a word says it: `say(LAND_USES[code])`.
"""

from __future__ import annotations

from soilrota.language import marked, say
from soilrota.model.windows import State

#: State in words, and the mark that stands beside it (never colour alone).
STATES: dict[State, str] = {
    State.OPEN_TODAY: marked("Open now"),
    State.OPENS_LATER: marked("Opens later"),
    State.LAST_DAYS: marked("Last days"),
    State.LATE_FOR_DECISION: marked("Open, but late for the decision"),
    State.OVERDUE: marked("Overdue"),
    State.NO_DAY_LEFT: marked("No day left this season"),
    State.NOT_KNOWN: marked("Not known"),
    State.BAGS_OUT: marked("Taken, bags at the laboratory"),
    State.RESULTS_IN: marked("Results in"),
}

#: The same where there is little room.
SHORT_STATES: dict[State, str] = {
    State.LATE_FOR_DECISION: marked("Open, but late"),
    State.NO_DAY_LEFT: marked("No day left"),
    State.BAGS_OUT: marked("Bags out"),
}

#: Shape of the mark drawn beside each state: filled, half, ring, cross, bar.
MARKS: dict[State, str] = {
    State.OPEN_TODAY: "full",
    State.LAST_DAYS: "half",
    State.LATE_FOR_DECISION: "half",
    State.OPENS_LATER: "ring",
    State.OVERDUE: "bang",
    State.NO_DAY_LEFT: "cross",
    State.NOT_KNOWN: "query",
    State.BAGS_OUT: "bag",
    State.RESULTS_IN: "tick",
}

#: From Monday, number 1, on.
WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")

CLASSES = {
    "mineral-fertiliser": marked("mineral fertiliser"),
    "lime": marked("lime"),
    "gypsum": marked("gypsum"),
    "manure": marked("manure or slurry"),
    "compost": marked("compost"),
    "biosolids": marked("biosolids"),
    "other-amendment": marked("another amendment"),
}

LAND_USES = {
    "crop": marked("crops"),
    "pasture": marked("pasture"),
    "hay": marked("hay"),
    "orchard": marked("orchard"),
    "vineyard": marked("vineyard"),
    "vegetables": marked("vegetables"),
    "other": marked("other use"),
}

POSITIONS = {
    "flat": marked("flat"),
    "crest": marked("crest"),
    "upper-slope": marked("upper slope"),
    "mid-slope": marked("middle of the slope"),
    "lower-slope": marked("foot of the slope"),
    "hollow": marked("hollow"),
    "terrace": marked("terrace"),
}

AVOIDED = {
    "fence": marked("fence"),
    "gateway": marked("gateway"),
    "trough": marked("trough"),
    "stock-camp": marked("stock camp"),
    "tree-line": marked("trees"),
    "road": marked("road"),
    "building": marked("building"),
    "headland": marked("headland"),
    "dump": marked("old heap"),
    "windrow": marked("windrow"),
    "wet-spot": marked("wet spot"),
    "saline-spot": marked("salty spot"),
    "old-fence-line": marked("old fence line"),
    "water": marked("water"),
    "other": marked("place to avoid"),
}

#: How the cores lie, as an instruction to the crew.
PATTERNS = {
    "transect": marked(
        "Walk one straight line through the zone and take the cores at even steps along it. "
        "Next year walk the same line."
    ),
    "zigzag": marked("Walk a zigzag over the whole zone and take the cores at even steps along it."),
    "cluster": marked("Take all cores within a few steps of the fixed point, the same point every year."),
    "strata": marked(
        "Divide the zone into parts of equal size, one for each core, and take one core at random in each."
    ),
}

SOIL_STATES = {
    "moist": marked("Sample when the soil is moist: not in drought, and not within two days of heavy rain."),
    "dry": marked("This survey prefers dry soil, so that results of different years compare."),
}


def material_words(material_class: str, material: str) -> str:
    """Return what was spread: the class, and the material where it says more.

    >>> material_words("lime", "ground limestone"), material_words("lime", "lime")
    ('lime (ground limestone)', 'lime')
    """
    english = CLASSES.get(material_class)
    name = say(english) if english else material_class
    return name if not material or material.lower() in (english, name) else f"{name} ({material})"
