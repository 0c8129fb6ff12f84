"""The parts of a workbook's zip archive, taken out in memory and never above their bounds.

Only the central directory is believed about where a part lies, and nothing about how large it is: each part that is
asked for is inflated up to its bound, and must then have the size and the checksum that were claimed. Names of entries
are only ever compared, never used as paths.
"""

from __future__ import annotations

import io
import struct
import zipfile
import zlib
from collections import Counter
from dataclasses import dataclass

from soilrota.files.file_kinds import archive_looks_like
from soilrota.problems import Place, Problem, error

#: Most entries of an archive [-].
MOST_ENTRIES = 2_000
#: Largest sum of the sizes of its entries, as claimed and as inflated [byte].
LARGEST_INFLATED = 50_000_000
#: How many times larger than the file its entries may be in sum, and one entry than its packed form [-].
MOST_RATIO = 100
#: Small entries may be packed better than that [byte].
_SMALL = 1_000_000
_CENTRAL_SIGNATURE = b"PK\x01\x02"
_LOCAL_HEADER = struct.Struct("<4s22xHH")
_ENCRYPTED_FLAG = 0x1
_LAST_FAULTS = (zipfile.BadZipFile, NotImplementedError, ValueError, struct.error, OverflowError, EOFError, OSError)


class DamagedPartError(Exception):
    """A part of an archive is not what the archive says of it; its argument says what is wrong, in words."""


@dataclass(frozen=True, slots=True)
class Parts:
    """The entries of an archive by their name in lower case, and the bytes of the archive."""

    raw: bytes
    entries: dict[str, zipfile.ZipInfo]

    def read(self, part: str, bound: int = LARGEST_INFLATED) -> bytes | None:
        """Return the content of a part; None where there is none of that name.

        Args:
            part: its name; capitals do not count.
            bound: largest size [byte].

        Raises:
            DamagedPartError: It is larger than the bound or than it claims, or cannot be inflated.
        """
        entry = self.entries.get(part.lower())
        return None if entry is None else _inflated(self.raw, entry, bound)


def open_parts(raw: bytes, name: str) -> Parts | Problem:
    """Return the parts of a workbook; or the problem that keeps the file from being opened.

    Problems: `damaged-workbook`, `locked-workbook` (a password), `not-a-table` (another kind of archive, or macros),
    `too-large` (entries, sizes, or packed so well that it can be no workbook).
    """
    place = Place(name)
    if raw.count(_CENTRAL_SIGNATURE) > MOST_ENTRIES:
        return _bomb(place, "the archive has too many entries", f"at most {MOST_ENTRIES:,}")
    try:
        with zipfile.ZipFile(io.BytesIO(raw)) as archive:
            infos = archive.infolist()
    except _LAST_FAULTS:
        return damaged(place, "the archive cannot be opened; perhaps it was cut off")
    names = Counter(_plain_name(info) for info in infos)
    other = archive_looks_like(frozenset(names))
    if other:
        return not_a_table(place, other)
    if any(info.flag_bits & _ENCRYPTED_FLAG for info in infos):
        mend = "ask the laboratory for the file without a password"
        return error("locked-workbook", place, "the workbook is encrypted", "", mend)
    repeated = [entry for entry, count in names.items() if count > 1]
    if repeated:
        return damaged(place, f"{len(repeated)} parts of the archive stand in it more than once")
    claimed = sum(info.file_size for info in infos)
    if claimed > LARGEST_INFLATED:
        return _bomb(place, f"unpacked it would hold {claimed:,} bytes", f"at most {LARGEST_INFLATED:,}")
    if claimed > _SMALL and claimed > MOST_RATIO * len(raw):
        return _bomb(place, f"unpacked it would be {claimed // len(raw):,} times larger", f"at most {MOST_RATIO} times")
    return Parts(raw, {_plain_name(info): info for info in infos})


def damaged(place: Place, found: str) -> Problem:
    """Return that a workbook is damaged."""
    mend = "open it and save it again as XLSX or CSV, or ask the laboratory for it again"
    return error("damaged-workbook", place, found, "a workbook (XLSX)", mend)


def not_a_table(place: Place, what: str) -> Problem:
    """Return that a file is something else than a table."""
    mend = "save the table as CSV or XLSX without macros or password, or ask the laboratory for one"
    return error("not-a-table", place, f"the file looks like {what}", "a table as CSV or XLSX", mend)


def _plain_name(info: zipfile.ZipInfo) -> str:
    """Return the name of an entry as it is compared: lower case, forward slashes."""
    return info.filename.replace("\\", "/").lstrip("/").lower()


def _bomb(place: Place, found: str, expected: str) -> Problem:
    """Return that an archive is larger inside than is opened."""
    return error("too-large", place, found, expected, "save the sheet of results alone as XLSX or CSV")


def _inflated(raw: bytes, entry: zipfile.ZipInfo, bound: int) -> bytes:
    """Return the content of an entry, as `Parts.read` does."""
    begin = entry.header_offset
    header = raw[begin : begin + _LOCAL_HEADER.size]
    if begin < 0 or len(header) < _LOCAL_HEADER.size:
        raise DamagedPartError("a part lies outside the file")
    signature, name_size, extra_size = _LOCAL_HEADER.unpack(header)
    begin += _LOCAL_HEADER.size + name_size + extra_size
    packed = raw[begin : begin + entry.compress_size]
    if signature != b"PK\x03\x04" or len(packed) < entry.compress_size:
        raise DamagedPartError("a part lies outside the file")
    if entry.file_size > bound:
        raise DamagedPartError(f"a part holds {entry.file_size:,} bytes; at most {bound:,} are read")
    if entry.file_size > max(_SMALL, MOST_RATIO * len(packed)):
        raise DamagedPartError("a part is packed better than any table can be")
    content = _unpacked(packed, entry)
    if len(content) != entry.file_size or zlib.crc32(content) != entry.CRC:
        raise DamagedPartError("a part is larger or other than the archive says")
    return content


def _unpacked(packed: bytes, entry: zipfile.ZipInfo) -> bytes:
    """Return the content of packed bytes, at most one byte more than is claimed."""
    if entry.compress_type == zipfile.ZIP_STORED:
        return packed
    if entry.compress_type != zipfile.ZIP_DEFLATED:
        raise DamagedPartError("a part is packed in a way that workbooks do not use")
    try:
        return zlib.decompressobj(-zlib.MAX_WBITS).decompress(packed, entry.file_size + 1)
    except zlib.error as fault:
        raise DamagedPartError("a part cannot be unpacked") from fault
