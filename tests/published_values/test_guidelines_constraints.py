"""Constraints: every verified figure of the shipped sets, with the source beside it."""

from __future__ import annotations

import pytest

from soilrota.model.guideline import Status
from tests.published_values.figures import Printed, named, row_of, shipped, verified

ALL, AU, WA, NSW = (
    "constraints-everywhere",
    "constraints-australia",
    "constraints-western-australia",
    "constraints-new-south-wales",
)
VIC, SA, TAS = "constraints-victoria", "constraints-south-australia", "constraints-tasmania"
QLD, NZ, US = "constraints-queensland", "constraints-new-zealand", "constraints-united-states"

#: Rayment and Lyons 2011, Soil Chemical Methods - Australasia.
METHODS = {
    # Table 3.1, after Tolmie and Biggs (2000) and Shaw: dS/m of a 1:5 extract by clay %.
    (AU, "conductivity-clay-10-20"): Printed(edges=(0.07, 0.15, 0.34, 0.63, 0.93), ranges=((10, 20),)),
    (AU, "conductivity-clay-20-40"): Printed(edges=(0.09, 0.19, 0.45, 0.76, 1.21), ranges=((20, 40),)),
    (AU, "conductivity-clay-40-60"): Printed(edges=(0.12, 0.24, 0.56, 0.96, 1.53), ranges=((40, 60),)),
    (AU, "conductivity-clay-60-80"): Printed(edges=(0.15, 0.3, 0.7, 1.18, 1.87), ranges=((60, 80),)),
    # Chapter 3: below 0.15 very low, 0.15-0.45 low, 0.90-2.0 high, above 2.0 very high; medium is what is left.
    (AU, "conductivity"): Printed(edges=(0.15, 0.45, 0.9, 2)),
    # Chapter 5: soluble chloride, mg/kg.
    (AU, "chloride"): Printed(edges=(100, 300, 600, 2000)),
    # Method 15N1, after Northcote and Skene (1972): below 6 non-sodic, 6-15 sodic, above 15 strongly sodic, %.
    (AU, "sodium-share"): Printed(6, edges=(6, 15)),
    # Chapter 4: sulfides at 4 and less, sodium at 8.5-9.5, free hydroxide above 10; to one decimal.
    (AU, "ph-water-extremes"): Printed(edges=(4.1, 8.5, 10.1)),
    # Method 15M1: risk of magnesium deficiency at Ca/Mg above 4-6 or Mg/K below 2-2.5.
    (ALL, "calcium-magnesium"): Printed(5, (4, 6)),
    (ALL, "magnesium-potassium"): Printed(2.25, (2, 2.5)),
    # Method 12C1: below 0.15 mg/kg by hot CaCl2 deficiency may occur; ratings by hot water.
    (ALL, "boron-hot-cacl2"): Printed(0.15),
    (ALL, "boron-hot-water"): Printed(edges=(0.5, 1, 2, 5)),
    # Chapter 6: carbon, %, north-eastern Australia and New Zealand.
    **{
        (QLD, f"organic-carbon-{way}"): Printed(edges=(0.5, 1.5, 2.5, 5)) for way in ("walkley-black", "dry-combustion")
    },
    **{(NZ, f"organic-carbon-{way}"): Printed(edges=(2, 4, 10, 20)) for way in ("walkley-black", "dry-combustion")},
}
#: Bulletin of the National Research Centre, table 5: 0-2, 2-4, 4-8, 8-16, above 16 dS/m; glossary of the RECARE
#: project: saline soil from 4 dS/m on.
SALINITY = {(ALL, "ece"): Printed(4, edges=(2, 4, 8, 16))}
#: Journal of Ecology and Environment, tables 9 and 12, after Havlin and Tandon.
RATINGS = {
    (ALL, "exchangeable-calcium"): Printed(edges=(2, 5, 10, 20)),
    (ALL, "exchangeable-magnesium"): Printed(edges=(0.5, 1.5, 3, 8)),
    (ALL, "exchangeable-potassium"): Printed(edges=(0.12, 0.3, 0.6, 1.2)),
    (ALL, "exchange-capacity-derived"): Printed(edges=(5, 15, 25, 40)),
    (ALL, "exchange-capacity-ammonium-acetate"): Printed(edges=(5, 15, 25, 40)),
    # Iron 0-2.5, 2.6-4.5, above 4.5 and zinc 0-0.5, 0.6-1, above 1: to one decimal.
    (US, "iron-dtpa"): Printed(2.6, edges=(2.6, 4.6)),
    (US, "zinc-dtpa"): Printed(0.6, edges=(0.6, 1.1)),
    (US, "manganese-dtpa"): Printed(1, edges=(1,)),
    (US, "copper-dtpa"): Printed(0.4, edges=(0.4, 0.6)),
}
#: Rutgers Soil Testing Laboratory, Relative levels of nutrients: Mehlich-3, mg/kg.
RUTGERS = {
    (US, "zinc-mehlich-3"): Printed(1.0),
    (US, "copper-mehlich-3"): Printed(0.5),
    (US, "boron-mehlich-3"): Printed(0.5),
    (US, "iron-mehlich-3"): Printed(50),
}
#: New South Wales Department of Primary Industries: Cation exchange capacity (% of it); AC.19 (acid at 5.4 and less).
NEW_SOUTH_WALES = {
    (AU, "calcium-share"): Printed(edges=(65, 80)),
    (AU, "magnesium-share"): Printed(edges=(10, 15)),
    (AU, "potassium-share"): Printed(edges=(1, 5)),
    (NSW, "ph"): Printed(5.4, edges=(5.5,)),
}
#: Western Australia: Developing a liming program (pH in CaCl2); Effects of soil acidity (aluminium in CaCl2, mg/kg).
WESTERN = {
    (WA, "ph-topsoil"): Printed(5.5, target=5.5),
    (WA, "ph-below"): Printed(4.8, target=4.8),
    (WA, "aluminium-cacl2"): Printed(2, edges=(2, 5)),
}
#: Grains Research and Development Corporation, Ask an expert: zinc of wheat by DTPA, mg/kg.
ZINC = {
    (WA, "zinc-wheat-sand"): Printed(0.195, (0.12, 0.27)),
    (SA, "zinc-wheat"): Printed(0.8),
}
#: Agriculture Victoria, Understanding soil tests for pastures: floor of pH.
VICTORIA = {(VIC, "ph-pasture"): Printed(4.5), (VIC, "ph-water-pasture"): Printed(5.3)}
#: Corangamite Catchment Management Authority, The brown book: lime is considered below 5.0 (CaCl2).
BROWN_BOOK = {(VIC, "ph-crop"): Printed(5.0)}
#: Botta, Understanding Your Soil Test: aluminium is toxic below 4.8 (CaCl2), 5.5 (water).
BOTTA = {(VIC, "ph-below"): Printed(4.8), (VIC, "ph-water-below"): Printed(5.5)}
#: Tasmanian dairy extension, Trace elements: 0.5 mg/kg of copper by DTPA is adequate for pasture.
COPPER = {(TAS, "copper-pasture"): Printed(0.5)}

SETS = (ALL, AU, WA, NSW, VIC, SA, TAS, QLD, NZ, US, "constraints-alberta")
TABLES = {
    "Rayment and Lyons": METHODS,
    "National Research Centre": SALINITY,
    "Havlin and Tandon": RATINGS,
    "Rutgers": RUTGERS,
    "New South Wales": NEW_SOUTH_WALES,
    "Western Australia": WESTERN,
    "Grains": ZINC,
    "Agriculture Victoria": VICTORIA,
    "Corangamite": BROWN_BOOK,
    "Botta": BOTTA,
    "Tasmanian": COPPER,
}
ALUMINIUM_OF_LUCERNE = (VIC, "aluminium-lucerne")


@pytest.mark.parametrize("source", TABLES)
def test_figures_are_those_of_the_source(source: str) -> None:
    """Line, interval, class edges and ground of each row are as printed, and the row names that source."""
    for (guideline, row_id), printed in TABLES[source].items():
        row = row_of(guideline, row_id)
        assert shipped(row) == printed, row_id
        assert source in row.source.author, row_id
        assert row.status is Status.VERIFIED, row_id


def test_aluminium_of_lucerne() -> None:
    """Victoria, Trace elements, chapter 10: aluminium above 15 mg/kg a possible problem, above 50 toxic."""
    row = row_of(*ALUMINIUM_OF_LUCERNE)
    per_charge = 26.98154 / 3 * 10  # mg/kg for 1 cmol(+)/kg, atomic mass of IUPAC 2007 as in Rayment and Lyons
    assert [edge * per_charge for edge in shipped(row).edges] == pytest.approx([15, 50], abs=0.01)
    assert row.critical == shipped(row).edges[0]


def test_every_verified_figure_stands_in_a_table() -> None:
    """No verified row of these sets lacks a printed figure here, and none is here twice."""
    keys = [*named(TABLES.values()), ALUMINIUM_OF_LUCERNE]
    assert len(set(keys)) == len(keys)
    assert set(keys) == verified(SETS)


def test_classes_by_clay_follow_one_saturation_extract() -> None:
    """Table 3.1 beside its own bounds of the saturation extract, 0.95, 1.9, 4.5, 7.7 and 12.2 dS/m.

    Each bound of a clay class, times the factor that belongs to the class, is the same bound of the extract; the
    factors that the table implies are 12.2-13.6, 10.0-10.6, 7.9-8.0 and 6.3-6.5.
    """
    extract = (0.95, 1.9, 4.5, 7.7, 12.2)
    implied = {"10-20": (12.2, 13.6), "20-40": (10.0, 10.6), "40-60": (7.9, 8.0), "60-80": (6.3, 6.5)}
    for clay, (low, high) in implied.items():
        edges = shipped(row_of(AU, f"conductivity-clay-{clay}")).edges
        for bound, edge in zip(extract, edges, strict=True):
            assert low - 0.06 <= bound / edge <= high + 0.06, clay
