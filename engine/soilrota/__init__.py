"""soilrota: plans, equips and follows up the soil sampling of many client farms.

Data flows one way: `book` reads files into frozen values, `timing` says when to sample, `documents`
sets what people read, `batch` drives them for every client each night, `cli` is the thin edge.
DEVELOPERS.md draws the whole picture.
"""

__version__ = "0.1.0"
