"""Writes the guide as a folder of pages: ``python packaging/make_guide.py FOLDER [FAMILY]``.

What the window shows on F1, for a browser: a page each, contents, pictures, symbols. FAMILY is NA
(the default) or INT.
"""

from __future__ import annotations

import shutil
import sys
from collections.abc import Iterator
from html import escape
from pathlib import Path

from linework import data
from linework.guide import Page, Shown, chapters, html_of, page, symbol_picture
from linework.picture.svg import svg_text
from linework.words import say

STYLE = """
body { font: 16px/1.5 sans-serif; margin: 0; color: #15181a; background: #fff; display: flex; }
nav { width: 18em; padding: 1em; border-right: 1px solid #c3c5bf; height: 100vh; overflow: auto;
      position: sticky; top: 0; box-sizing: border-box; flex: none; }
nav a { display: block; color: inherit; text-decoration: none; padding: 2px 0; }
nav a:hover, nav a:focus { text-decoration: underline; }
main { padding: 1em 2em 3em; max-width: 46em; }
table { border-collapse: collapse; } td, th { border-bottom: 1px solid #c3c5bf; padding: 4px 8px;
      vertical-align: top; text-align: left; }
img { max-width: 100%; }
"""


def address(key: str) -> str:
    """The file of a page: one for each, all in one folder."""
    return key.replace("/", "-") + ".html"


def source(shown: Shown) -> str:
    """The file of a picture."""
    return f"{shown.name}.svg" if shown.symbol else f"{shown.name}.png"


def contents(family: str) -> str:
    """The list of all pages."""
    lines = []
    for chapter in chapters(family):
        lines.append(f"<h3>{escape(chapter.title)}</h3>")
        lines += [
            f'<a href="{escape(address(entry.key))}">{escape(entry.title)}</a>'
            for entry in chapter.entries
        ]
    return "\n".join(lines)


def whole(made: Page, listed: str) -> str:
    """One page with what stands round it."""
    title = escape(say("{title} – guide", title=made.title))
    head = f'<meta charset="utf-8"><title>{title}</title><link rel="stylesheet" href="guide.css">'
    body = f"<nav>{listed}</nav>\n<main>\n{html_of(made, address, source)}</main>"
    return f'<!doctype html>\n<html lang="en">\n<head>{head}</head>\n<body>{body}</body>\n</html>\n'


def pictures(made: Page) -> Iterator[Shown]:
    """Those on a page."""
    return (block for block in made.blocks if isinstance(block, Shown))


def write(folder: Path, family: str) -> int:
    """All pages, with their pictures; how many there are."""
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "guide.css").write_text(STYLE, encoding="utf-8")
    entries = [entry for chapter in chapters(family) for entry in chapter.entries]
    listed = contents(family)
    for entry in entries:
        made = page(entry.key, family)
        text = whole(made, listed)
        (folder / address(entry.key)).write_text(text, encoding="utf-8")
        for shown in pictures(made):
            if shown.symbol:
                drawn = svg_text(symbol_picture(shown.name), {}, shown.caption)
                (folder / source(shown)).write_text(drawn, encoding="utf-8")
            else:
                shutil.copy(data.path(f"guide/{shown.name}.png"), folder / source(shown))
    first = folder / address(entries[0].key)
    shutil.copy(first, folder / "index.html")
    return len(entries)


def main() -> None:
    """Write it."""
    if len(sys.argv) not in (2, 3):
        sys.exit(__doc__)
    family = sys.argv[2] if len(sys.argv) == 3 else "NA"
    print(f"{write(Path(sys.argv[1]), family)} pages")


if __name__ == "__main__":
    main()
