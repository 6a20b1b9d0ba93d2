"""Reading a PDF as a person would: its words, whether any lie past the edge, and how it is tagged."""

import io
from functools import lru_cache
from pathlib import Path

import pdfplumber
import pikepdf
import pytest

GOLDEN = Path(__file__).parent / "golden"
MARGIN = 28  # points, 10 mm: nothing may be printed nearer to the edge
SMALLEST = 6.4  # points


@lru_cache(maxsize=64)
def read(pdf):
    """(its text, its words with their places in points, its width, its height) of each page; reading takes long."""
    with pdfplumber.open(io.BytesIO(pdf)) as opened:
        return tuple(
            (page.extract_text() or "", page.extract_words(extra_attrs=["size"]), page.width, page.height)
            for page in opened.pages
        )


def words(pdf):
    """All of it as one line, however it was wrapped; a tuple of pages."""
    return tuple(" ".join(text.split()) for text, *_ in read(pdf))


def clipped(pdf):
    """Words that reach past the margins, or that are too small to read."""
    found = []
    for number, (_, placed, width, height) in enumerate(read(pdf), 1):
        for word in placed:
            outside = word["x0"] < MARGIN or word["x1"] > width - MARGIN or word["bottom"] > height
            if outside or word["size"] < SMALLEST:
                found.append((number, word["text"], word["x1"], word["size"]))
    return found


def as_golden(name, pdf):
    """Word for word what it said. After a change that is meant: delete the file, run once, read it, commit it."""
    said = "\n".join(f"page {number}\n{page}" for number, page in enumerate(words(pdf), 1)) + "\n"
    said = said.replace(". ", ".\n")
    golden = GOLDEN / name
    if not golden.exists():
        golden.write_text(said, encoding="utf-8")
        pytest.fail(f"{name} was not there and has been written: read it, then run again.")
    assert said == golden.read_text(encoding="utf-8")


def tagging(pdf):
    """(language, title, the names of its structure elements): PDF/UA-1, ISO 14289-1."""
    with pikepdf.open(io.BytesIO(pdf)) as opened:
        root = opened.Root
        assert root.MarkInfo.Marked
        with opened.open_metadata() as said:
            assert said["pdfuaid:part"] == "1"
        return str(root.Lang), str(opened.docinfo["/Title"]), {str(each.S) for each in elements(root.StructTreeRoot)}


def elements(element):
    """The structure elements under one, itself included, in reading order."""
    if isinstance(element, pikepdf.Dictionary) and "/S" in element:
        yield element
    kids = element.get("/K", ()) if isinstance(element, pikepdf.Dictionary) else ()
    for kid in kids if isinstance(kids, pikepdf.Array) else [kids]:
        if isinstance(kid, pikepdf.Dictionary):
            yield from elements(kid)
