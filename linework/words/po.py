"""Reads a translator's .po file, so that no compiled copy has to be kept beside it."""

from __future__ import annotations

import ast
import re
import struct
from collections.abc import Iterator
from itertools import accumulate

from linework.words.errors import WordingError

_LINE = re.compile(r'(msgctxt|msgid_plural|msgid|msgstr(?:\[\d+\])?)?\s*(".*")')
_MAGIC, _HEADER_BYTES = 0x950412DE, 28

Entry = dict[str, str]


def compile_po(text: str, name: str) -> bytes:
    """The .mo form of a .po text, laid out after GNU gettext's manual, "GNU MO Files".

    Entries marked fuzzy or without a translation are left out: English is better than a guess.
    WordingError names the file (``name``) and the line that is not understood.
    """
    pairs = sorted(
        (_key(entry), _translation(entry)) for entry in _entries(text, name) if _is_usable(entry)
    )
    keys = [key.encode() for key, _ in pairs]
    values = [value.encode() for _, value in pairs]
    sizes = [len(item) for item in keys + values]
    first = _HEADER_BYTES + 8 * len(sizes)
    starts = accumulate((size + 1 for size in sizes), initial=first)
    table = b"".join(struct.pack("<2I", *pair) for pair in zip(sizes, starts, strict=False))
    header = struct.pack(
        "<7I", _MAGIC, 0, len(keys), _HEADER_BYTES, _HEADER_BYTES + 8 * len(keys), 0, first
    )
    return header + table + b"".join(item + b"\0" for item in keys + values)


def _entries(text: str, name: str) -> Iterator[Entry]:
    entry: Entry = {}
    field = ""
    for number, raw in enumerate([*text.split("\n"), ""], start=1):
        line = raw.strip()
        if line.startswith("#,") and "fuzzy" in line:
            entry["fuzzy"] = "yes"
        elif not line and "msgid" in entry:
            yield entry
            entry, field = {}, ""
        elif line and not line.startswith("#"):
            field = _take(entry, field, line, f"{name}, line {number}")


def _take(entry: Entry, field: str, line: str, place: str) -> str:
    found = _LINE.fullmatch(line)
    started = found[1] if found else None
    if found is None or not (started or field) or (started and started in entry):
        raise WordingError(
            f"The catalogue {place} is not understood: {line!r}. Put an empty line between entries."
        )
    try:
        piece = ast.literal_eval(found[2])
    except (SyntaxError, ValueError) as error:
        raise WordingError(f"The catalogue {place} has a faulty quotation: {line!r}.") from error
    field = started or field
    entry[field] = entry.get(field, "") + piece
    return field


def _is_usable(entry: Entry) -> bool:
    return "fuzzy" not in entry and all(_translations(entry)) and bool(_translations(entry))


def _translations(entry: Entry) -> list[str]:
    """The translation, or each plural form's in the order of its number."""
    fields = [field for field in entry if field.startswith("msgstr")]
    return [entry[field] for field in sorted(fields, key=lambda field: int(field[7:-1] or 0))]


def _key(entry: Entry) -> str:
    key = "\0".join(entry[field] for field in ("msgid", "msgid_plural") if field in entry)
    return f"{entry['msgctxt']}\x04{key}" if "msgctxt" in entry else key


def _translation(entry: Entry) -> str:
    return "\0".join(_translations(entry))
