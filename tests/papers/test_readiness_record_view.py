"""Signing: exactly what was read, once, with fresh proof; moved facts are refused; reprints byte for byte."""

import io
import re
import uuid
from dataclasses import replace
from datetime import timedelta

import pdfplumber
import pytest
import time_machine
from django.urls import reverse

from teaching.discharge.papers_list import papers_of
from teaching.models import Paper, PaperFile, StayNow, TrailLine
from teaching.papers.forms import AGAIN
from teaching.papers.read_readiness import record_of
from teaching.record.arrangements import make_arrangement
from teaching.record.kept_papers import Stands, keep_paper
from teaching.record.places import set_policy
from tests.bedside.conftest import ada, at_night, signed_in, stoma, ward  # noqa: F401
from tests.bedside.ward import NIGHT, PASSWORD

HIDDEN = re.compile(r'name="(shown|judged_at)" value="([^"]+)"')


@pytest.fixture
def amber(signed_in, ada, stoma):  # noqa: F811
    return signed_in("amber")


@pytest.fixture
def address(ada):  # noqa: F811
    return reverse("sign-readiness", args=[ada.uid])


def read(client, address):
    """The hidden fields of the page as it stands: what a browser would send back."""
    return dict(HIDDEN.findall(client.get(address).content.decode()))


def sign(client, address, fields, password=PASSWORD):
    return client.post(address, {"form_key": str(uuid.uuid4()), "password": password, **fields})


def words(pdf):
    with pdfplumber.open(io.BytesIO(pdf)) as opened:
        return " ".join(" ".join(page.extract_text() for page in opened.pages).split())


def test_what_was_read_is_signed_and_kept(amber, address, ada):  # noqa: F811
    answer = sign(amber, address, read(amber, address))
    assert (answer.status_code, answer.url) == (303, reverse("readiness", args=[ada.uid]))
    paper = Paper.objects.get()
    assert (paper.kind, paper.number, paper.signed_by.details.get().name) == ("readiness", 1, "Amber Oakley")
    assert paper.content["signature"]["role"] == "ward nurse"
    assert paper.content["judged"] == "Wed 13 May 2026 02:14"
    assert paper.proof == "password given again"
    said = words(bytes(paper.file.bytes))
    assert "Amber Oakley, ward nurse, Wed 13 May 2026 02:14" in said
    assert "never replaces, a clinician's decision" in said


def test_the_page_and_the_paper_say_the_same_words(amber, address):
    page = " ".join(re.sub("<[^>]+>", " ", amber.get(address).content.decode()).split())
    sign(amber, address, read(amber, address))
    content = Paper.objects.get().content
    for gap in content["gaps"]:
        assert gap["words"] in page.replace("&#x27;", "'")
    assert content["gaps"]


def test_the_plan_is_part_of_what_is_signed(amber, address):
    sign(amber, address, read(amber, address))
    content = Paper.objects.get().content
    (said,) = content["plan"]
    assert said and said.replace("'", "&#x27;") in amber.get(address).content.decode()


def test_facts_that_moved_are_refused_and_nothing_is_stored(amber, address, ada, ward):  # noqa: F811
    fields = read(amber, address)
    make_arrangement(actor=ward.staff["amber"], stay=ada, code="spare-kit", state="made")
    answer = sign(amber, address, fields)
    assert answer.status_code == 409
    assert "Read it again, then sign." in answer.content.decode()
    assert not Paper.objects.exists() and not PaperFile.objects.exists()
    again = dict(HIDDEN.findall(answer.content.decode()))
    assert sign(amber, address, again).status_code == 303, "the page that came back can be read and signed"


def test_a_wrong_password_and_words_that_are_not_the_page_store_nothing(amber, address):
    fields = read(amber, address)
    assert sign(amber, address, fields, password="not hers").status_code == 422
    assert sign(amber, address, fields | {"shown": "0" * 64}).status_code == 409
    assert sign(amber, address, {}).status_code == 422
    assert not Paper.objects.exists()


@pytest.mark.parametrize(("minutes", "status"), [(30, 303), (31, 422)])
def test_a_page_is_signed_within_half_an_hour(amber, address, signed_in, minutes, status):  # noqa: F811
    fields = read(amber, address)
    with time_machine.travel(NIGHT + timedelta(minutes=minutes), tick=False):
        answer = sign(signed_in("amber"), address, fields)
    assert answer.status_code == status
    assert (AGAIN in answer.content.decode()) is (status == 422)
    assert Paper.objects.exists() is (status == 303)


def test_a_moment_still_to_come_is_refused(amber, address):
    fields = read(amber, address) | {"judged_at": (NIGHT + timedelta(minutes=5)).isoformat()}
    assert sign(amber, address, fields).status_code == 422


def test_the_same_form_twice_signs_once(amber, address):
    fields = read(amber, address) | {"form_key": str(uuid.uuid4()), "password": PASSWORD}
    assert [amber.post(address, fields).status_code for _ in range(3)] == [303, 303, 303]
    assert Paper.objects.count() == 1


def test_it_reprints_byte_for_byte_and_leaves_a_line(amber, address):
    sign(amber, address, read(amber, address))
    paper = Paper.objects.get()
    first, second = (amber.get(reverse("kept-paper", args=[paper.uid])) for _ in range(2))
    assert first.content == second.content == bytes(paper.file.bytes)
    assert first["Content-Disposition"] == 'inline; filename="readiness.pdf"'
    assert TrailLine.objects.filter(verb="reprint_paper").count() == 2


def test_what_changed_since_is_said_on_the_page_and_on_a_cover_sheet(amber, address, ada, ward):  # noqa: F811
    sign(amber, address, read(amber, address))
    page = reverse("readiness", args=[ada.uid])
    assert "Changed since signing." not in amber.get(page).content.decode()
    kept = bytes(PaperFile.objects.get().bytes)
    make_arrangement(actor=ward.staff["amber"], stay=ada, code="spare-kit", state="made")
    assert "Changed since signing." in amber.get(page).content.decode()
    said = words(amber.get(reverse("changed-since", args=[Paper.objects.get().uid])).content)
    assert "No longer said Kit for the way home: not recorded Would be said now Kit for the way home: made" in said
    assert "To do besides No longer said Kit for the way home: not arranged yet." in said
    assert said.count("No longer said") == 2 and said.count("Would be said now") == 1, "and of nothing else"
    assert bytes(PaperFile.objects.get().bytes) == kept


def test_another_policy_is_a_change_and_the_cover_sheet_names_it(amber, address, ada, ward):  # noqa: F811
    sign(amber, address, read(amber, address))
    set_policy(actor=ward.staff["amber"], unit=ada.now.unit, overrides={"freshness": 47}, why="local agreement")
    assert "Changed since signing." in amber.get(reverse("readiness", args=[ada.uid])).content.decode()
    said = words(amber.get(reverse("changed-since", args=[Paper.objects.get().uid])).content)
    assert "Policy version No longer said" in said


def test_the_same_facts_that_come_to_another_result_by_now_are_a_change(amber, ada, ward):  # noqa: F811
    chart, paper = record_of(ada, ada.now.unit, NIGHT)
    assert paper.result == "Not yet"
    earlier = replace(paper, result="Self-caring").signed("Amber Oakley", "ward nurse", "Tue 12 May 2026 02:14")
    keep_paper(
        actor=replace(ward.staff["amber"], proof="password given again"), stay=ada, kind="readiness", meaning="So.",
        content=earlier.plain, pdf=b"%PDF-", revision=chart.revision, policy_version=paper.policy,
    )  # fmt: skip
    page = amber.get(reverse("readiness", args=[ada.uid])).content.decode()
    assert "Changed since signing." in page and "Cover sheet: what changed" in page


def test_a_cover_sheet_where_no_word_changed_says_so(amber, address):
    sign(amber, address, read(amber, address))
    said = words(amber.get(reverse("changed-since", args=[Paper.objects.get().uid])).content)
    assert "Nothing that the paper says has changed." in said


def test_a_second_record_says_which_it_replaces(amber, address):
    sign(amber, address, read(amber, address))
    sign(amber, address, read(amber, address))
    first, second = Paper.objects.order_by("number")
    assert first.content["replaces"] == ""
    assert second.content["replaces"] == "Replaces the record that Amber Oakley signed Wed 13 May 2026 02:14."
    assert StayNow.objects.get().revision == first.revision == second.revision


def test_the_draft_says_that_nobody_signed_it(amber, ada):  # noqa: F811
    said = words(amber.get(reverse("readiness-draft", args=[ada.uid])).content)
    assert "Draft: nobody has signed this." in said and "Signed by" not in said
    assert not Paper.objects.exists()


def test_every_event_that_counts_is_named_in_the_content(amber, address, ada, stoma, ward):  # noqa: F811
    event = ward.teach(ada, stoma, 30).event
    sign(amber, address, read(amber, address))
    rows = [row for group in Paper.objects.get().content["groups"] for row in group["rows"]]
    named = {showing["event"] for row in rows for showing in row["showings"]}
    assert named == {str(event.uid)}


def test_the_list_of_kept_papers_is_one_query_however_many(amber, address, ada, django_assert_num_queries):  # noqa: F811
    for count in (1, 3):
        while Paper.objects.count() < count:
            sign(amber, address, read(amber, address))
        with django_assert_num_queries(1):
            assert len(papers_of(ada, Stands(1, "", ""))) == count
