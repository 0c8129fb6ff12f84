"""Keeps what a night hands to the PDF writer: the HTML of every document, its styles, files, options and date.

A night whose job is `make_client` of this module has it loaded by the fork server, before any worker is forked, so that
documents of every step are caught: programmes, field packs, labels, reports, the field calendar. What is caught goes
to a folder that the environment names.
"""

from __future__ import annotations

import os
import pickle
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from time import perf_counter
from typing import Any

FOLDER = "BENCH_CAUGHT"


@dataclass(frozen=True, slots=True)
class Caught:
    """A document as the night has it written.

    Attributes:
        html, base_url: what is written.
        assets: the files that it may show, by name.
        sheets: for each style sheet what it is made of, by argument of the library.
        options: further arguments of the writer, such as the kind of PDF.
        epoch: the date that the writer is told [s since 1970].
        is_shipped: whether shipped templates alone made it.
        at: when it was written [s], only good for putting documents in order.
    """

    html: str
    base_url: str
    assets: dict[str, Path]
    sheets: tuple[tuple[tuple[str, str], ...], ...]
    options: dict[str, Any]
    epoch: str
    is_shipped: bool = False
    at: float = field(default=0.0, compare=False)


def use_our_fonts() -> None:
    """Let the library see the engine's fonts alone; on both sides of every comparison."""
    from soilrota.files import shipped

    os.environ["FONTCONFIG_FILE"] = str(shipped("report_templates") / "fonts" / "fonts.conf")


def read_caught(folder: Path) -> list[Caught]:
    """Return everything that was caught, in the order in which it was written."""
    found: list[Caught] = []
    for path in sorted(folder.glob("*.pickle")):
        with path.open("rb") as file:
            while file.peek(1):
                found.append(pickle.load(file))  # noqa: S301 - our own
    return sorted(found, key=lambda one: one.at)


def make_client(order: Any) -> Any:
    """Do what the night's own job does."""
    from soilrota.batch import work

    return work.make_client(order)


@cache
def _catch() -> None:
    """Have everything that this process and its forks write caught, if the environment names a folder."""
    if FOLDER not in os.environ:
        return
    use_our_fonts()
    import weasyprint

    from soilrota.documents import trees
    from soilrota.documents.environments import ShippedHtml

    sheet_made, read = weasyprint.CSS.__init__, trees.document_of
    written = weasyprint.HTML.write_pdf

    def make_sheet(self: Any, *words: Any, **named: Any) -> None:
        """Remember what a style sheet is made of."""
        self.made_of = tuple((name, str(named[name])) for name in ("filename", "string", "base_url") if named.get(name))
        sheet_made(self, *words, **named)

    def document_of(html: str, assets: dict[str, Path]) -> Any:
        """Remember what a document is made of."""
        document = read(html, assets)
        document.made_of = str(html), assets, isinstance(html, ShippedHtml)
        return document

    def write(self: Any, *words: Any, stylesheets: Any, font_config: Any, **options: Any) -> Any:
        """Keep the document, and write it."""
        (html, assets, shipped), sheets = self.made_of, tuple(sheet.made_of for sheet in stylesheets)
        epoch, at = os.environ["SOURCE_DATE_EPOCH"], perf_counter()
        one = Caught(html, trees.BASE, assets, sheets, options, epoch, shipped, at)
        with (Path(os.environ[FOLDER]) / f"{os.getpid()}.pickle").open("ab") as file:
            pickle.dump(one, file)
        return written(self, *words, stylesheets=stylesheets, font_config=font_config, **options)

    weasyprint.CSS.__init__, trees.document_of = make_sheet, document_of
    weasyprint.HTML.write_pdf = write


_catch()
