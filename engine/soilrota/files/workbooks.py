"""The sheets of a workbook: their names, which of them is read, and a small workbook of that sheet alone.

What is handed to the reader is not the file but an archive made here, of parts that were taken out and gone through:
the sheet, the shared texts and the styles, under names of our own. So the reader sees what was checked, and nothing
else: no macros, no links to elsewhere, no second entry of the same name.
"""

from __future__ import annotations

import io
import posixpath
import re
import zipfile
from dataclasses import dataclass
from xml.sax.saxutils import quoteattr

from soilrota.files.suggest import nearest_name
from soilrota.files.xml_parts import PartRefusedError, parse_part
from soilrota.files.zip_parts import DamagedPartError, Parts
from soilrota.problems import Place, Problem, error, warning

#: Largest part that lists sheets or says where parts stand [byte].
_LARGEST_LIST = 1_000_000
#: Largest part of styles [byte].
_LARGEST_STYLES = 10_000_000
_MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
_PACKAGE = "http://schemas.openxmlformats.org/package/2006"
_OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml"
_MOST_NAMED = 10
#: An element of a value in the XML of a sheet.
_VALUE = re.compile(rb"<(\w+:)?(v|is)>[^<]*[^<\s]|<(\w+:)?is\b")


@dataclass(frozen=True, slots=True)
class Sheet:
    """A worksheet: its name, its part, whether it is hidden."""

    name: str
    part: str
    hidden: bool


@dataclass(frozen=True, slots=True)
class Workbook:
    """A workbook: its worksheets, the parts that they share, and whether days count from 1904."""

    sheets: tuple[Sheet, ...]
    shared: bytes | None
    styles: bytes | None
    from_1904: bool


class _Elements:
    """Keeps the attributes of the elements of a small part, by tag."""

    def __init__(self) -> None:
        self.found: list[tuple[str, dict[str, str]]] = []

    def start(self, tag: str, attributes: dict[str, str]) -> None:
        """Keep the element."""
        plain = {key.rpartition(":")[2] if key != "r:id" else key: value for key, value in attributes.items()}
        self.found.append((tag, plain))

    def end(self, tag: str) -> None:
        """Pass over the end of an element."""

    def text(self, data: str) -> None:
        """Pass over text."""

    def aside(self) -> None:
        """Pass over a comment."""


class _Nothing(_Elements):
    """Keeps nothing: a part is gone through only to see that it is sound."""

    def start(self, tag: str, attributes: dict[str, str]) -> None:
        """Pass over the element."""


def open_workbook(parts: Parts) -> Workbook:
    """Return what a workbook says of its sheets.

    Raises:
        PartRefusedError: A part is damaged, or there is no list of sheets.
        DamagedPartError: A part cannot be taken out.
    """
    main = _targets(parts, "_rels/.rels", "", "officeDocument").values()
    book = next(iter(main), "xl/workbook.xml")
    elements = _elements(parts, book)
    if elements is None:
        raise PartRefusedError("damaged-workbook", "the workbook has no list of its sheets")
    folder, leaf = posixpath.split(book)
    rels = f"{folder}/_rels/{leaf}.rels"
    worksheets = _targets(parts, rels, folder, "worksheet")
    sheets = tuple(
        Sheet(attributes.get("name", ""), worksheets[identity], attributes.get("state", "visible") != "visible")
        for tag, attributes in elements
        if tag == "sheet" and (identity := attributes.get("r:id", attributes.get("id", ""))) in worksheets
    )
    shared = parts.read(next(iter(_targets(parts, rels, folder, "sharedStrings").values()), ""))
    styles = parts.read(next(iter(_targets(parts, rels, folder, "styles").values()), ""), _LARGEST_STYLES)
    if styles is not None:
        parse_part(styles, _Nothing())
    properties: dict[str, str] = next((found for tag, found in elements if tag == "workbookPr"), {})
    return Workbook(sheets, shared, styles, properties.get("date1904", "0") in {"1", "true"})


def choose_sheet(book: Workbook, wanted: str, name: str) -> Sheet | Problem:
    """Return the sheet of a name, or the first that is not hidden where no name is given; or `unknown-sheet`."""
    visible = [sheet for sheet in book.sheets if not sheet.hidden]
    names = [sheet.name for sheet in book.sheets]
    listed = ", ".join(f"`{each[:60]}`" for each in names[:_MOST_NAMED]) or "none"
    if not wanted:
        if visible:
            return visible[0]
        mend = "show the sheet, or name it as the laboratory's `sheet`"
        return error("unknown-sheet", Place(name), f"no sheet can be seen; sheets: {listed}", "a sheet", mend)
    same = [sheet for sheet in book.sheets if sheet.name.strip().casefold() == wanted.strip().casefold()]
    if same:
        return next((sheet for sheet in same if sheet.name == wanted), same[0])
    near = nearest_name(wanted, names[:100])
    mend = f"perhaps `{near}` is meant; name the right one" if near else "name the right one"
    return error("unknown-sheet", Place(name), f"there is no sheet `{wanted}`", f"one of {listed}", mend)


def sheet_notes(book: Workbook, taken: Sheet, parts: Parts, wanted: str, name: str) -> list[Problem]:
    """Return the warnings that other sheets were not read: hidden ones, and others with values where none was named."""
    others = [sheet for sheet in book.sheets if sheet != taken and _has_values(parts, sheet)]
    if wanted or not others:
        return []
    listed = ", ".join(f"`{sheet.name[:60]}`{' (hidden)' if sheet.hidden else ''}" for sheet in others[:_MOST_NAMED])
    found = f"sheet `{taken.name}` was read and others with values were not: {listed}"
    return [warning("other-sheets", Place(name), found, "", "name the right one as the laboratory's `sheet`")]


def _has_values(parts: Parts, sheet: Sheet) -> bool:
    """Return whether a sheet may hold values; one that is too large to look at may."""
    try:
        content = parts.read(sheet.part, _LARGEST_LIST)
    except DamagedPartError:
        return True
    return content is not None and _VALUE.search(content) is not None


def lone_sheet(sheet: bytes, book: Workbook) -> io.BytesIO:
    """Return a workbook of one sheet, of these parts and nothing else."""
    overrides = {
        "xl/workbook.xml": "sheet.main",
        "xl/worksheets/sheet1.xml": "worksheet",
        "xl/sharedStrings.xml": "sharedStrings",
        "xl/styles.xml": "styles",
    }
    types = "".join(
        f'<Override PartName="/{part}" ContentType="{_TYPE}.{kind}+xml"/>' for part, kind in overrides.items()
    )
    inner = {"worksheet": "worksheets/sheet1.xml", "sharedStrings": "sharedStrings.xml", "styles": "styles.xml"}
    content: dict[str, bytes | str] = {
        "[Content_Types].xml": f'<Types xmlns="{_PACKAGE}/content-types">{types}</Types>',
        "_rels/.rels": _relations({"officeDocument": "xl/workbook.xml"}),
        "xl/_rels/workbook.xml.rels": _relations(inner),
        "xl/workbook.xml": f'<workbook xmlns="{_MAIN}" xmlns:r="{_OFFICE}">'
        f'<workbookPr date1904="{int(book.from_1904)}"/>'
        '<sheets><sheet name="sheet" sheetId="1" r:id="worksheet"/></sheets></workbook>',
        "xl/worksheets/sheet1.xml": sheet,
        "xl/sharedStrings.xml": book.shared or f'<sst xmlns="{_MAIN}"/>',
        "xl/styles.xml": book.styles or f'<styleSheet xmlns="{_MAIN}"/>',
    }
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w") as archive:
        for part, text in content.items():
            archive.writestr(part, text)
    made.seek(0)
    return made


def _relations(targets: dict[str, str]) -> str:
    """Return a part that says where others stand: target by kind, which is its name too."""
    each = "".join(
        f'<Relationship Id="{kind}" Type="{_OFFICE}/{kind}" Target={quoteattr(target)}/>'
        for kind, target in targets.items()
    )
    return f'<Relationships xmlns="{_PACKAGE}/relationships">{each}</Relationships>'


def _elements(parts: Parts, part: str) -> list[tuple[str, dict[str, str]]] | None:
    """Return the elements of a small part; None where there is no such part."""
    content = parts.read(part, _LARGEST_LIST)
    if content is None:
        return None
    handler = _Elements()
    parse_part(content, handler)
    return handler.found


def _targets(parts: Parts, rels: str, folder: str, kind: str) -> dict[str, str]:
    """Return the parts of one kind that a part refers to, by the name of the relation; nothing outside the archive."""
    return {
        attributes["Id"]: posixpath.normpath(posixpath.join("/", folder, attributes["Target"])).lstrip("/")
        for tag, attributes in _elements(parts, rels) or ()
        if tag == "Relationship"
        and attributes.get("Type", "").endswith(f"/{kind}")
        and attributes.get("TargetMode") != "External"
        and {"Id", "Target"} <= attributes.keys()
    }
