"""Plain words for what the data names by a code: states, classes, land uses, patterns."""

from __future__ import annotations

from soilrota.model.windows import State

#: State in words, and the mark that stands beside it (never colour alone).
STATES: dict[State, str] = {
    State.OPEN_TODAY: "Open now",
    State.OPENS_LATER: "Opens later",
    State.LAST_DAYS: "Last days",
    State.LATE_FOR_DECISION: "Open, but late for the decision",
    State.OVERDUE: "Overdue",
    State.NO_DAY_LEFT: "No day left this season",
    State.NOT_KNOWN: "Not known",
    State.BAGS_OUT: "Taken, bags at the laboratory",
    State.RESULTS_IN: "Results in",
}

#: The same where there is little room.
SHORT_STATES: dict[State, str] = {
    State.LATE_FOR_DECISION: "Open, but late",
    State.NO_DAY_LEFT: "No day left",
    State.BAGS_OUT: "Bags out",
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
    "mineral-fertiliser": "mineral fertiliser",
    "lime": "lime",
    "gypsum": "gypsum",
    "manure": "manure or slurry",
    "compost": "compost",
    "biosolids": "biosolids",
    "other-amendment": "another amendment",
}

LAND_USES = {
    "crop": "crops",
    "pasture": "pasture",
    "hay": "hay",
    "orchard": "orchard",
    "vineyard": "vineyard",
    "vegetables": "vegetables",
    "other": "other use",
}

POSITIONS = {
    "flat": "flat",
    "crest": "crest",
    "upper-slope": "upper slope",
    "mid-slope": "middle of the slope",
    "lower-slope": "foot of the slope",
    "hollow": "hollow",
    "terrace": "terrace",
}

AVOIDED = {
    "fence": "fence",
    "gateway": "gateway",
    "trough": "trough",
    "stock-camp": "stock camp",
    "tree-line": "trees",
    "road": "road",
    "building": "building",
    "headland": "headland",
    "dump": "old heap",
    "windrow": "windrow",
    "wet-spot": "wet spot",
    "saline-spot": "salty spot",
    "old-fence-line": "old fence line",
    "water": "water",
    "other": "place to avoid",
}

#: How the cores lie, as an instruction to the crew.
PATTERNS = {
    "transect": (
        "Walk one straight line through the zone and take the cores at even steps along it. "
        "Next year walk the same line."
    ),
    "zigzag": "Walk a zigzag over the whole zone and take the cores at even steps along it.",
    "cluster": "Take all cores within a few steps of the fixed point, the same point every year.",
    "strata": "Divide the zone into parts of equal size, one for each core, and take one core at random in each.",
}

SOIL_STATES = {
    "moist": "Sample when the soil is moist: not in drought, and not within two days of heavy rain.",
    "dry": "This survey prefers dry soil, so that results of different years compare.",
}


def material_words(material_class: str, material: str) -> str:
    """Return what was spread: the class, and the material where it says more.

    >>> material_words("lime", "ground limestone"), material_words("lime", "lime")
    ('lime (ground limestone)', 'lime')
    """
    name = CLASSES.get(material_class, material_class)
    return name if not material or material.lower() == name else f"{name} ({material})"
