"""What WeasyPrint complains about (no lang, no alt, an address it may not fetch) fails the test that made it."""

import logging

import pytest


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
