"""What the planned cores of a task can tell, from the client's own earlier results where there are enough."""

from __future__ import annotations

from collections.abc import Sequence

from soilrota.layout.core_counts import core_counts
from soilrota.layout.earlier_spread import result_series
from soilrota.model.client import Client
from soilrota.model.cores import CoreCount
from soilrota.model.windows import TaskKey
from soilrota.quantities import split_code


def counts_for(client: Client, keys: Sequence[TaskKey]) -> dict[TaskKey, tuple[CoreCount, ...]]:
    """Return what the planned cores of each task can tell, for its layer with the most cores.

    Earlier results of that layer under the same protocol count, of all the client's zones together: a trend is taken
    out zone by zone, so what is left speaks of the cores.

    Args:
        client: the client.
        keys: tasks of the client.
    """
    by_protocol = {name: _of_protocol(client, name) for name in dict.fromkeys(key.protocol for key in keys)}
    return {key: by_protocol[key.protocol] for key in keys}


def _of_protocol(client: Client, name: str) -> tuple[CoreCount, ...]:
    """Return what the planned cores of one protocol can tell."""
    protocol = client.protocols[name]
    layer = max(protocol.layers, key=lambda layer: (layer.cores, -layer.top_cm))
    results = (
        result
        for result in client.results
        if (result.protocol, result.top_cm, result.bottom_cm) == (name, layer.top_cm, layer.bottom_cm)
    )
    cores = {note.bag: note.cores for note in client.field_notes if note.bag and note.cores is not None}
    analytes = (split_code(code)[0] for code in protocol.analyses)
    return core_counts(analytes, layer.cores, layer.cores, result_series(results, cores, layer.cores))
