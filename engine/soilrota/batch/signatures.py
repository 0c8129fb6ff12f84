"""The record of signatures: read with its problems, added to, never changed; and whether the last one stands.

`records/signatures/<client-id>.jsonl` holds a signature a line, the latest last. The file is replaced whole with a line
added behind the others, so that a command that is cut off has signed or has not.

For documents and reminders there is `sign_state_of(root, values)`, with `values` from `signing.signed_values`: a report
is a draft unless its answer `is_signed`; then `signature` says who signed, and otherwise `changed` says in words what
changed since. It reads one small file and no clock, writes nothing, and holds no lock: a night may ask it for every
client. What is in none of the files of a client can still change the answer (another engine, another product list), so
a document that shows it takes `SignState` into what its own digest is made of.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping
from dataclasses import asdict
from datetime import date
from pathlib import Path
from typing import Any

from soilrota.batch.faults import DamagedRecordsError
from soilrota.batch.record_files import SIGNATURES, signature_file
from soilrota.batch.signing import SignedValues, digest_of, parts_of
from soilrota.documents.signature_sentences import change_sentences
from soilrota.files import replace_file
from soilrota.model.advice import Signature
from soilrota.model.client import Client
from soilrota.model.signing import SignState
from soilrota.problems import Place, Problem, error

FOLDER = SIGNATURES
_LARGEST = 64 << 20
_TEXTS = ("client", "person", "name", "qualification", "day", "digest")
_DIGEST = re.compile(r"[0-9a-f]{64}")


def sign_state_of(root: Path, values: SignedValues) -> SignState:
    """Return whether the report that rests on these values is signed or a draft.

    Args:
        root: the book's folder.
        values: what the report rests on, see `signing.signed_values`.
    """
    return standing_signature(root, values.client, parts_of(values))


def standing_signature(root: Path, client: Client, parts: Mapping[str, str]) -> SignState:
    """Return the last signature of a client's report, and what changed since.

    Args:
        root: the book's folder.
        client: the client.
        parts: digests of the parts as they are now, see `signing.parts_of`.
    """
    signatures, problems = read_signatures(root, client.id)
    if not signatures:
        return SignState(None, problems=problems)
    last = signatures[-1]
    return SignState(last, change_sentences(last.parts, parts, client.language))


def read_signatures(root: Path, client: str) -> tuple[tuple[Signature, ...] | None, tuple[Problem, ...]]:
    """Return the signatures of a client's report, the latest last, or None where their record is damaged.

    Args:
        root: the book's folder.
        client: id of the client.

    Returns:
        The signatures, none where nobody ever signed; and the problems, `damaged-signature` or those of any text file.
    """
    text, problems = _text(root, client)
    if problems:
        return None, problems
    lines = text.removesuffix("\n").split("\n") if text else ()
    read = [_signature(line, Place(_name(client), number, 1), client) for number, line in enumerate(lines, start=1)]
    wrong = tuple(one for one in read if isinstance(one, Problem))
    return (None, wrong) if wrong else (tuple(one for one in read if isinstance(one, Signature)), ())


def add_signature(root: Path, signature: Signature) -> bool:
    """Add a signature behind those of its client; return whether the record was written.

    Nothing is written where the last signature there is of the same digest.

    Raises:
        DamagedRecordsError: the record has errors, so that nobody can say what stands there.
        OSError: it cannot be written.
    """
    known, problems = read_signatures(root, signature.client)
    if known is None:
        raise DamagedRecordsError(f"{problems[0]}", problems)
    if known and known[-1].digest == signature.digest:
        return False
    before, _ = _text(root, signature.client)
    line = json.dumps({**asdict(signature), "day": signature.day.isoformat()}, ensure_ascii=False)
    separator = "" if before.endswith("\n") or not before else "\n"
    replace_file(signature_file(root, signature.client), f"{before}{separator}{line}\n".encode())
    return True


def _name(client: str) -> str:
    """Return the name of a client's record in the book."""
    return f"{FOLDER}/{client}.jsonl"


def _text(root: Path, client: str) -> tuple[str, tuple[Problem, ...]]:
    """Return the text of a client's record, empty where there is none, and why it cannot be read."""
    from soilrota.files.text import read_text  # noqa: PLC0415 - a client that nobody signed for needs no text

    path = signature_file(root, client)
    if not path.exists():
        return "", ()
    text, problems = read_text(path, _name(client), _LARGEST)
    return text or "", problems


def _signature(line: str, place: Place, client: str) -> Signature | Problem:
    """Return the signature on a line, or what is wrong with it."""
    try:
        data = json.loads(line, object_pairs_hook=_once)
    except json.JSONDecodeError as fault:
        return _damage(Place(place.file, place.line, fault.colno), "this is no JSON")
    except (ValueError, RecursionError) as fault:
        return _damage(place, f"{fault}")
    wrong = next(_wrong(data, client), None)
    if wrong is not None:
        return _damage(place, wrong)
    return Signature(**{**data, "day": date.fromisoformat(data["day"])})


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    """Return the entries of an object.

    Raises:
        ValueError: a key stands there twice.
    """
    entries = dict(pairs)
    if len(entries) < len(pairs):
        raise ValueError("a key stands there twice")
    return entries


def _wrong(data: Any, client: str) -> Iterator[str]:
    """Yield what is wrong with the values of a line, in words."""
    if not isinstance(data, dict) or data.keys() != {*_TEXTS, "parts"}:
        yield f"the line does not hold {', '.join(_TEXTS)} and parts, each once and nothing else"
        return
    yield from (f"{name} is no text" for name in _TEXTS if not isinstance(data[name], str) or not data[name])
    parts = data["parts"]
    if not isinstance(parts, dict) or not all(
        isinstance(one, str) and _DIGEST.fullmatch(one) for one in parts.values()
    ):
        yield "parts does not hold a digest for each name"
        return
    if data["client"] != client:
        yield f"the signature is for {data['client']}"
    if data["digest"] != digest_of(parts):
        yield "the digest is not that of the parts"
    try:
        date.fromisoformat(data["day"])
    except ValueError:
        yield f"{data['day']} is no day"


def _damage(place: Place, found: str) -> Problem:
    """Return that a line of the record was changed by other hands than the engine's."""
    mend = (
        f"restore {place.file} from a backup; where there is none, move it away, and the report is a draft "
        "until it is signed again"
    )
    return error("damaged-signature", place, found, "a signature as it was written", mend)
