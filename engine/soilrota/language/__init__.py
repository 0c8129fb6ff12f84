"""What is said to people: English stands in the code, other languages in catalogues; and dates and numbers in words.

The language is set once, by whoever makes a document or a message, with `speaking`; inside, `say` and its kin return
words in it. Importing this package loads neither a catalogue nor the library that knows locales: a night in which
nothing changed needs neither.
"""

from soilrota.language.phrases import Figure, Phrase, phrase, said_again
from soilrota.language.speech import marked, marked_as, say, say_as, say_count, speaking, spoken

__all__ = [
    "Figure",
    "Phrase",
    "marked",
    "marked_as",
    "phrase",
    "said_again",
    "say",
    "say_as",
    "say_count",
    "speaking",
    "spoken",
]
