"""What the forms of tables have in common."""

from __future__ import annotations

from linework.handover.content import Content
from linework.handover.figures import TABLES, Data, tables_of
from linework.handover.formats.asked import chosen, numbered


def asked_tables(content: Content, asked: tuple[str, ...]) -> tuple[Data, ...]:
    """The tables that are asked for, all if none is. HandoverError for one that there is not."""
    wanted = chosen(asked, numbered(TABLES))
    keys = tuple(key for at, key in enumerate(TABLES, 1) if at in wanted)
    return tables_of(content, keys)
