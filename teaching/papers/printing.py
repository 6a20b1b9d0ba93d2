"""The one file that knows the PDF library: HTML in, a tagged PDF out.

WeasyPrint takes half a second to import, so it is imported when the first paper is printed.
Nothing is ever fetched from the network or from the disk at large: only `data:` addresses and `static:` ones,
which name a file among our own static files (`static:teaching/fonts/...`).
"""

import gc
import re
import threading
from bisect import bisect_left
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from functools import cache
from itertools import pairwise
from mimetypes import guess_type
from pathlib import Path
from typing import Any

from django.contrib.staticfiles import finders
from django.template.loader import get_template

OUR_OWN = "static:"
TAGGED = {"pdf_variant": "pdf/ua-1", "pdf_tags": True}
# The library breaks a line after its first word where only the blank before a closing tag would not fit.
BLANK_AT_THE_END = re.compile(r"\s+(?=(?:</(?:a|b|span|strong)>\s*)*</(?:dd|div|h[1-6]|li|p|td|th)>)")
# A template's indents are a quarter of its HTML, and every one is a box to make and drop; no paper has a <pre>.
BLANKS = re.compile(r"\s{2,}")
# Pango is not safe to enter from two threads, and threads make it slower anyhow.
ONE_AT_A_TIME = threading.Lock()


@contextmanager
def one_at_a_time() -> Iterator[None]:
    """A layout is a million small objects that all live until it is drawn: looking for dead ones meanwhile only
    costs time."""
    with ONE_AT_A_TIME:
        collected = gc.isenabled()
        gc.disable()
        try:
            yield
        finally:
            if collected:
                gc.enable()


class ForbiddenAddress(ValueError):
    """A paper asked for something that is neither `data:` nor a static file of ours."""


@cache
def _layout() -> Callable[[str], Any]:
    """The library with our fetcher, the fonts all papers share, and the house stylesheet, read once."""
    import weasyprint
    from weasyprint.text.fonts import FontConfiguration
    from weasyprint.urls import URLFetcher, URLFetcherResponse

    class OnlyOurOwn(URLFetcher):
        def fetch(self, url: str, headers: dict | None = None) -> Any:
            if url.startswith("data:"):
                return super().fetch(url, headers)
            if not url.startswith(OUR_OWN):
                raise ForbiddenAddress(f"A paper may not fetch {url}")
            found = finders.find(url.removeprefix(OUR_OWN))
            if not isinstance(found, str):
                raise ForbiddenAddress(f"No static file of ours: {url}")
            kind = guess_type(found)[0] or "application/octet-stream"
            return URLFetcherResponse(url, Path(found).read_bytes(), {"Content-Type": kind})

    fetcher, fonts = OnlyOurOwn(allowed_protocols=["data"]), FontConfiguration()
    house_style = weasyprint.CSS(
        string=get_template("teaching/papers/paper.css").render(),
        base_url=OUR_OWN,
        url_fetcher=fetcher,
        font_config=fonts,
    )

    def laid_out(html: str) -> Any:
        # It knows an SVG's currentColor by that spelling alone.
        html = BLANK_AT_THE_END.sub("", BLANKS.sub(" ", html)).replace('"currentcolor"', '"currentColor"')
        source = weasyprint.HTML(string=html, base_url=OUR_OWN, url_fetcher=fetcher)
        return source.render(font_config=fonts, stylesheets=[house_style], **TAGGED)

    return laid_out


def pdf_of(html: str) -> bytes:
    """A tagged PDF/UA-1 file. The HTML must carry lang and title; what it lacks is logged by `weasyprint`."""
    with one_at_a_time():
        return _layout()(html).write_pdf(**TAGGED)


def one_side(html_at: Callable[[float], str], sizes: Sequence[float]) -> bytes:
    """The PDF at the first of `sizes` (pt, largest first) that fits one side; at the last if none does."""
    return on_sides(html_at, sizes, 1)


def on_sides(html_at: Callable[[float], str], sizes: Sequence[float], sides: int) -> bytes:
    """The same for one side or, back to back, two."""
    laid_out = cache(lambda size: _layout()(html_at(size)))
    with one_at_a_time():
        first = bisect_left(sizes, True, key=lambda size: len(laid_out(size).pages) <= sides)
        return laid_out(sizes[min(first, len(sizes) - 1)]).write_pdf(**TAGGED)


def one_page_each(
    html_at: Callable[[Sequence[float]], str], anchors: Sequence[str], sizes: Sequence[float], first: Sequence[int]
) -> bytes:
    """The PDF with each anchored part on one page, in the largest of `sizes` (pt) that fits it, begun at `first`.

    `html_at` takes a size for each anchor, in order. Only where a part runs over is all laid out again; one that
    does not fit at the last size takes a second page.
    """
    chosen = list(first)
    with one_at_a_time():
        while True:
            laid_out = _layout()(html_at([sizes[place] for place in chosen]))
            pages = list(enumerate(laid_out.pages))  # what runs over is an anchor of each of its pages: first wins
            begins = {anchor: number for number, page in reversed(pages) for anchor in page.anchors}
            bounds = pairwise([*(begins[anchor] for anchor in anchors), len(laid_out.pages)])
            over = [place for place, (begin, end) in enumerate(bounds) if end - begin > 1]
            over = [place for place in over if chosen[place] < len(sizes) - 1]
            if not over:
                return laid_out.write_pdf(**TAGGED)
            for place in over:
                chosen[place] += 1
