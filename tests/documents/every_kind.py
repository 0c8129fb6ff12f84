"""A document of every kind that is a PDF, in any language, made of the example book."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from soilrota.documents import pack_view, render_field_pack, render_programme, render_report, report_view
from soilrota.documents.labels import LabelIdentity, label_sheets, labels_title, labels_view, render_labels
from soilrota.documents.pdf import write_pdf
from soilrota.model.client import Client
from tests.documents.made import AS_OF, BOOK, example
from tests.documents.packs import a_pack
from tests.documents.reports import advised
from tests.language.documents import practice_pages, programme


def _client(client: Client, language: str) -> Client:
    """Return a client that speaks a language."""
    return replace(client, language=language)


def _programme(language: str) -> bytes:
    return render_programme(programme(_client(example("cobb-hill-dairy"), language)), AS_OF, BOOK)


def _pack(language: str) -> bytes:
    pack = a_pack("brolga-plains", zones=2)
    return render_field_pack(pack_view(replace(pack, client=_client(pack.client, language))), AS_OF, BOOK)


def _labels(language: str) -> bytes:
    pack = a_pack("brolga-plains", zones=2)
    pack = replace(pack, client=_client(pack.client, language))
    identity = LabelIdentity(labels_title(pack), pack.client.practice.name, language, AS_OF)
    return render_labels(labels_view(pack), next(iter(label_sheets().values())), identity)


def _report(language: str) -> bytes:
    found = advised()
    found = replace(found, client=_client(found.client, language))
    return render_report(report_view(found, found.client.farms[0]), AS_OF, BOOK)


def _of_practice(name: str) -> Callable[[str], bytes]:
    return lambda language: write_pdf(dict(practice_pages(language))[name], AS_OF, {"logo.png": BOOK / "logo.png"})


#: Makes a document in a language, by its kind.
DOCUMENTS: dict[str, Callable[[str], bytes]] = {
    "programme": _programme,
    "field pack": _pack,
    "labels": _labels,
    "farm report": _report,
    "laboratory checks": _of_practice("checks"),
    "field calendar": _of_practice("calendar"),
}
