"""Ids of tables and of the book as words: crops, textures, produce, methods, classes, rainfall.

An id is read with blanks in place of its hyphens; one that stands in no table here is written so in every language.
"""

from __future__ import annotations

from soilrota.documents.words import LAND_USES
from soilrota.language import marked, marked_as, say, say_as

_TEXTURES = frozenset({
    marked("sand"), marked("loamy sand"), marked("clayey sand"), marked("sandy loam"), marked("loam"),
    marked("silt loam"), marked("sandy clay loam"), marked("clay loam"), marked("light clay"),
    marked("light medium clay"), marked("medium clay"), marked("heavy clay"), marked("peat"),
})  # fmt: skip
_CROPS = frozenset({
    marked("alfalfa"), marked("alsike clover"), marked("barley"), marked("barley forage"), marked("barley grain"),
    marked("barley hay"), marked("bean"), marked("beans"), marked("berseem"), marked("berseem clover"),
    marked("broccoli"), marked("cabbage"), marked("canola"), marked("carrot"), marked("carrots"), marked("cereal hay"),
    marked("cereal rye"), marked("clover"), marked("cocksfoot"), marked("common bean"), marked("corn"),
    marked("corn silage"), marked("corn soybean"), marked("cotton"), marked("courgette"), marked("courgettes"),
    marked("dried peas"), marked("durum"), marked("durum wheat"), marked("faba bean"), marked("faba beans"),
    marked("field beans"), marked("field pea"), marked("field peas"), marked("forage maize"), marked("grain corn"),
    marked("grain maize"), marked("grain sorghum"), marked("grass"), marked("ladino clover"), marked("lettuce"),
    marked("lucerne"), marked("lupin"), marked("lupins"), marked("maize"), marked("maize forage"),
    marked("maize grain"), marked("maize silage"), marked("medic"), marked("oaten hay"), marked("oats"),
    marked("oilseed rape"), marked("onion"), marked("onions"), marked("orchard grass"), marked("peas"),
    marked("perennial ryegrass"), marked("phalaris"), marked("potato"), marked("potatoes"), marked("rape"),
    marked("rapeseed"), marked("red clover"), marked("rye"), marked("rye grain"), marked("ryegrass"),
    marked("semi dwarf wheat"), marked("silage corn"), marked("silage maize"), marked("sorghum"), marked("soya"),
    marked("soya beans"), marked("soybean"), marked("soybeans"), marked("spinach"), marked("spring barley"),
    marked("spring beans"), marked("spring oats"), marked("spring wheat"), marked("strawberry clover"),
    marked("subterranean clover"), marked("sugar beet"), marked("sunflower"), marked("sunflowers"),
    marked("tall fescue"), marked("tall wheatgrass"), marked("tomato"), marked("tomatoes"), marked("triticale"),
    marked("turnip rape"), marked("wheat"), marked("wheat forage"), marked("wheat grain"), marked("wheat hay"),
    marked("wheat semi dwarf"), marked("white clover"), marked("wholecrop"), marked("wholecrop cereals"),
    marked("winter barley"), marked("winter beans"), marked("winter oats"), marked("winter oilseed rape"),
    marked("winter wheat"), marked("zucchini"),
})  # fmt: skip
#: What leaves a field, what uses lime up, the kinds of holding that the law knows, and properties of ground.
_OTHERS = frozenset({
    marked("beef"), marked("cattle"), marked("cereal whole tops"), marked("clover hay"), marked("fresh grass"),
    marked("grain"), marked("grain and straw"), marked("grass hay"), marked("haylage"), marked("lambs"),
    marked("lucerne hay"), marked("lupin grain"), marked("lupin tops"), marked("meat live"), marked("milk"),
    marked("roots"), marked("seed"), marked("seed and straw"), marked("sheep"), marked("silage"),
    marked("silage at 25 %"), marked("silage at 30 %"), marked("straw"), marked("tubers"), marked("whole tops"),
    marked("wool"), marked("horticulture"), marked("stated"), marked("general"), marked("extensive"),
    marked("below 80 kg chemical nitrogen"), marked("goal"), marked("hay"),
    marked("land use"), marked("pasture"), marked("rainfall zone"),
})  # fmt: skip
_NOUNS = _TEXTURES | _CROPS | _OTHERS
_METHODS = frozenset({
    marked_as("method", "ammonium acetate"), marked_as("method", "ammonium nitrate by volume"),
    marked_as("method", "bray 1"), marked_as("method", "cacl2"), marked_as("method", "colwell"),
    marked_as("method", "colwell adjusted"), marked_as("method", "derived"), marked_as("method", "dry combustion"),
    marked_as("method", "dtpa"), marked_as("method", "ec 1 5"), marked_as("method", "effective"),
    marked_as("method", "exchangeable"), marked_as("method", "field moist"), marked_as("method", "hot cacl2"),
    marked_as("method", "hot water"), marked_as("method", "kcl"), marked_as("method", "kcl 40"),
    marked_as("method", "kjeldahl"), marked_as("method", "loss on ignition"), marked_as("method", "mcp"),
    marked_as("method", "mehlich"), marked_as("method", "mehlich 3"), marked_as("method", "mehlich buffer"),
    marked_as("method", "morgan by volume"), marked_as("method", "olsen"), marked_as("method", "olsen by volume"),
    marked_as("method", "sikora"), marked_as("method", "total"), marked_as("method", "walkley black"),
    marked_as("method", "water"), marked_as("method", "water 1 5"),
})  # fmt: skip
_CLASSES = frozenset({
    marked_as("class", "above"), marked_as("class", "above index 4"), marked_as("class", "above target"),
    marked_as("class", "acid"), marked_as("class", "adequate"), marked_as("class", "all"), marked_as("class", "below"),
    marked_as("class", "below critical"), marked_as("class", "below optimum"), marked_as("class", "critical or above"),
    marked_as("class", "deficient"), marked_as("class", "excessive"), marked_as("class", "extreme"),
    marked_as("class", "extremely low"), marked_as("class", "high"), marked_as("class", "highly sensitive"),
    marked_as("class", "highly tolerant"), marked_as("class", "hydroxide"), marked_as("class", "index 0"),
    marked_as("class", "index 1"), marked_as("class", "index 2"), marked_as("class", "index 2 minus"),
    marked_as("class", "index 2 plus"), marked_as("class", "index 3"), marked_as("class", "index 4"),
    marked_as("class", "index 5"), marked_as("class", "index 6"), marked_as("class", "index 7"),
    marked_as("class", "index 8"), marked_as("class", "index 9"), marked_as("class", "low"),
    marked_as("class", "marginal"), marked_as("class", "medium"), marked_as("class", "moderate"),
    marked_as("class", "non responsive"), marked_as("class", "non saline"), marked_as("class", "non sodic"),
    marked_as("class", "none"), marked_as("class", "normal"), marked_as("class", "not acid"),
    marked_as("class", "optimum"), marked_as("class", "possible"), marked_as("class", "responsive"),
    marked_as("class", "sensitive"), marked_as("class", "slight"), marked_as("class", "sodic"),
    marked_as("class", "sodium"), marked_as("class", "strongly sodic"), marked_as("class", "sulfides"),
    marked_as("class", "tolerant"), marked_as("class", "toxic"), marked_as("class", "usual"),
    marked_as("class", "very high"), marked_as("class", "very low"), marked_as("class", "very very low"),
    marked_as("class", "within"),
})  # fmt: skip
_RAINFALL = frozenset({marked_as("rainfall", "low"), marked_as("rainfall", "medium"), marked_as("rainfall", "high")})


def spaced(word: str) -> str:
    """Return an id with blanks in place of what holds it together.

    >>> spaced("index-2-minus"), spaced("spread_already")
    ('index 2 minus', 'spread already')
    """
    return word.replace("-", " ").replace("_", " ")


def plain(word: str) -> str:
    """Return an id as words.

    >>> plain("clay-loam"), plain("spread_already")
    ('clay loam', 'spread already')
    """
    read = spaced(word)
    return say(read) if read in _NOUNS else read


def ground_words(word: str) -> str:
    """Return a land use, or another id of ground, as words.

    >>> ground_words("other"), ground_words("field-pea")
    ('other use', 'field pea')
    """
    return say(LAND_USES[word]) if word in LAND_USES else plain(word)


def method_words(method: str) -> str:
    """Return a method of measuring as words.

    >>> method_words("olsen-by-volume")
    'olsen by volume'
    """
    return _in("method", _METHODS, method)


def class_words(name: str) -> str:
    """Return the id of a class as words.

    >>> class_words("index-2-minus")
    'index 2 minus'
    """
    return _in("class", _CLASSES, name)


def rainfall_words(zone: str) -> str:
    """Return a rainfall zone as words.

    >>> rainfall_words("high")
    'high'
    """
    return _in("rainfall", _RAINFALL, zone)


def _in(use: str, table: frozenset[str], word: str) -> str:
    """Return an id as words of one use."""
    read = spaced(word)
    return say_as(use, read) if read in table else plain(word)
