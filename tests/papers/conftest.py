"""What WeasyPrint complains about (no lang, no alt, an address it may not fetch) fails the test that made it."""

import logging
from types import SimpleNamespace

import pytest

from teaching.papers import printing


@pytest.fixture(scope="package", autouse=True)
def drawn_once():
    """The same HTML gives the same bytes, so each is laid out and drawn once a run, however many tests read it."""
    drawn, usual = {}, printing._layout

    def laid_out(html):
        if html in drawn:
            return drawn[html]
        document = usual()(html)
        draw = document.write_pdf

        def write_pdf(**options):
            pdf = draw(**options)
            pages = [SimpleNamespace(anchors=page.anchors) for page in document.pages]
            drawn[html] = SimpleNamespace(pages=pages, write_pdf=lambda **_: pdf)
            return pdf

        document.write_pdf = write_pdf
        return document

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(printing, "_layout", lambda: laid_out)
        yield


@pytest.fixture
def complaints():
    """The library's warnings so far, as text; a test that expects some clears the list."""
    found = []
    ear = logging.Handler(logging.WARNING)
    ear.emit = lambda record: found.append(record.getMessage())
    logger = logging.getLogger("weasyprint")
    logger.addHandler(ear)
    yield found
    logger.removeHandler(ear)


@pytest.fixture(autouse=True)
def nothing_to_complain_about(complaints):
    yield
    assert complaints == []
