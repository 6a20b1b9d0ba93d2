"""The learning report: counts first, floors kept, small groups hidden, the screen's own sentences, nobody named."""

import re
from types import SimpleNamespace

import pytest
from django.urls import reverse
from django.utils import timezone

from teaching.analysis.reading_apart import reading_apart
from teaching.analysis.unit_learning import unit_learning
from teaching.education.agreement_page import AgreementPage
from teaching.papers.learning_report import learning_report
from teaching.papers.learning_report_sheets import learning_report_pdf
from teaching.record.past_stays import record_past_stays
from teaching.rules.policy import DEFAULT, PolicyRefused
from teaching.rules.vocabulary import ANSWERS
from tests.bedside.reading import words as read
from tests.bedside.ward import build_ward
from tests.benchmarks.made_up_unit import made_up_stays
from tests.papers.learned_stays import paired_sessions, stays
from tests.papers.reading import as_golden, clipped, tagging, words
from tests.rules.story import CHECKLIST

TITLES = CHECKLIST.titles
RARE = ("self-caring",) * 8 + ("not yet", "with nursing care arranged")


def report(told, paired=0):
    return learning_report(
        found=unit_learning(told, DEFAULT.stays_for_curves), until="12 May 2026",
        reading=reading_apart(paired_sessions(paired), DEFAULT.paired_sessions), titles=TITLES,
        unit="Heron Ward (made up)", printed_at="Wed 13 May 2026 13:40", printed_by="Edda Marsh",
        policy="1a2b3c4d5e6f",
    )  # fmt: skip


def text(told, paired=0):
    return " ".join(words(learning_report_pdf(report(told, paired))))


@pytest.mark.parametrize(("count", "paired"), [(12, 19), (60, 40)])
def test_it_says_word_for_word_what_it_said(count, paired):
    pdf = learning_report_pdf(report(stays(count), paired))
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
    paper = report(stays(60)).learned
    assert (paper.counts, paper.leaving[0].words, paper.leaving[0].count) == ("60 stays", "Self-caring", "36")
    assert paper.steps[0].title == "Cut the hole and smooth its edge"
    assert paper.steps[0].said.startswith("15 of 60, 25%")
    assert paper.usual_days == "Half were independent by day 8 after the operation."


def test_below_the_floor_there_are_counts_alone():
    paper = report(stays(29)).learned
    assert (paper.curves, paper.days, paper.months, paper.usual_days) == ((), (), (), "")
    assert all(one.share is None for one in (*paper.leaving, *paper.steps))
    said = text(stays(29))
    assert "%" not in said
    assert "29 stays." in said and "are shown from 30 stays on." in said
    assert "Time to independence" not in said and "Month by month" not in said
    assert report(stays(30)).learned.floor == "" and report(stays(30)).learned.days


def test_a_small_group_is_hidden_and_cannot_be_found_by_taking_away():
    """Of 40: 32, 4 and 4. Both fours are hidden, so that neither follows from the whole; no share gives them back."""
    paper = report(stays(40, RARE)).learned
    told = {one.words: (one.count, one.share) for one in paper.leaving}
    hidden = ("hidden (under 5, or beside such a group)", None)
    assert told["Not yet"] == told["With nursing care arranged"] == hidden
    assert told["Self-caring"][0] == "32"
    assert "4 of 40" not in text(stays(40, RARE))


def test_no_small_group_can_be_read_off_the_days_or_a_step():
    said = text(stays(40, RARE))
    assert "Still here" not in said
    counts = [int(count) for count in re.findall(r"\b(\d+) of 40\b", re.sub(r"fewer than \d+ of", "", said))]
    assert counts and not {1, 2, 3, 4, 36, 37, 38, 39} & set(counts)


@pytest.mark.parametrize(("few", "shown"), [(4, False), (5, True)])
def test_a_row_that_few_tried_is_left_out(few, shown):
    assert (TITLES["look-tubes"] in text(stays(40, few=few))) is shown


def test_agreement_worked_out_by_hand():
    """Of 40 sessions: cut 30 of 40 alike, close 36 of 40, open all 40: 106 of 120 pairs.

    Mean signed difference: cut 10 times -2, close 4 times -1, of 120 pairs: -24 / 120. Kappa of cut, quadratic over
    six levels: observed (10 x 0.84 + 30) / 40 = 0.96, by chance 0.84, so (0.96 - 0.84) / (1 - 0.84) = 0.75.
    """
    part = report(stays(12), 40).agreement
    assert (part.count, part.floor) == ("40 sessions rated by two", "")
    told = {line.name: line.said for line in part.lines}
    assert told["Same level"].startswith("88% (") and told["Difference"] == "-0.20"
    assert [(row.title, row.pairs, row.agreed[:3], row.apart) for row in part.rows] == [
        (TITLES["cut"], 40, "75%", f"04 “{ANSWERS['04'].words}” or 06 “{ANSWERS['06'].words}”"),
        (TITLES["em-close"], 40, "90%", f"05 “{ANSWERS['05'].words}” or 06 “{ANSWERS['06'].words}”"),
        (TITLES["em-open"], 40, "100", ""),
    ]
    assert part.rows[0].kappa.startswith("0.75 (")
    assert part.rows[2].kappa == "n/a", "all alone: there is no kappa, and no zero either"
    assert part.questions[0].startswith(f"{TITLES['cut']}: most often read as 04")


@pytest.mark.parametrize(("paired", "shown"), [(19, False), (20, True)])
def test_agreement_is_hidden_under_twenty_paired_sessions(paired, shown):
    said = text(stays(12), paired)
    assert f"{paired} sessions rated by two, each alone." in said
    assert ("Shown from 20 sessions rated by two on" in said) is not shown
    assert ("kappa" in said) is ("AC2" in said) is ("For a huddle" in said) is shown


def test_a_hospital_may_ask_for_more_sessions_and_never_for_fewer():
    local = DEFAULT.with_overrides({"paired_sessions": 30})
    part = reading_apart(paired_sessions(29), local.paired_sessions)
    assert (part.overall, part.fewest) == (None, 30)
    with pytest.raises(PolicyRefused):
        DEFAULT.with_overrides({"paired_sessions": 19})


def test_the_paper_says_of_agreement_what_the_screen_says():
    reading = reading_apart(paired_sessions(40), DEFAULT.paired_sessions)
    screen, part = AgreementPage(SimpleNamespace(name="Heron"), TITLES, reading), report(stays(12), 40).agreement
    assert (screen.count, screen.floor, screen.lines) == (part.count, part.floor, part.lines)
    assert (screen.rows, screen.talk_about) == (part.rows, part.questions)


@pytest.fixture
def unit(db):
    now = timezone.now()
    ward = build_ward(now)
    nurses = [ward.staff[name].clinician for name in ("amber", "basil")]
    record_past_stays(
        actor=ward.staff["linden"], unit=ward.unit, stays=made_up_stays(ward.unit, nurses, 40, now, paired=0.5)
    )
    return ward


def test_nobody_is_named_but_who_prints(unit, client, assert_selects):
    client.force_login(unit.user("edda"))
    address = reverse("learning-report", args=[unit.unit.uid])
    client.get(address)
    with assert_selects(15):
        answer = client.get(address)
    said = " ".join(words(answer.content))
    assert "40 stays" in said and "by Edda Marsh" in said
    for who in ("Amber", "Basil", "Linden", "Madeup", "sim-"):
        assert who not in said
    assert "Weighted kappa" in said and "AC2" in said
    assert address.encode() in client.get(reverse("learning", args=[unit.unit.uid])).content


def test_screen_and_paper_say_the_same_sentences(unit, client):
    client.force_login(unit.user("edda"))
    screen = client.get(reverse("learning", args=[unit.unit.uid]))
    paper = "".join(words(client.get(reverse("learning-report", args=[unit.unit.uid])).content)).replace(" ", "")
    told = screen.context["page"]
    sentences = [told.counts, told.sessions, told.usual_days, *(told.signals if told.months else ())]
    sentences += [one.said for one in (*told.leaving, *told.steps)]
    sentences += ["".join(map(str, row)) for row in (*told.days, *told.month_table)]
    assert told.days and all(sentences[:3])
    on_screen = "".join(read(screen).split())
    for said in sentences:
        assert said.replace(" ", "") in paper and said.replace(" ", "") in on_screen, said


@pytest.mark.parametrize(("who", "status"), [("linden", 200), ("amber", 403), ("wilma", 404)])
def test_for_educators_and_leads(unit, client, who, status):
    client.force_login(unit.user(who))
    assert client.get(reverse("learning-report", args=[unit.unit.uid])).status_code == status
