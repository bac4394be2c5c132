"""A page as HTML that a browser and the window's own view show alike."""

from __future__ import annotations

from collections.abc import Callable
from html import escape

from linework.guide.model import Block, Items, Page, Prose, Rows, See, Shown, Title

Address = Callable[[str], str]
"""The address of a page, by its key."""
Source = Callable[[Shown], str]
"""The address of a picture."""


def html_of(page: Page, address: Address, source: Source) -> str:
    """The page from its title down to its last block; what stands round it is its reader's."""
    body = "\n".join(_block(block, address, source) for block in page.blocks)
    return f"<h1>{escape(page.title)}</h1>\n{body}\n"


def _block(block: Block, address: Address, source: Source) -> str:
    match block:
        case Title(text):
            return f"<h2>{escape(text)}</h2>"
        case Prose(text):
            return f"<p>{escape(text)}</p>"
        case Items(texts, numbered):
            mark = "ol" if numbered else "ul"
            return f"<{mark}>{''.join(f'<li>{escape(text)}</li>' for text in texts)}</{mark}>"
        case Rows(heads, rows):
            return _table(heads, rows)
        case See(pages):
            links = (f'<a href="{escape(address(k))}">{escape(t)}</a>' for k, t in pages)
            return f"<p>{'<br>'.join(links)}</p>"
        case Shown(_, caption, symbol):
            said = "" if symbol else f"<br><i>{escape(caption)}</i>"
            return f'<p><img src="{escape(source(block))}" alt="{escape(caption)}">{said}</p>'


def _table(heads: tuple[str, ...], rows: tuple[tuple[str, ...], ...]) -> str:
    head = "".join(f"<th align='left'>{escape(text)}</th>" for text in heads)
    body = "".join(
        f"<tr>{''.join(f'<td>{escape(text)}</td>' for text in row)}</tr>" for row in rows
    )
    return f"<table cellpadding='4'><tr>{head}</tr>{body}</table>"
