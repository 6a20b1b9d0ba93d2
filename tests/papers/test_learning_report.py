"""The learning report: counts first, floors kept, small groups hidden, the screen's own sentences, nobody named."""

from types import SimpleNamespace

import pytest
from django.urls import reverse
from django.utils import timezone

from teaching.analysis.unit_learning import unit_learning
from teaching.education.learning_page import LearningPage
from teaching.papers.learning_report import learning_report
from teaching.papers.learning_report_sheets import learning_report_pdf
from teaching.record.learned import keep_shares
from teaching.record.past_stays import record_past_stays
from tests.bedside.ward import build_ward
from tests.benchmarks.made_up_unit import made_up_stays
from tests.papers.learned_stays import stays
from tests.papers.reading import as_golden, clipped, tagging, words
from tests.rules.story import CHECKLIST

TITLES = {code: item.title for code, item in CHECKLIST.by_code.items()}
RARE = ("self-caring",) * 8 + ("not yet", "with nursing care arranged")


def report(told):
    return learning_report(
        found=unit_learning(told), titles=TITLES, unit="Heron Ward (made up)", printed_at="Wed 13 May 2026 13:40",
        printed_by="Edda Marsh", policy="1a2b3c4d5e6f",
    )  # fmt: skip


def text(told):
    return " ".join(words(learning_report_pdf(report(told))))


@pytest.mark.parametrize("count", [12, 60])
def test_it_says_word_for_word_what_it_said(count):
    pdf = learning_report_pdf(report(stays(count)))
    as_golden(f"learning-report-{count}.txt", pdf)
    assert clipped(pdf) == []
    for page in words(pdf):
        assert "Learning report, Heron Ward (made up). Printed Wed 13 May 2026 13:40 by Edda Marsh" in page


def test_it_is_tagged_with_language_title_and_a_text_for_each_plot():
    language, title, found = tagging(learning_report_pdf(report(stays(60))))
    assert (language, title) == ("en-GB", "Learning report, Heron Ward (made up), Wed 13 May 2026 13:40")
    assert {"/H1", "/H2", "/Table", "/TH", "/Figure"} <= found


def test_counts_worked_out_by_hand():
    """Of 60: three in five self-caring (36), one in four cut alone at once (15), half by day 8: 10 % a day from 4."""
    paper = report(stays(60))
    assert (paper.counts, paper.leaving[0].words, paper.leaving[0].count) == ("60 stays", "Self-caring", "36")
    assert paper.steps[0].title == "Cut the hole and smooth its edge"
    assert paper.steps[0].said.startswith("15 of 60, 25%")
    assert paper.usual_days == "Half were independent by day 8 after the operation."


def test_below_the_floor_there_are_counts_alone():
    paper = report(stays(29))
    assert (paper.curves, paper.days, paper.months, paper.usual_days) == ((), (), (), "")
    assert all(one.share is None for one in (*paper.leaving, *paper.steps))
    said = text(stays(29))
    assert "%" not in said
    assert "29 stays." in said and "are shown from 30 stays on." in said
    assert "Time to independence" not in said and "Month by month" not in said
    assert report(stays(30)).floor == "" and report(stays(30)).days


def test_a_small_group_is_hidden_and_cannot_be_found_by_taking_away():
    """Of 40: 32, 4 and 4. Both fours are hidden, so that neither follows from the whole; no share gives them back."""
    paper = report(stays(40, RARE))
    told = {one.words: (one.count, one.share) for one in paper.leaving}
    hidden = ("hidden (under 5, or beside such a group)", None)
    assert told["Not yet"] == told["With nursing care arranged"] == hidden
    assert told["Self-caring"][0] == "32"
    assert "4 of 40" not in text(stays(40, RARE))


@pytest.mark.parametrize(("few", "shown"), [(4, False), (5, True)])
def test_a_row_that_few_tried_is_left_out(few, shown):
    assert (TITLES["look-tubes"] in text(stays(40, few=few))) is shown


@pytest.mark.parametrize("count", [0, 4, 12, 40])
def test_the_paper_says_the_screens_own_sentences(count):
    told = stays(count)
    shares = [
        {"outcome": one.outcome, "days": one.days, "month": one.month, "result": one.result,
         "sessions": one.sessions, "tries": dict(one.tries)}
        for one in told
    ]  # fmt: skip
    screen = LearningPage(SimpleNamespace(name="Heron"), None, CHECKLIST, shares, None)
    paper = report(told)
    assert (paper.counts, paper.sessions) == (screen.counts, screen.sessions)
    assert [(one.words, one.count, one.said) for one in paper.leaving] == [
        (one.words, one.count, one.said) for one in screen.leaving
    ]
    assert [(one.title, one.tried, one.usual) for one in paper.steps] == [
        (row.title, row.tried, row.usual) for row in screen.rows
    ]
    for one, row in zip(paper.steps, screen.rows, strict=True):
        assert row.said == one.said
    assert list(paper.days) == screen.curve_table and list(paper.month_table) == screen.month_table
    assert list(paper.signals) == screen.signals
    assert paper.usual_days in ("", screen.usual_days) and bool(paper.usual_days) == bool(paper.days)


@pytest.fixture
def unit(db):
    now = timezone.now()
    ward = build_ward(now)
    nurses = [ward.staff[name].clinician for name in ("amber", "basil")]
    record_past_stays(
        actor=ward.staff["linden"], unit=ward.unit, stays=made_up_stays(ward.unit, nurses, 40, now, paired=0.0)
    )
    keep_shares(ward.unit, now)
    return ward


def test_nobody_is_named_but_who_prints(unit, client, assert_selects):
    client.force_login(unit.user("edda"))
    address = reverse("learning-report", args=[unit.unit.uid])
    client.get(address)
    with assert_selects(11):
        answer = client.get(address)
    said = " ".join(words(answer.content))
    assert "40 stays" in said and "by Edda Marsh" in said
    for who in ("Amber", "Basil", "Linden", "Madeup", "sim-"):
        assert who not in said
    assert address.encode() in client.get(reverse("learning", args=[unit.unit.uid])).content


@pytest.mark.parametrize(("who", "status"), [("linden", 200), ("amber", 403), ("wilma", 404)])
def test_for_educators_and_leads(unit, client, who, status):
    client.force_login(unit.user(who))
    assert client.get(reverse("learning-report", args=[unit.unit.uid])).status_code == status
