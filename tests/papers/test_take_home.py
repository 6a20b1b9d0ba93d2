"""The take-home sheet: this person's own parts and no others, plain to read, large enough, word for word."""

import io
import re
from dataclasses import replace

import pdfplumber
import pytest

from teaching.papers.take_home import blocked
from teaching.papers.take_home_sheets import take_home_pdf
from teaching.papers.take_home_words import SENTENCES, TITLES
from teaching.rules.checklist import FEATURES, conditions
from teaching.rules.policy import DEFAULT
from tests.papers.homegoers import NOW, PEOPLE, SLOTS, colostomy, ileostomy, sheet_of, two_stomas, urostomy
from tests.papers.reading import as_golden, clipped, tagging, words
from tests.papers.reading_level import grade

FOOT = re.compile(r"Ada Fernhollow, 000-A1\. In English.*?page \d of \d")
UNAVOIDABLE = ("stoma", "ostomy", "ileostomy", "colostomy", "urostomy")
OWN_WORDS = {"plan", "no-plan", "no-night-bag", "sized", "unsized", "as-shown", "tube-date", "no-tube-date",
             "drink-told", "drink-untold"}


@pytest.fixture(scope="module", params=[(name, size) for name in PEOPLE for size in (14, 18)],
                ids=lambda one: f"{one[0]} {one[1]} pt")  # fmt: skip
def printed(request):
    name, size = request.param
    sheet = sheet_of(PEOPLE[name](), size=size)
    return name, sheet, take_home_pdf(sheet)


def said(sheet):
    """Every line of the sheet's own words, as they stand one under the other."""
    tops = [line for mine in sheet.stomas for line in (mine.name, mine.pouch, mine.then)]
    tops += [sheet.not_settled, sheet.go_to] if sheet.not_settled else [sheet.go_to]
    return tops + [line for part in sheet.parts for line in (part.title, *(one.words for one in part.lines))]


def of(sheet, key, at=0):
    found = [part for part in sheet.parts if part.key == key]
    return " ".join(line.words for line in found[at].lines) if found else ""


def test_it_says_word_for_word_what_it_said(printed):
    name, sheet, _ = printed
    as_golden(f"take-home-{name.replace(' ', '-')}-{sheet.size}.txt", take_home_pdf(replace(sheet, policy="1a2b3c")))


def test_every_line_is_printed_as_it_is_measured(printed):
    """The reading level below is of the printed text itself: each line stands in the PDF, however it was wrapped."""
    _, sheet, pdf = printed
    text = re.sub(r"\W+", " ", FOOT.sub(" ", " ".join(words(pdf))))
    for line in said(sheet):
        for sentence in re.split(r"(?<=[.?]) ", line):
            assert re.sub(r"\W+", " ", sentence).strip() in text, sentence


def test_grade_6_or_under_with_and_without_the_unavoidable_words(printed):
    """Flesch-Kincaid; grade 5-6 is asked of patients' papers (family-physician review 2015)."""
    _, sheet, _ = printed
    text = "\n".join(said(sheet))
    assert len(text.split()) > 300
    assert grade(text) <= 6
    assert grade(text, UNAVOIDABLE) <= 6


def test_each_part_is_grade_6_or_under_too(printed):
    _, sheet, _ = printed
    for part in sheet.parts:
        assert grade("\n".join(line.words for line in part.lines)) <= 6, part.title


def test_the_measure_would_see_a_hard_sheet():
    assert grade("Immediately telephone your multidisciplinary practitioner regarding peristomal irritation.") > 6


def test_no_print_is_smaller_than_asked(printed):
    """14 pt clear print, 18 pt large print (RNIB)."""
    _, sheet, pdf = printed
    with pdfplumber.open(io.BytesIO(pdf)) as opened:
        sizes = {round(char["size"], 2) for page in opened.pages for char in page.chars}
    assert min(sizes) == pytest.approx(sheet.size, abs=0.05)


def test_the_sheet_stays_a_few_pages_and_nothing_is_cut_off(printed):
    name, sheet, pdf = printed
    pages = words(pdf)
    most = {14: 3, 18: 5}[sheet.size] + (2 if name == "two stomas" else 0)
    assert len(pages) <= most
    assert clipped(pdf) == []
    for number, page in enumerate(pages, 1):
        assert f"page {number} of {len(pages)}" in page
        assert "Ada Fernhollow, 000-A1." in page and "Your team's word comes first." in page


def test_it_is_tagged_with_language_and_title(printed):
    language, title, found = tagging(printed[2])
    assert (language, title) == ("en-GB", "My stoma at home, Wed 13 May 2026 18:00")
    assert {"/H1", "/H2", "/L", "/LI"} <= found


def test_every_condition_of_a_sentence_can_be_asked():
    for sentence in SENTENCES:
        assert sentence.part in TITLES
        for one in conditions(sentence.applies):
            assert set(one) <= FEATURES | OWN_WORDS, sentence


ONLY = {
    "colostomy": ("gets hard",),
    "ileostomy": ("4 to 6 hours", "more than 1500 ml", "Chew well", "no pills to make you go"),
    "urostomy": ("No urine comes", "urine test", "egg white", "the tap"),
}


@pytest.mark.parametrize("name", ONLY)
def test_only_its_own_parts(name):
    sheet = sheet_of(PEOPLE[name]())
    text = " ".join(said(sheet))
    for kind, phrases in ONLY.items():
        for phrase in phrases:
            assert (phrase in text) is (kind == name), (kind, phrase)


def test_kit_parts_stand_only_where_they_are_in_the_kit():
    with_powder, without = sheet_of(ileostomy()), sheet_of(urostomy())
    assert "powder on wet or raw skin only" in of(with_powder, "change")
    assert "powder" not in " ".join(said(without))
    assert "two parts till they lock" in of(without, "change")
    one_piece = ileostomy().new_kit("Wed 08:00", pieces="one", items=frozenset())
    assert "lock" not in of(sheet_of(one_piece), "change") and "powder" not in of(sheet_of(one_piece), "change")
    assert sheet_of(one_piece).stomas[0].pouch == "My pouch has one part, shut by a strip."


def test_a_closed_pouch_is_swapped_and_never_shut():
    sheet = sheet_of(colostomy())
    (swap,) = [part for part in sheet.parts if part.key == "empty"]
    assert swap.title == "To swap the pouch"
    assert "Hold the ring down with one hand." in of(sheet, "empty")
    assert "Shut" not in of(sheet, "empty") + of(sheet, "change")


def test_two_stomas_have_their_own_steps_and_shared_signs_once():
    sheet = sheet_of(two_stomas())
    titles = [part.title for part in sheet.parts]
    assert titles.count("To empty: right stoma") == titles.count("To empty: left stoma") == 1
    now = of(sheet, "now")
    assert now.count("very pale or dry") == 1
    assert "Right stoma: No urine comes for 4 hours." in now
    assert "tap" in of(sheet, "empty", 0) and "tap" not in of(sheet, "empty", 1)


def test_the_top_says_when_the_next_change_is_and_who_does_what():
    (mine,) = sheet_of(ileostomy()).stomas
    assert (mine.name, mine.next, mine.then) == (
        "My stoma is an ileostomy, on the right.", "Friday 15 May, 10:00, with a nurse", "Then every 3 days.")
    assert dict(mine.tasks) == {"Who empties it": "me", "Who changes it": "Hugo"}


def test_a_task_that_the_record_shows_nobody_for_is_left_to_fill_in_by_hand():
    (mine,) = sheet_of(urostomy()).stomas
    assert set(dict(mine.tasks)["Who changes it"]) == {"."}


def test_a_nurse_who_comes_before_it_is_due_is_the_next_change():
    """Changed Wednesday 09:00, every 72 hours: due on Saturday 09:00."""
    (mine,) = sheet_of(urostomy()).stomas
    assert mine.next == "Saturday 16 May, in the morning"
    (visited,) = sheet_of(urostomy().visit("Fri 16:30").visit("Fri 10:00")).stomas
    assert (visited.next, dict(visited.tasks)["Who changes it"]) == ("Friday 15 May, 10:00, with a nurse", "a nurse")


@pytest.mark.parametrize(
    "visit",
    [{"when": "Sat 09:01"}, {"when": "Fri 10:00", "for_change": False}, {"when": "Fri 10:00", "state": "asked"},
     {"when": "Thu 11:00"}, {"when": "Fri 10:00", "by": ""}],
    ids=["too late", "only to look", "only asked for", "before leaving", "accepted by nobody"],
)  # fmt: skip
def test_a_visit_that_does_not_change_it_in_time_is_not_the_next_change(visit):
    (mine,) = sheet_of(urostomy().visit(**visit)).stomas
    assert mine.next == "Saturday 16 May, in the morning"
    assert set(dict(mine.tasks)["Who changes it"]) == {"."}


def test_of_two_stomas_a_visit_for_one_is_not_the_others_next_change():
    right, left = sheet_of(two_stomas().visit("Fri 10:00", stoma="s")).stomas
    assert (right.next, left.next) == ("Friday 15 May, 10:00, with a nurse", "Sunday 17 May, in the morning")


def test_the_opening_follows_from_the_size_and_says_from_when_it_is():
    """32 by 30 mm and the least clearance of 2 mm on the whole width."""
    assert "Cut the hole 34 mm wide and 32 mm high. That was right on Wednesday 13 May." in of(
        sheet_of(ileostomy()), "change")
    with_rod = ileostomy().state("rod", "Mon 00:00")
    assert "Cut the hole as your nurse showed you." in of(sheet_of(with_rod), "change")
    assert "Cut the hole" not in of(sheet_of(colostomy()), "change"), "a pre-cut flange"


def test_the_fluid_plan_is_told_from_the_arrangement():
    eat = of(sheet_of(ileostomy()), "eat")
    assert "Drink this: 1 litre. Plain water, at most: half a litre. To slow it down, take: loperamide" in eat
    assert "Your blood test is on Monday 18 May. We ring you on Friday 15 May." in eat
    asked = ileostomy().arranged("fluid-plan", "Wed 12:00", state="asked")
    assert "Drink this" not in of(sheet_of(asked), "eat"), "only asked for"
    assert "Do not fill up on plain water." in of(sheet_of(asked), "eat")


def test_a_caution_that_is_not_settled_sends_the_person_to_their_nurse_in_plain_words():
    sheet = sheet_of(ileostomy())
    assert sheet.not_settled == "Not all is settled yet. Ask your nurse before you go home."
    pages = words(take_home_pdf(sheet))
    assert sheet.not_settled in pages[0] and "Output 1500 mL" not in " ".join(pages)
    settled = ileostomy()
    (caution,) = settled.chart.cautions
    settled.chart = replace(settled.chart, cautions=(replace(caution, settled=NOW),))
    assert sheet_of(settled).not_settled == "" and sheet_of(urostomy()).not_settled == ""


def test_a_urostomy_says_how_much_to_drink_or_to_ask_the_nurse():
    assert "Drink about 2 litres in a day." in of(sheet_of(urostomy()), "eat")
    unset = {code: SLOTS[code] for code in ("press-minutes", "hours-without-urine")}
    assert "Drink all through the day. Ask your nurse how much." in of(sheet_of(urostomy(), slots=unset), "eat")
    assert "2 litres" not in " ".join(said(sheet_of(ileostomy())))
    assert holes(urostomy(), unset) == [], "no sheet waits for it"


def test_where_to_go_when_nobody_answers_is_the_units_own_place():
    (first, *_) = words(take_home_pdf(sheet_of(ileostomy())))
    assert "If no one answers, go to the ward on Elm Road." in first
    (first, *_) = words(take_home_pdf(sheet_of(ileostomy(), slots={"press-minutes": "10"})))
    assert re.search(r"If no one answers, go to \.{9,} Ask your nurse where before you go home\.", first)
    assert "emergency room" not in first


def test_when_to_order_follows_from_how_long_new_kit_takes():
    kit = of(sheet_of(ileostomy().arranged("supplies", "Tue 00:00", due="Mon+2 10:00", days=14, lead_days=5)), "kit")
    assert "New kit takes 5 days to come. Order while you have more than that left." in kit
    assert "New kit takes" not in of(sheet_of(ileostomy()), "kit")


@pytest.mark.parametrize(("state", "named"), [("made", True), ("asked", False), ("refused", False)])
def test_who_sends_the_kit_is_named_once_that_is_arranged(state, named):
    told = {"codes": "pouch 000-10", "supplier": "Wharf Supply (made up)"}
    kit = of(sheet_of(ileostomy().arranged("supplies", "Tue 00:00", state, due="Mon+2 10:00", days=14, **told)), "kit")
    assert "Codes: pouch 000-10." in kit
    assert ("From: Wharf Supply (made up)." in kit) is named


def test_one_of_anything_is_said_as_one():
    story = urostomy().arranged("supplies", "Tue 00:00", due="Fri 10:00", days=1, lead_days=1)
    story.policy = story.policy.with_overrides({"leaks_today": 1})
    sheet = sheet_of(story, slots=SLOTS | {"press-minutes": "1", "hours-without-urine": "1"})
    assert "You have kit for 1 day." in of(sheet, "kit")
    assert "New kit takes 1 day to come. Order while you have more than that left." in of(sheet, "kit")
    text = " ".join(said(sheet))
    assert "when you press on it for 1 minute." in text and "No urine comes for 1 hour." in text
    assert "You have 1 leak in 24 hours." in text


def test_visits_contact_tubes_and_helpers_stand_with_their_days():
    assert "A nurse comes to change the pouch: Friday 15 May, 10:00." in of(sheet_of(ileostomy()), "comes")
    assert "Hugo is there: at all hours." in of(sheet_of(ileostomy()), "comes")
    assert "The thin tubes come out: Monday 18 May, 09:00." in of(sheet_of(urostomy()), "comes")
    assert "A thin tube in your stoma comes out before Monday 18 May." in of(sheet_of(urostomy()), "now")


def test_figures_of_the_hospital_are_the_ones_printed():
    story = ileostomy()
    story.policy = DEFAULT.with_overrides({"output_today": 1200, "leaks_today": 3})
    sheet = sheet_of(story)
    assert "more than 1200 ml in one day" in of(sheet, "now")
    assert "You have 3 leaks in 24 hours." in of(sheet, "today")


def holes(story, slots):
    return [one.words for one in blocked(story.chart, NOW, slots)]


@pytest.mark.parametrize(
    ("name", "slots", "count"),
    [("colostomy", {}, 1), ("ileostomy", {}, 1), ("urostomy", {}, 2), ("two stomas", {}, 2),
     ("urostomy", {"press-minutes": "10"}, 1), ("urostomy", SLOTS, 0), ("ileostomy", {"press-minutes": "10"}, 0),
     ("ileostomy", {"press-minutes": ""}, 1)],
)  # fmt: skip
def test_a_slot_that_a_sentence_leans_on_blocks_the_sheet(name, slots, count):
    assert len(holes(PEOPLE[name](), slots)) == count


def test_no_number_no_kit_and_no_stoma_block_it_too():
    story = ileostomy()
    assert holes(story.all_else(but=("number",)), SLOTS) == ["The number to ring, day and night, is not arranged yet."]
    bare = ileostomy()
    bare.chart = replace(bare.chart, kits=())
    assert holes(bare, SLOTS) == ["No kit is written down for the stoma."]
    bare.chart = replace(bare.chart, stomas=())
    assert "No stoma is written down yet." in holes(bare, SLOTS)
