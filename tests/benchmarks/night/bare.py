"""The PDF writer by itself, without the engine: shared and tuned as the engine has it, or naive; and the engine's.

`python -m tests.benchmarks.night.bare CAUGHT OUT WORKERS` writes every caught document with that many workers, as
sparingly as can be: everything that workers need is loaded before they are forked, and nobody watches over them.
"""

from __future__ import annotations

import gc
import multiprocessing
import os
import sys
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any

from tests.benchmarks.night.catching import Caught, read_caught, use_our_fonts
from tests.benchmarks.night.costs import print_cost

_GC_THRESHOLD = (50_000, 20, 50)

Write = Callable[[Caught], bytes]
Read = Callable[[Caught], Any]


def engine_writer() -> Write:
    """Return what writes documents as the engine does: as `shared_writer`, and the tree read by the engine."""
    use_our_fonts()
    from soilrota.documents.environments import ShippedHtml
    from soilrota.documents.trees import document_of

    return shared_writer(lambda one: document_of(ShippedHtml(one.html) if one.is_shipped else one.html, one.assets))


def shared_writer(read: Read | None = None) -> Write:
    """Return what writes documents with one font configuration, each style sheet parsed once, the collector at rest.

    Args:
        read: reads a document; as the library does by itself where none is named.
    """
    use_our_fonts()
    from weasyprint import CSS
    from weasyprint.text.fonts import FontConfiguration

    from soilrota.documents.pdf import collector_resting

    fonts = FontConfiguration()

    @cache
    def sheet(made_of: tuple[tuple[str, str], ...]) -> Any:
        return CSS(font_config=fonts, **dict(made_of))

    def write(one: Caught) -> bytes:
        sheets = [sheet(made_of) for made_of in one.sheets]
        with collector_resting():
            return _write(one, read or _read, stylesheets=sheets, font_config=fonts, **one.options)

    return write


def naive_writer() -> Write:
    """Return what writes documents with nothing shared: what the library's first example does, with the same styles."""
    use_our_fonts()
    from weasyprint import CSS

    def write(one: Caught) -> bytes:
        return _write(one, _read, stylesheets=[CSS(**dict(made_of)) for made_of in one.sheets], **one.options)

    return write


def _write(one: Caught, read: Read, **options: Any) -> bytes:
    """Return a document as PDF."""
    os.environ["SOURCE_DATE_EPOCH"] = one.epoch
    content: bytes = read(one).write_pdf(**options)
    return content


def _read(one: Caught) -> Any:
    """Return a document that the library has read from its text."""
    from weasyprint import HTML

    from soilrota.documents.fetcher import BookFetcher

    return HTML(string=one.html, base_url=one.base_url, url_fetcher=BookFetcher(one.assets))


def keep_from_collector() -> None:
    """Tell the garbage collector what the engine tells it before the first document."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(*_GC_THRESHOLD)


def main() -> None:
    """Write everything that was caught."""
    documents, out, workers = read_caught(Path(sys.argv[1])), Path(sys.argv[2]), int(sys.argv[3])
    write = shared_writer()
    for made_of in {made_of for one in documents for made_of in one.sheets}:
        write(Caught("<p>warm</p>", "book:", {}, (made_of,), {}, "0"))
    keep_from_collector()

    def put(number: int) -> None:
        (out / f"{number:05}.pdf").write_bytes(write(documents[number]))

    _Put.put = staticmethod(put)
    with multiprocessing.get_context("fork").Pool(workers) as pool:
        for _ in pool.imap_unordered(_Put.run, range(len(documents)), chunksize=1):
            pass
        pool.close()
        pool.join()
    print_cost()


class _Put:
    """Writes one document; forked workers find it here."""

    put: Callable[[int], None]

    @staticmethod
    def run(number: int) -> None:
        """Write a document by its number."""
        _Put.put(number)


if __name__ == "__main__":
    main()
