"""Cautions beside advice, in words: usual practice, which gives way to local rules, labels and licensed advice."""

from __future__ import annotations

from soilrota.language import marked, say

#: Stands once wherever cautions of advice stand.
LOCAL_RULES_DECIDE = marked(
    "Local rules, the product's label and licensed practice decide; they come before anything that is said here."
)
_CAUTIONS = {
    # Lime, gypsum, salinity.
    "dust": marked(
        "Lime is a dust that harms eyes and lungs: spread in still weather, wear eye and breath protection, and "
        "mind neighbours."
    ),
    "incorporate": marked("Work lime into the layer that it is meant for: it acts sooner and more evenly."),
    "surface-only-grass": marked(
        "On grass lime stays on top and acts from the surface down over years: no more at once than one dressing."
    ),
    "deep-lime-is-slow": marked("Lime for a lower layer moves down by itself only over years."),
    "apart-from-manure-and-urea": marked(
        "Keep lime apart from manure, slurry, urea and ammonium, before and after: ammonia would be lost."
    ),
    "retest-before-second-dressing": marked("Measure again before the next dressing."),
    "more-may-be-needed-later": marked(
        "A maximum holds the amount back: what is still lacking waits for the next sampling."
    ),
    "too-little-to-spread": marked("So little is not worth spreading: nothing now, look again at the next sampling."),
    "beyond-table": marked("The soil is more acid than the table goes: its last line is taken, and may be too little."),
    "range-not-reckoned": marked(
        "The soil is at its target; how much it would need if it were not is not known, so the range says nothing."
    ),
    "dissolves-slowly": marked(
        "Gypsum dissolves slowly: rain or water must carry it in, over seasons where there is much."
    ),
    "drainage-first": marked("Look at drainage first: what is set free must leave with water that goes down."),
    "not-where-saline-without-drainage": marked("Where the soil is saline, gypsum adds salt: not without drainage."),
    "sodium-uncorrected": marked("Soluble salts were not taken off, so the share of sodium is too high."),
    "test-strip-first": marked(
        "Sodium alone does not tell how a soil behaves: try a strip, or have dispersion tested, first."
    ),
    "leaching-needs-licensed-advice": marked(
        "Leaching salt is planned with drainage and licensed advice; no amount of water is given here."
    ),
    "seedlings-bear-less": marked("Some crops bear less salt as seedlings than they do later."),
    # Nutrients and spreading.
    "applied-unknown": marked(
        "Something was spread, or will be, of which the product or the rate is not known: it is not taken off."
    ),
    "applied-undated": marked("Something was spread on an unknown day: it is not taken off."),
    "manure-availability": marked(
        "No figure that was read says how much of manure a crop finds in its year here: all of it "
        "is taken off, and the range reaches to none of it."
    ),
    "removal-not-counted": marked(
        "What the harvest takes off is not counted, for the cropping plan or the tables lack it."
    ),
    "build-up-not-sized": marked("The result is under its line, and no source says how much lifts it."),
    "superseded": marked("A later edition of the region's rules exists, which was not read."),
    "legal-maximum-unknown": marked(
        "The law has maxima here, but none was read for this use of the land: look it up before spreading."
    ),
    "recovery-in-demand": marked(
        "The loss of fertiliser is in the figure of what the crop must find: do not add it again."
    ),
    "recovery-not-in": marked("The figure is what the crop takes up: what is lost of fertiliser is not added."),
    "legume-credit-left-out": marked(
        "A legume stood before: no figure that was read says what this one leaves, so nothing is taken off for it."
    ),
    "run-off": marked("Not before heavy rain, nor where water runs off to a drain or a neighbour."),
    "wet-or-frozen-ground": marked("Not on ground that is waterlogged, flooded, frozen or under snow."),
    "near-water": marked("Water is near: keep the distance that local rules set."),
    "stock-off": marked("Keep stock off after spreading, as the label and local rules say."),
    "cadmium": marked(
        "Phosphorus fertiliser may carry cadmium: ask for the product's content, and add the load up over years."
    ),
    "local-rules": LOCAL_RULES_DECIDE,
    # Of derived quantities that a need follows from.
    "topsoil-property": marked("The figures of this layer's texture, density or gravel are those of the topsoil."),
    "nitrate-alone": marked("Nitrate alone was measured: ammonium is not in the soil's nitrogen."),
    "gypsum-possible": marked("The soil may hold gypsum, which makes it look saltier than it is."),
    "chloride-counts-as-carbon": marked("Chloride is high and counts as carbon in this method."),
    "extract-only": marked("Only what the extract finds is counted."),
    "ratio-weak": marked("A ratio by itself is weak evidence."),
}


def caution_sentence(caution: str) -> str:
    """Return a caution as a sentence; one without words here by its own name."""
    words = _CAUTIONS.get(caution)
    return say(words) if words else say("Mind: {caution}.", caution=caution.replace("-", " "))


def has_caution_words(caution: str) -> bool:
    """Return whether a caution has words of its own."""
    return caution in _CAUTIONS


def caution_sentences(cautions: tuple[str, ...]) -> tuple[str, ...]:
    """Return cautions as sentences, each once, and last, wherever there is any, that local rules decide."""
    found = [caution_sentence(one) for one in cautions if one != "local-rules"]
    return tuple(dict.fromkeys((*found, say(LOCAL_RULES_DECIDE)))) if cautions else ()
