"""The huddle list's address: for nurses of the unit, in the browser, unnamed, with its line in the trail."""

import io

import pdfplumber
import pytest
from django.urls import reverse

from teaching.models import TrailLine
from tests.bedside.conftest import ada, at_night, signed_in, stoma, ward  # noqa: F401


@pytest.fixture
def address(ward):  # noqa: F811
    return reverse("huddle-list", args=[ward.unit.uid])


@pytest.fixture
def paper(signed_in, address, ada, stoma):  # noqa: F811
    return signed_in("amber").get(address)


def test_a_nurse_of_the_unit_gets_a_pdf_that_no_cache_keeps(paper):
    assert paper.status_code == 200
    assert paper["Content-Type"] == "application/pdf"
    assert paper["Cache-Control"] == "no-store"
    assert paper.content.startswith(b"%PDF")


def test_the_file_name_and_address_name_nobody(paper, address):
    assert paper["Content-Disposition"] == 'inline; filename="huddle-list.pdf"'
    assert "Fernhollow" not in address and "000-" not in address


def test_it_says_what_the_board_says(paper):
    with pdfplumber.open(io.BytesIO(paper.content)) as opened:
        said = " ".join(opened.pages[0].extract_text().split())
    assert "Huddle list: Heron Ward (made up)" in said
    assert "Tue 12 May, night shift. 1 person" in said  # 02:14 belongs to the night that began on Tuesday
    assert "Ada Fernhollow" in said and "000-A1" in said
    assert "day 4, ileostomy" in said
    assert "Printed Wed 13 May 02:14 by Amber Oakley" in said


def test_printing_leaves_a_line_in_the_trail(paper, ward):  # noqa: F811
    line = TrailLine.objects.latest("id")
    assert (line.verb, line.outcome, line.unit) == ("print_huddle", "read", str(ward.unit.uid))


@pytest.mark.parametrize(("who", "status"), [("ashby", 403), ("tansy", 403), ("edda", 403), ("wilma", 404)])
def test_a_lesser_role_is_refused_and_a_stranger_finds_nothing(signed_in, address, ada, who, status):  # noqa: F811
    assert signed_in(who).get(address).status_code == status


def test_nobody_signed_in_is_sent_to_sign_in(client, address):
    answer = client.get(address)
    assert answer.status_code == 302
    assert reverse("sign-in") in answer.url
