"""What planned cores can tell: the layer with the most cores, each analyte of the protocol once."""

from __future__ import annotations

from soilrota.batch.counts import counts_for
from soilrota.model.windows import TaskKey
from soilrota.quantities import split_code
from tests.documents.made import example


def test_each_analyte_of_the_protocol() -> None:
    """The most demanding first; planned cores are those of the layer with the most."""
    client = example("brolga-plains")
    zone = next(zone for farm in client.farms for zone in farm.zones if "deep-nitrogen" in zone.protocols)
    key = TaskKey(zone.farm, zone.id, "deep-nitrogen")
    counts = counts_for(client, [key])[key]
    protocol = client.protocols["deep-nitrogen"]
    assert {count.spread.analyte for count in counts} == {split_code(code)[0] for code in protocol.analyses}
    assert {count.planned for count in counts} == {max(layer.cores for layer in protocol.layers)}
    needed = [count.needed or 10**9 for count in counts]
    assert needed == sorted(needed, reverse=True)
