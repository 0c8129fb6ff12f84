"""Measuring shapes on the ground: a local equal-area grid in metres, areas, overlaps, and what is wrong with a shape.

The modules import shapely and pyproj, which take a while to load: import them only where a map exists.

- `projection`: the grid, and the way there and back.
- `measure`: areas, lengths, overlaps, distances.
- `validity`: where a ring crosses itself.
"""
