"""Files that harm a careless reader: hand-made kinds, and seeded mutations of good files of an invented table."""

from __future__ import annotations

import codecs
import io
import random
import struct
import zipfile
import zlib
from collections.abc import Iterator, Mapping

HEADINGS = ("Bag", "Report", "Sampled", "Received", "pH CaCl2", "P Colwell mg/kg", "K Colwell mg/kg")
_MAIN = 'xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"'
_RELATIONS = 'xmlns="http://schemas.openxmlformats.org/package/2006/relationships"'
_OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_PROLOGUE = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>'
_SEED = 20270301


def table_rows(count: int, seed: int = _SEED) -> list[list[str]]:
    """Return rows of the invented table, without the headings; days and figures are made up."""
    draw = random.Random(seed)
    return [
        [
            f"B{number:05}",
            f"R{1 + number // 40}",
            f"2027-02-{draw.randint(1, 14):02}",
            f"2027-02-{draw.randint(15, 28):02}",
            f"{draw.uniform(4, 8):.1f}",
            f"{draw.uniform(5, 90):.1f}",
            f"{draw.randint(40, 600)}",
        ]
        for number in range(count)
    ]


def csv_text(rows: list[list[str]], delimiter: str = ";", end: str = "\n") -> str:
    """Return rows as CSV under the headings, without quotes."""
    return "".join(delimiter.join(row) + end for row in [list(HEADINGS), *rows])


def _letters(column: int) -> str:
    """Return the letters of a column below 26."""
    return chr(ord("A") + column)


def sheet_xml(rows: list[list[str]], before: str = "", after: str = "", extra: str = "") -> str:
    """Return the XML of a sheet: headings and rows, figures as numbers; with XML before, in and after its rows."""
    lines = []
    for number, row in enumerate([list(HEADINGS), *rows], start=1):
        cells = "".join(
            f'<c r="{_letters(column)}{number}"><v>{text}</v></c>'
            if text.replace(".", "", 1).isdigit()
            else f'<c r="{_letters(column)}{number}" t="inlineStr"><is><t>{text}</t></is></c>'
            for column, text in enumerate(row)
        )
        lines.append(f'<row r="{number}">{cells}</row>')
    return f"{_PROLOGUE}{before}<worksheet {_MAIN}><sheetData>{''.join(lines)}{extra}</sheetData>{after}</worksheet>"


def workbook_parts(sheets: dict[str, str], shared: str = "") -> dict[str, str]:
    """Return the parts of a workbook of sheets, by name."""
    numbered = list(enumerate(sheets, start=1))
    listed = "".join(f'<sheet name="{name}" sheetId="{number}" r:id="r{number}"/>' for number, name in numbered)
    targets = "".join(
        f'<Relationship Id="r{number}" Type="{_OFFICE}/worksheet" Target="worksheets/sheet{number}.xml"/>'
        for number, _ in numbered
    )
    if shared:
        targets += f'<Relationship Id="s" Type="{_OFFICE}/sharedStrings" Target="sharedStrings.xml"/>'
    main = f'<Relationship Id="m" Type="{_OFFICE}/officeDocument" Target="xl/workbook.xml"/>'
    parts = {
        "[Content_Types].xml": '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>',
        "_rels/.rels": f"<Relationships {_RELATIONS}>{main}</Relationships>",
        "xl/workbook.xml": f'<workbook {_MAIN} xmlns:r="{_OFFICE}"><sheets>{listed}</sheets></workbook>',
        "xl/_rels/workbook.xml.rels": f"<Relationships {_RELATIONS}>{targets}</Relationships>",
    }
    if shared:
        parts["xl/sharedStrings.xml"] = f"<sst {_MAIN}>{shared}</sst>"
    return parts | {f"xl/worksheets/sheet{number}.xml": sheets[name] for number, name in numbered}


def zipped(parts: Mapping[str, str | bytes], *, packed: bool = True) -> bytes:
    """Return parts as a zip archive, the same bytes every time."""
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED if packed else zipfile.ZIP_STORED) as archive:
        for name, content in parts.items():
            archive.writestr(zipfile.ZipInfo(name, (2027, 3, 1, 0, 0, 0)), content, archive.compression)
    return made.getvalue()


def workbook(rows: list[list[str]]) -> bytes:
    """Return a good workbook of the table."""
    return zipped(workbook_parts({"Results": sheet_xml(rows)}))


def hostile_files() -> Iterator[tuple[str, bytes]]:
    """Yield the name and the bytes of each file; always the same, more than two hundred, names without repeats."""
    for kind in (_shapes, _quotes, _encodings, _large, _others, _archives, _sheets, _truncated, _mutated):
        yield from kind()


def _shapes() -> Iterator[tuple[str, bytes]]:
    """Yield tables of an odd shape."""
    rows = table_rows(12)
    head = ";".join(HEADINGS)
    good = csv_text(rows)
    lines = good.splitlines()
    yield "empty.csv", b""
    yield "only_line_ends.csv", b"\r\n\n\r\r\n" * 50
    yield "only_blanks.csv", b" \t \n" * 50
    yield "only_delimiters.csv", b";;;;;;\n" * 50
    yield "only_header.csv", f"{head}\n".encode()
    yield "header_without_end.csv", head.encode()
    yield "one_cell.csv", b"Bag"
    yield "one_column.csv", b"Bag\nB00001\nB00002\n"
    yield "duplicate_headings.csv", good.replace("P Colwell", "K Colwell", 1).encode()
    yield "header_in_the_middle.csv", "\n".join([*lines[1:6], lines[0], *lines[6:]]).encode()
    yield "header_twice.csv", "\n".join([*lines[:6], lines[0], *lines[6:]]).encode()
    yield "titles_above.csv", ("Soil results; 2027\n\nclient\n\n" + good).encode()
    yield "footer_below.csv", (good + "\nend of report\n12 samples; none missing\n").encode()
    yield "ragged.csv", "\n".join(line.rsplit(";", number % 4)[0] for number, line in enumerate(lines)).encode()
    yield "too_many_cells.csv", "\n".join(line + ";" * (number % 5) for number, line in enumerate(lines)).encode()
    yield (
        "mixed_line_ends.csv",
        "".join(line + ("\r\n", "\n", "\r")[number % 3] for number, line in enumerate(lines)).encode(),
    )
    yield "lone_cr.csv", csv_text(rows, end="\r").encode()
    yield "doubled_cr.csv", csv_text(rows, end="\r\r\n").encode()
    yield "two_delimiters.csv", b"a;b,c\n1;2,3\n4;5,6\n"
    yield "decimal_comma_everywhere.csv", b"Bag;pH;P\n" + b"B1;5,5;12,1\n" * 30
    yield "comma.csv", csv_text(rows, ",").encode()
    yield "bar.csv", csv_text(rows, "|").encode()
    yield "formula_cells.csv", (good + "=cmd|'/c calc'!A1;@SUM(1);+1+1;-1+1;=1/0;=A1;=B1\n").encode()
    yield "cells_of_every_sign.csv", (head + "\n" + ";".join("-–<>#%") + ";\n").encode()


def _quotes() -> Iterator[tuple[str, bytes]]:
    """Yield quotes left open, doubled, nested, and in places where none belong."""
    lines = csv_text(table_rows(30)).splitlines()

    def with_line(number: int, text: str) -> bytes:
        return "\n".join([*lines[:number], text, *lines[number + 1 :]]).encode()

    yield "quote_open.csv", with_line(9, lines[9].replace("R1", '"R1'))
    yield "quote_open_in_header.csv", with_line(0, '"' + lines[0])
    yield "quote_open_at_end.csv", with_line(30, '"' + lines[30])
    yield "quote_open_twice.csv", with_line(9, lines[9].replace("R1", '"R1') + "\n" + lines[10].replace("R1", 'R"1"'))
    yield "two_stray_quotes.csv", with_line(9, lines[9].replace("R1", '"R1') + "\n" + lines[10].replace("R1", 'R1"'))
    yield "text_after_quotes.csv", with_line(9, lines[9].replace("R1", '"R1"x'))
    yield "quotes_inside.csv", with_line(9, lines[9].replace("R1", '5" core'))
    yield "doubled_quotes.csv", with_line(9, lines[9].replace("R1", '"R ""1"""'))
    yield "cell_over_lines.csv", with_line(9, lines[9].replace("R1", '"R1\nsecond\nthird"'))
    yield "every_line_opens.csv", "\n".join(f'"{line}' for line in lines * 30).encode()
    yield "quotes_alone.csv", b'"\n' * 3001
    yield "many_quotes.csv", b'"' * 1_000_001
    yield "even_quotes.csv", b'a;b\n"' + b'""' * 500_000
    yield "quote_before_megabytes.csv", (lines[0] + '\n"').encode() + b"x;1\n" * 90_000


def _encodings() -> Iterator[tuple[str, bytes]]:
    """Yield texts in encodings that are declared nowhere, and texts that are in none."""
    good = csv_text(table_rows(12)).replace("R1", "Rü µ°1")
    for codec in (
        "utf-16-le",
        "utf-16-be",
        "cp1252",
        "cp500",
        "utf-7",
        "cp1251",
        "shift_jis",
        "utf-32-le",
        "mac_roman",
    ):
        yield f"encoded_{codec}.csv", good.encode(codec, errors="replace")
    marks = {
        "utf8": codecs.BOM_UTF8,
        "utf16le": codecs.BOM_UTF16_LE,
        "utf16be": codecs.BOM_UTF16_BE,
        "utf32le": codecs.BOM_UTF32_LE,
        "utf32be": codecs.BOM_UTF32_BE,
    }
    for name, mark in marks.items():
        yield f"only_mark_{name}.csv", mark
        yield f"mark_{name}_other_text.csv", mark + good.encode("utf-8")
        yield f"mark_{name}_odd_length.csv", mark + good.encode("utf-16-le") + b"x"
    yield "two_marks.csv", codecs.BOM_UTF8 * 2 + good.encode()
    yield "bad_byte.csv", codecs.BOM_UTF8 + good.encode().replace(b"B00004", b"B\xff0004")
    yield "cut_in_a_character.csv", good.encode()[: good.encode().index("µ".encode()) + 1]
    yield "lone_surrogate.csv", codecs.BOM_UTF16_LE + good.encode("utf-16-le").replace(b"B\0", b"\x00\xd8", 1)
    yield "nul_bytes.csv", good.encode().replace(b"B00005", b"B\x000005")
    yield "nul_everywhere.csv", b"\0" * 100_000
    yield "control_characters.csv", good.replace("B00005", "B\x1b[2J").replace("B00006", "B\x07").encode()
    yield "right_to_left.csv", good.replace("B00005", "\u202eB50000\u202c").encode()
    yield "right_to_left_names.csv", good.replace("Rü µ°1", "\u05d7\u05dc\u05e7\u05d4 \u05d1").encode()
    yield "zero_width.csv", good.replace("B", "B\u200b").replace(";", "\ufeff;").encode()
    yield "no_break_spaces.csv", good.replace(";", "\u00a0;\u00a0").encode()
    yield "decomposed.csv", good.replace("ü", "u\u0308").encode()
    yield "combining_marks.csv", good.replace("B00005", "B" + "\u0301" * 4000).encode()
    yield "random_bytes.csv", random.Random(_SEED).randbytes(50_000)
    yield "random_high_bytes.csv", bytes(128 + byte % 128 for byte in random.Random(_SEED).randbytes(50_000))


def _large() -> Iterator[tuple[str, bytes]]:
    """Yield files that are large in one direction."""
    good = csv_text(table_rows(12))
    yield "million_columns.csv", ";".join(f"c{number}" for number in range(1_000_000)).encode()
    yield "million_empty_columns.csv", good.encode() + b";" * 1_000_000 + b"\n"
    yield "short_lines.csv", b"a;b\n" * 200_000
    yield "empty_lines.csv", b"\n" * 3_000_000
    yield "ten_thousand_one_bad.csv", csv_text(table_rows(10_000)).replace("B07777;", 'B07777;"', 1).encode()
    yield "huge_cell.csv", good.replace("B00005", "B" * 3_000_000).encode()
    yield "huge_quoted_cell.csv", good.replace("B00005", '"' + "B\n" * 1_000_000 + '"').encode()
    yield "one_long_line.csv", b"x" * 5_000_000
    yield "above_the_limit.csv", b"Bag;pH\n" + b"B1;5.5\n" * 3_000_000
    yield "many_delimiters.csv", (b";" * 900 + b"\n") * 20_000


def _others() -> Iterator[tuple[str, bytes]]:
    """Yield files that are something else, and names that lie."""
    good = csv_text(table_rows(12)).encode()
    beginnings = {
        "pdf": b"%PDF-1.7\n%\xe2\xe3\xcf\xd3\n",
        "rtf": b"{\\rtf1\\ansi ",
        "png": b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR",
        "jpeg": b"\xff\xd8\xff\xe0\0\x10JFIF",
        "gzip": b"\x1f\x8b\x08\0\0\0\0\0",
        "xls": b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + b"\0" * 504,
        "locked": b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + b"\0" * 504 + "EncryptedPackage".encode("utf-16-le"),
        "html": b"<html><body><table><tr><td>Bag</td></tr></table>",
        "page": b"\n <!DOCTYPE html>\n<title>Results</title>",
        "xml": b'<?xml version="1.0"?><Workbook/>',
        "sqlite": b"SQLite format 3\0",
    }
    for kind, beginning in beginnings.items():
        yield f"{kind}_named.csv", beginning + good
    yield "json.csv", b'[{"Bag": "B1", "pH": 5.5}, {"Bag": "B2", "pH": 6.5}]'
    yield "workbook_named.csv", workbook(table_rows(5))
    yield "text_named.xlsx", good
    yield "\u202excod.csv", good
    yield "no_ending", good
    yield "zip_of_a_table.zip", zipped({"results.csv": good})


def _lying(content: bytes, claimed: int) -> bytes:
    """Return a workbook whose sheet claims another size than it has."""
    made = zipped(workbook_parts({"Results": sheet_xml(table_rows(5))}) | {"xl/worksheets/sheet1.xml": content})
    return made.replace(struct.pack("<I", len(content)), struct.pack("<I", claimed))


def _archives() -> Iterator[tuple[str, bytes]]:
    """Yield archives that are damaged, that lie, or that hold what no workbook holds."""
    parts = workbook_parts({"Results": sheet_xml(table_rows(5))})
    good = zipped(parts)
    zeros = b"0" * 300_000_000
    yield "bomb.xlsx", zipped(parts | {"xl/worksheets/sheet1.xml": zeros})
    yield "bomb_beside.xlsx", zipped(parts | {"xl/media/picture.bin": zeros[:60_000_000]})
    yield "bomb_ratio.xlsx", zipped(parts | {"xl/worksheets/sheet1.xml": zeros[:30_000_000]})
    yield "bomb_lying.xlsx", _lying(zeros[:40_000_000], 1_000)
    yield "bomb_nested.xlsx", zipped({"a.zip": zipped({"b.zip": zipped({"c": zeros})})})
    yield "claims_more.xlsx", _lying(sheet_xml(table_rows(5)).encode(), 900_000)
    yield (
        "blanks_before_rows.xlsx",
        zipped(
            parts
            | {"xl/worksheets/sheet1.xml": parts["xl/worksheets/sheet1.xml"].replace("<row", " " * 90_000 + "<row")}
        ),
    )
    yield "many_entries.xlsx", zipped(parts | {f"x/{number}": "" for number in range(5_000)})
    yield "macros.xlsx", zipped(parts | {"xl/vbaProject.bin": b"\xd0\xcf\x11\xe0"})
    yield "binary_workbook.xlsx", zipped(parts | {"xl/workbook.bin": b"\0"})
    yield "document.xlsx", zipped({"[Content_Types].xml": "<Types/>", "word/document.xml": "<document/>"})
    yield "open_document.xlsx", zipped({"mimetype": "application/vnd.oasis.opendocument.spreadsheet"})
    yield "path_names.xlsx", zipped(parts | {"../../evil.xml": "x", "/etc/evil": "x", "C:\\evil": "x", "a/../b": "x"})
    yield (
        "link_outside.xlsx",
        zipped({name: text.replace("worksheets/sheet1.xml", "../../../etc/passwd") for name, text in parts.items()}),
    )
    yield (
        "link_to_the_web.xlsx",
        zipped(
            {
                name: text.replace('Target="worksheets/sheet1.xml"', 'Target="http://invalid/" TargetMode="External"')
                for name, text in parts.items()
            }
        ),
    )
    yield "same_name_twice.xlsx", zipped(parts | {"XL/worksheets/sheet1.xml": sheet_xml(table_rows(2))})
    encrypted = good.replace(b"PK\x01\x02\x14\x03\x14\x00\x00", b"PK\x01\x02\x14\x03\x14\x00\x01")
    yield "encrypted.xlsx", encrypted
    yield "empty_archive.xlsx", b"PK\x05\x06" + b"\0" * 18
    yield "only_signature.xlsx", b"PK\x03\x04"
    yield (
        "wrong_checksum.xlsx",
        good.replace(struct.pack("<I", zlib.crc32(parts["xl/worksheets/sheet1.xml"].encode())), b"\1\2\3\4"),
    )
    yield "no_directory.xlsx", good[: good.index(b"PK\x01\x02")]
    for name in parts:
        yield f"without_{name.rpartition('/')[2]}.xlsx", zipped({key: parts[key] for key in parts if key != name})


def _sheets() -> Iterator[tuple[str, bytes]]:
    """Yield workbooks whose sheets are damaged, absurd, or hard on a reader."""
    rows = table_rows(5)
    wide = '<row r="9"><c r="XFD9"><v>1</v></c></row>'
    entities = '<!DOCTYPE x [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;">]>'
    outside = '<!DOCTYPE x [<!ENTITY a SYSTEM "file:///etc/passwd">]>'
    formula = '<row r="9"><c r="A9" t="str"><f>1</f><v>B9</v></c><c r="E9"><f>1+1</f></c></row>'
    sheets = {
        "no_rows": f"<worksheet {_MAIN}><sheetData/></worksheet>",
        "no_sheet_data": f"<worksheet {_MAIN}/>",
        "not_xml": "Bag;Report",
        "cut_xml": sheet_xml(rows)[:-30],
        "doctype": sheet_xml(rows, before=entities).replace("B00001", "&b;"),
        "outside_entity": sheet_xml(rows, before=outside).replace("B00001", "&a;"),
        "unknown_entity": sheet_xml(rows).replace("B00001", "&nothing;"),
        "absurd_dimension": sheet_xml(rows).replace("<sheetData>", '<dimension ref="A1:XFD1048576"/><sheetData>'),
        "cell_far_right": sheet_xml(rows, extra=wide),
        "cell_far_below": sheet_xml(rows, extra='<row r="1048576"><c r="A1048576"><v>1</v></c></row>'),
        "absurd_reference": sheet_xml(rows, extra='<row r="9"><c r="ZZZZZZ99999999999999"><v>1</v></c></row>'),
        "row_zero": sheet_xml(rows, extra='<row r="0"><c r="A0"><v>1</v></c></row>'),
        "row_words": sheet_xml(rows, extra='<row r="x"><c r="A9"><v>1</v></c></row>'),
        "rows_out_of_order": sheet_xml(rows, extra='<row r="2"><c r="A2"><v>1</v></c></row>'),
        "cell_in_other_row": sheet_xml(rows, extra='<row r="9"><c r="A3"><v>1</v></c></row>'),
        "cell_twice": sheet_xml(rows, extra='<row r="9"><c r="A9"><v>1</v></c><c r="A9"><v>2</v></c></row>'),
        "value_twice": sheet_xml(rows, extra='<row r="9"><c r="A9"><v>1</v><v>2</v></c></row>'),
        "comment_in_a_value": sheet_xml(rows, extra='<row r="9"><c r="A9"><v>5<!-- -->6</v></c></row>'),
        "cdata": sheet_xml(rows, extra='<row r="9"><c r="A9" t="str"><v><![CDATA[B9]]></v></c></row>'),
        "unknown_type": sheet_xml(rows, extra='<row r="9"><c r="A9" t="zz"><v>1</v></c></row>'),
        "errors": sheet_xml(rows, extra='<row r="9"><c r="A9" t="e"><v>#DIV/0!</v></c><c r="B9"><v>1</v></c></row>'),
        "unknown_error": sheet_xml(rows, extra='<row r="9"><c r="A9" t="e"><v>#ODD!</v></c></row>'),
        "not_a_number": sheet_xml(rows, extra='<row r="9"><c r="A9"><v>NaN</v></c><c r="B9"><v>1e999</v></c></row>'),
        "words_as_number": sheet_xml(rows, extra='<row r="9"><c r="A9"><v>abc</v></c></row>'),
        "formula_without_value": sheet_xml(rows, extra=formula),
        "all_formulas": sheet_xml(rows).replace("<v>", "<f>1+1</f><v>"),
        "merged": sheet_xml(rows, after='<mergeCells count="1"><mergeCell ref="A1:XFD1048576"/></mergeCells>'),
        "huge_cell": sheet_xml(rows).replace("B00001", "B" * 400_000),
        "control_escape": sheet_xml(rows).replace("B00001", "B_x0007_1"),
        "right_to_left": sheet_xml(rows).replace("B00001", "\u202eB1"),
        "two_sheet_data": sheet_xml(rows).replace("</sheetData>", "</sheetData><sheetData/>"),
        "nul": sheet_xml(rows).replace("B00001", "B\0"),
        "deep": sheet_xml(rows, after="<x>" * 100_000 + "</x>" * 100_000),
    }
    for name, sheet in sheets.items():
        yield f"sheet_{name}.xlsx", zipped(workbook_parts({"Results": sheet}), packed=name not in {"deep", "huge_cell"})
    yield "no_sheets.xlsx", zipped(workbook_parts({}))
    hidden = workbook_parts({"Results": sheet_xml(rows)})
    hidden["xl/workbook.xml"] = hidden["xl/workbook.xml"].replace("<sheet ", '<sheet state="veryHidden" ')
    yield "all_hidden.xlsx", zipped(hidden)
    yield "two_sheets.xlsx", zipped(workbook_parts({"Results": sheet_xml(rows), "Old": sheet_xml(rows)}))
    yield (
        "empty_elements.xlsx",
        zipped(workbook_parts({"Results": sheet_xml(rows, extra="<row/>" * 400_000)}), packed=False),
    )
    uses = "".join(f'<row r="{number}"><c r="A{number}" t="s"><v>0</v></c></row>' for number in range(9, 20_009))
    shared = f"<si><t>{'long ' * 200_000}</t></si>"
    yield (
        "shared_text_bomb.xlsx",
        zipped(workbook_parts({"Results": sheet_xml(rows, extra=uses)}, shared), packed=False),
    )
    missing = '<row r="9"><c r="A9" t="s"><v>7</v></c></row>'
    yield "shared_text_missing.xlsx", zipped(workbook_parts({"Results": sheet_xml(rows, extra=missing)}, "<si/>"))


def _truncated() -> Iterator[tuple[str, bytes]]:
    """Yield good files cut off at many places."""
    text = csv_text(table_rows(12)).encode()
    book = workbook(table_rows(12))
    wide = codecs.BOM_UTF16_LE + csv_text(table_rows(12), "\t").encode("utf-16-le")
    for part in range(1, 13):
        yield f"cut_{part:02}.csv", text[: len(text) * part // 13]
        yield f"cut_{part:02}.xlsx", book[: len(book) * part // 13]
        yield f"cut_wide_{part:02}.csv", wide[: len(wide) * part // 13 | 1]


def _mutated() -> Iterator[tuple[str, bytes]]:
    """Yield good files with bytes changed, doubled, taken out or put in at random."""
    draw = random.Random(_SEED)
    seeds = {
        "semicolon.csv": csv_text(table_rows(20)).encode(),
        "comma.csv": csv_text(table_rows(20), ",", "\r\n").encode(),
        "wide.csv": codecs.BOM_UTF16_LE + csv_text(table_rows(20), "\t").encode("utf-16-le"),
        "packed.xlsx": workbook(table_rows(20)),
        "plain.xlsx": zipped(workbook_parts({"Results": sheet_xml(table_rows(20))}), packed=False),
    }
    for name, good in seeds.items():
        for number in range(16):
            content = bytearray(good)
            for _ in range(draw.choice((1, 2, 5, 40))):
                at = draw.randrange(len(content))
                size = draw.choice((1, 1, 3, 30))
                new = draw.choice((draw.randbytes(size), b'"', b"\0", b"\n", b";", b"<", bytes(content[at : at + 60])))
                content[at : at + draw.choice((0, size))] = new
            yield f"mutated_{number:02}_{name}", bytes(content)
