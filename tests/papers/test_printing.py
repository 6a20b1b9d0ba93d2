"""Nothing reaches a paper but data and our own static files; the library is imported only when used."""

import subprocess
import sys
from pathlib import Path

import pytest

from teaching.papers import printing

PAGE = '<html lang="en"><head><title>Test</title></head><body><p>Words {}</p></body></html>'
RED_DOT = (
    "data:image/png;base64,"
    "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAIAAACQd1PeAAAADElEQVR4nGP4z8AAAAMBAQDJ/pLvAAAAAElFTkSuQmCC"
)


@pytest.mark.parametrize(
    "address",
    [
        "http://127.0.0.1:9/a.png",
        "https://example.org/a.png",
        "ftp://example.org/a.png",
        "file:///etc/hostname",
        "static:../settings.py",
        "static:/etc/hostname",
        "static:teaching/nowhere.png",
        "relative/nowhere.png",
    ],
)
def test_no_other_address_is_fetched(address, complaints, monkeypatch):
    def refuse(*args, **kwargs):
        raise AssertionError("a connection was tried")

    monkeypatch.setattr("socket.socket.connect", refuse)
    monkeypatch.setattr("socket.create_connection", refuse)
    assert printing.pdf_of(PAGE.format(f'<img alt="A dot" src="{address}">')).startswith(b"%PDF")
    assert len(complaints) == 1
    assert "Failed to load image" in complaints[0]
    assert "a connection was tried" not in complaints[0]
    complaints.clear()


def test_data_and_our_own_files_are_fetched():
    assert printing.pdf_of(PAGE.format(f'<img alt="A dot" src="{RED_DOT}">')).startswith(b"%PDF")


def test_a_page_without_language_or_title_is_complained_about(complaints):
    printing.pdf_of("<html><body><p>Words</p></body></html>")
    assert complaints
    complaints.clear()


def test_the_same_content_gives_the_same_words_from_many_threads():
    from concurrent.futures import ThreadPoolExecutor

    with ThreadPoolExecutor(4) as pool:
        sizes = {len(pdf) for pdf in pool.map(lambda number: printing.pdf_of(PAGE.format("the same")), range(8))}
    assert len(sizes) == 1


def test_the_library_is_imported_only_when_a_paper_is_printed():
    """It costs half a second and 60 MB: a process that prints nothing never pays."""
    code = (
        "import django, sys; django.setup(); import ostomy_teach.urls, teaching.papers.sheets;"
        "sys.exit('weasyprint' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", code], cwd=Path(__file__).parents[2], timeout=60,
                          env={"DJANGO_SETTINGS_MODULE": "tests.settings", "PATH": "/usr/bin:/bin"})  # fmt: skip
    assert done.returncode == 0


def test_one_file_knows_the_library():
    house = Path(__file__).parents[2] / "teaching"
    knowing = [path.name for path in house.rglob("*.py") if "weasyprint" in path.read_text(encoding="utf-8")]
    assert knowing == ["printing.py"]
