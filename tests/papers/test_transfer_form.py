"""The transfer form: kit, how it goes on, who does what, next change, numbers, cautions."""

import io
import re
from dataclasses import replace

import pikepdf
import pytest

from teaching.papers.transfer import transfer_content
from teaching.papers.transfer_sheets import transfer_pdf
from teaching.rules.assess import assess
from teaching.rules.board import Begun
from teaching.rules.handover.parts import Beside
from tests.papers.people import NOW, PHONES, WHO, full_person, person, two_stomas
from tests.papers.reading import as_golden, clipped, elements, tagging, words
from tests.rules.story import at


def form(story, phones=PHONES, **beside):
    chart, now = story.chart, at(NOW)
    paper = transfer_content(
        chart=chart, assessment=assess(chart, story.policy, now), policy=story.policy, now=now, who=WHO,
        beside=Beside(phones=phones, **beside), unit="Heron Ward (made up)", printed_by="Amber Oakley",
    )  # fmt: skip
    return replace(paper, policy="1a2b3c")  # the version moves with every line of the policy


@pytest.fixture(scope="module")
def printed():
    return transfer_pdf(form(full_person()))


def test_it_says_word_for_word_what_it_said(printed):
    as_golden("transfer.txt", printed)


def test_it_is_one_sheet_tagged_and_nothing_is_clipped(printed):
    front, back = words(printed)
    assert clipped(printed) == []
    language, title, found = tagging(printed)
    assert language == "en-GB" and "Ada" not in title
    assert {"/H1", "/H2", "/Table", "/TH", "/Figure"} <= found
    for number, page in enumerate((front, back), 1):
        assert "Ada Fernhollow, 000-A1. Transfer form" in page and f"page {number} of 2" in page


def test_how_it_goes_on_follows_the_kit():
    codes = [item.code for item in form(full_person()).stomas[0].putting_on]
    assert codes[0] == "measure" and {"cut", "powder", "seal", "join", "close"} <= set(codes)
    plain = person(pieces="one", opening="pre-cut", closure="closed", outlet="")
    codes = [item.code for item in form(plain).stomas[0].putting_on]
    assert not {"cut", "measure", "mould", "join", "close", "powder", "seal"} & set(codes)


def test_sizes_and_wear_are_drawn_with_their_words():
    story = full_person()
    story.finds("Mon 10:00", "before", "learner", width_mm=38, height_mm=36)
    story.care("change", "Mon 10:00", "leak").care("change", "Mon 20:00", "planned")
    paper = transfer_pdf(form(story))
    with pikepdf.open(io.BytesIO(paper)) as opened:
        said = [str(each.Alt) for each in elements(opened.Root.StructTreeRoot) if each.S == "/Figure"]
        fonts = {str(font.BaseFont).split("+")[1] for page in opened.pages for font in page.Resources.Font.values()}
    assert "Size over 2 measurements: across from 38 mm to 32 mm, up and down from 36 mm to 30 mm" in said
    assert "How long each of the last 3 pouches was worn; 0 of 2 that came off leaked" in said
    assert fonts == {"Ward", "Ward-Bold"}
    assert clipped(paper) == []


def done(story):
    """{(procedure, step): (words of each learner)}"""
    (stoma,) = form(story).stomas
    return {
        (procedure.title, step.title): tuple((does.words, does.mark) for does in step.by)
        for procedure in stoma.procedures
        for step in procedure.steps
    }


def test_who_does_what_says_alone_only_where_it_is_held():
    said = done(full_person())
    assert said["Emptying", "Wash hands"] == (("alone", "06"), ("not shown yet", ""))
    assert said["Emptying", "Shut the outlet and check it"] == (("alone", "06"), ("needs help", "04"))
    assert said["Pouch change", "Cut the hole and smooth its edge"][0] == ("needs help", "03")
    assert said["Pouch change", "Join pouch and flange"][0] == ("alone once", "06")
    assert said["Pouch change", "See the skin below the stoma, with a mirror"][0] == ("not rated", "07")


def test_who_has_not_agreed_is_not_on_the_form():
    story = full_person()
    story.chart = replace(story.chart, consents=())
    assert form(story).stomas[0].learners == ("Ada Fernhollow",)


def test_the_next_change_and_what_is_not_known():
    assert form(full_person()).stomas[0].change == (
        "on since Tue 12 May 10:00; next due Fri 15 May 10:00; every 72 hours"
    )
    bare = person()
    bare.chart = replace(bare.chart, kits=())
    (stoma,) = form(bare).stomas
    assert stoma.kit == "no pouch is written down yet"
    assert "when the next is due is not known" in stoma.change and stoma.putting_on == ()
    (page, *_) = words(transfer_pdf(form(bare, phones=())))
    assert "Not known: no pouch is written down for it." in page
    assert "Not known: no number is written down for this unit." in page


def test_it_travels_so_it_says_dates_and_never_tomorrow():
    """"Stoma nurse today" is the name of a list, "today's date" what to write on a backing paper; an answer is told
    in the words it was given, beside its date.
    """
    drawn = {"begun": (Begun("Basil Thorne", at("Wed 08:10")),), "amended_at": at("Tue 11:00")}
    for story in (full_person(), two_stomas(), full_person().leaving("Tue 12:00")):
        said = " ".join(words(transfer_pdf(form(story, **drawn))))
        bare = re.sub("Stoma nurse today|today's date|answer: repeat total tomorrow", "", said)
        assert re.findall(r"\b(today|tomorrow|yesterday|day \d+|on now|ago)\b", bare) == []
        assert "Draft: begun Wed 13 May 08:10 by Basil Thorne, not signed. It is not counted here." in said
        assert "Amended: an entry was last corrected or taken back Tue 12 May 11:00." in said


def test_leaving_size_and_cautions_are_dated():
    (front, _) = words(transfer_pdf(form(full_person())))
    assert "Leaving Fri 15 May 2026 12:00, home (planned)." in front
    assert "End ileostomy, right, made on 9 May 2026" in front
    assert "stoma 32 by 30 mm, measured Tue 12 May 10:00; opening 34 by 33 mm." in front
    assert (
        "told Wed 13 May 08:10 (Dr Nettle), answer: repeat total tomorrow, look again Thu 14 May 07:00, not settled."
    ) in front
    assert form(full_person().leaving("Tue 12:00")).leaving == "was planned Tue 12 May 2026 12:00, home (planned)"
    no_day = full_person()
    no_day.chart = replace(no_day.chart, planned_at=None)
    assert form(no_day).leaving == "no day planned"


THERE = {"accepted_by": "Senna Holt", "is_nurse": True, "name": "Larch House (made up)"}


def test_where_they_go_and_who_takes_over_are_printed_where_they_are_known():
    (front, *_) = words(transfer_pdf(form(full_person().arranged("facility", **THERE))))
    assert "Goes to Larch House (made up) Taken over by Senna Holt" in front
    for story in (full_person(), full_person().arranged("facility", state="asked", **THERE)):
        (front, *_) = words(transfer_pdf(form(story)))
        assert re.search(r"Goes to \.{9,} Taken over by \.{9,}", front)


def test_codes_and_size_of_the_kit_are_the_ones_arranged():
    kit = {"codes": "pouch 000-10, flange 000-20", "size": "34 mm", "days": 14, "supplier": "Wharf Supply (made up)"}
    (front, *_) = words(transfer_pdf(form(full_person().arranged("supplies", due="Mon+2 10:00", **kit))))
    assert (
        "Kit that goes along Codes: pouch 000-10, flange 000-20 Size: 34 mm Goes along: kit for 14 days "
        "First delivery: Mon 25 May 2026 10:00 From: Wharf Supply (made up)"
    ) in front
    assert "write them here" not in front
    only_asked = form(full_person().arranged("supplies", state="asked", due="Mon+2 10:00", **kit))
    assert only_asked.codes and [name for name, _ in only_asked.supplies] == ["Size", "From"]


def test_codes_that_nobody_wrote_down_leave_lines_to_write_on():
    (front, *_) = words(transfer_pdf(form(full_person())))
    assert "Codes (none written down; write them here): pouch ....." in front


def test_every_caution_stands_on_it_until_it_is_settled():
    story = full_person()
    told = story.chart.cautions[0]
    opened = replace(told, key="o", sign="dark-stoma", list="call_now", words="Stoma dark, dusky or pale", told=None)
    settled = replace(told, key="d", words="A gap at the edge of the stoma", settled=at("Wed 09:00"))
    story.chart = replace(story.chart, cautions=(told, opened, settled))
    (front, *_) = words(transfer_pdf(form(story)))
    assert "Call now Stoma dark, dusky or pale: open since Wed 13 May 07:30, nobody told yet." in front
    assert "look again Thu 14 May 07:00, not settled." in front
    assert "A gap at the edge" not in front


def test_two_stomas_stand_one_after_the_other():
    paper = transfer_pdf(form(two_stomas()))
    said = " ".join(words(paper))
    assert clipped(paper) == []
    assert "Who does what: end urostomy, right" in said and "Who does what: end colostomy, left" in said


def test_nobody_to_teach_leaves_all_to_a_nurse():
    bare = person()
    bare.chart = replace(bare.chart, learners=())
    assert "a nurse does it all" in " ".join(words(transfer_pdf(form(bare))))


def test_a_number_that_nobody_can_ring_is_left_off():
    assert form(person(), phones=(*PHONES, ("Night desk", "ask the porter", ""))).phones == PHONES
