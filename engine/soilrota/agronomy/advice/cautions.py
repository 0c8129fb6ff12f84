"""Ids of the cautions that stand beside needs of lime and gypsum, and beside salinity. Words are made at the edge.

All of them are usual practice and defer to local rules, to the product's label and to licensed advice.
"""

from __future__ import annotations

from enum import StrEnum


class Caution(StrEnum):
    """A caution."""

    #: Lime is a dust: eyes, lungs, neighbours and wind.
    DUST = "dust"
    #: Worked into the layer that it is meant for, it acts sooner and more evenly.
    INCORPORATE = "incorporate"
    #: Left on top of grass it acts from the surface down, over years; no more at once than one dressing.
    SURFACE_ONLY_GRASS = "surface-only-grass"
    #: Lime for a lower layer moves down by itself only over years.
    DEEP_LIME_IS_SLOW = "deep-lime-is-slow"
    #: Not with, nor just before or after, manure, slurry, urea or ammonium: ammonia is lost.
    APART_FROM_MANURE_AND_UREA = "apart-from-manure-and-urea"
    #: pH is measured again before the next dressing.
    RETEST_BEFORE_SECOND_DRESSING = "retest-before-second-dressing"
    #: A maximum binds: what is still lacking waits for the next sampling.
    MORE_MAY_BE_NEEDED_LATER = "more-may-be-needed-later"
    #: Less than is worth spreading: nothing now, look again at the next sampling.
    TOO_LITTLE_TO_SPREAD = "too-little-to-spread"
    #: The soil is more acid than the table goes; its last line is taken, and may be too little.
    BEYOND_TABLE = "beyond-table"
    #: The soil is at its target, but how much it would need if it were not is not known: its range says nothing.
    RANGE_NOT_RECKONED = "range-not-reckoned"
    #: Gypsum dissolves slowly: rain or water must carry it in, over seasons where there is much.
    DISSOLVES_SLOWLY = "dissolves-slowly"
    #: The sodium that is set free must leave with water going down.
    DRAINAGE_FIRST = "drainage-first"
    #: Where the soil is saline, gypsum adds salt; not without drainage.
    NOT_WHERE_SALINE_WITHOUT_DRAINAGE = "not-where-saline-without-drainage"
    #: The share of sodium is too high by soluble salts that were not taken off.
    SODIUM_UNCORRECTED = "sodium-uncorrected"
    #: How a soil behaves is not told by sodium alone: a test strip, or a dispersion test, comes first.
    TEST_STRIP_FIRST = "test-strip-first"
    #: Leaching salt is planned with drainage and licensed advice; no amount of water is given here.
    LEACHING_NEEDS_LICENSED_ADVICE = "leaching-needs-licensed-advice"
    #: Some crops bear less salt as seedlings than they do later.
    SEEDLINGS_BEAR_LESS = "seedlings-bear-less"
