"""Invented people for the papers of handing over, told as stories of the rules; a moment on the ward's own clock."""

from dataclasses import replace
from datetime import date

from teaching.rules.assess import assess
from teaching.rules.facts import Appointment, Caution, Learner, OutputTotal, Visit
from teaching.rules.handover.parts import Beside, Who
from teaching.rules.handover.sbar import handover
from tests.rules.story import STOMA_NURSE, Story, at

WHO = Who("Ada Fernhollow", date(1958, 3, 2), "000-A1", "A1", "English")
NOW = "Wed 13:40"
PHONES = (("Stoma nurses (made up)", "00000 000 100", "Mon to Fri 08:00-16:00"),)
BY_DAY = "em-when em-open em-wipe em-close em-hands"


def handed(story, now=NOW, who=WHO, **beside):
    chart, moment = story.chart, at(now)
    told = Beside(**{"phones": PHONES} | beside)
    return handover(chart, assess(chart, story.policy, moment), story.policy, moment, who, told)


def lines(paper, letter):
    """{label: [sentences]} of one part; "" holds what stands under the label before it."""
    part = next(part for part in paper.parts if part.letter == letter)
    found = {}
    for line in part.lines:
        found.setdefault(line.label, []).append(line.sentence)
    return found


def person(**kit):
    """Surgery on Saturday, a change on Sunday, leaving on Friday."""
    story = Story(**{"interval_hours": 72} | kit)
    stomas = tuple(replace(stoma, side="right", formed_at=at("Mon 09:00") - 2 * DAY) for stoma in story.chart.stomas)
    story.chart = replace(story.chart, stomas=stomas, surgery_at=at("Mon 09:00") - 2 * DAY)
    return story.leaving("Fri 12:00")


DAY = at("Tue 00:00") - at("Mon 00:00")


def full_person(name="Ada Fernhollow"):
    """Everything a handover can say of one stoma: showings, help, decisions, topics, a helper, cautions, bookings."""
    story = person(items=frozenset({"powder", "seal"}))
    story.needs("sight")
    story.helper("Hugo")
    helper = Learner("Hugo", "helper", "Hugo Fernhollow", "husband", week="1" * 168, lives_in=True)
    story.chart = replace(story.chart, learners=(story.chart.learners[0], helper))
    story.shows(BY_DAY, "06", "Mon 18:10").shows(BY_DAY, "06", "Tue 06:20", by=STOMA_NURSE)
    change = "prep-kit prep-hands off-peel off-cover clean-dry look-stoma look-skin measure press join close next-due"
    story.shows(change, "06", "Tue 10:00", by=STOMA_NURSE, event="change")
    story.shows("centre shut-first", "04", "Tue 10:00", by=STOMA_NURSE, event="change")
    story.shows("cut", "03", "Tue 10:00", by=STOMA_NURSE, event="change", reason="drowsy")
    story.shows("powder", "right", "Tue 10:00", by=STOMA_NURSE, event="change")
    story.shows("look-under", "07", "Tue 10:00", by=STOMA_NURSE, event="change")
    story.shows("t-call t-leak", "told", "Mon 10:00").shows("t-call t-leak", "own_words", "Tue 12:00")
    story.shows("t-fluid", "told", "Mon 10:00").shows("t-fluid", "not_yet", "Wed 09:00")
    story.shows("t-signs", "told", "Wed 09:00")
    story.shows("em-open em-close", "04", "Tue 18:00", learner="Hugo")
    story.finds(
        "Tue 10:00", "change", "learner", colour="pink-red", wet="wet", edge="joined", stands="well",
        width_mm=32, height_mm=30, opening_width_mm=34, opening_height_mm=33,
        skin=(("feet", "wet-raw"), ("head", "good"), ("own-left", "good"), ("own-right", "good")), wear_end="planned",
    )  # fmt: skip
    story._add("totals", OutputTotal("s", at("Wed 07:00"), 1550))
    told = Caution(
        "c", "output-today", "today", "Output 1500 mL or more in 24 hours: ask for a fluid plan", at("Wed 07:30"),
        told=at("Wed 08:10"), told_whom="Dr Nettle", answer="repeat total tomorrow", look_again_at=at("Thu 07:00"),
    )  # fmt: skip
    story._add("cautions", told)
    story._add(
        "appointments",
        Appointment("a", at("Fri 10:00"), "booked", "change", ("person", "Hugo"), "s", "Sorrel Vane", True, aim="cut"),
    )
    story._add("visits", Visit("v", at("Sat 10:00"), "made", True, "District team (made up)"))
    return story


def two_stomas():
    story = person()
    story.stoma("left", "colostomy", interval_hours=48)
    story.chart = replace(story.chart, stomas=(replace(story.chart.stomas[0], label="right", kind="urostomy"),
                                               replace(story.chart.stomas[1], side="left")))  # fmt: skip
    return story.shows(BY_DAY, "06", "Tue 09:00", stoma="left").shows("ue-open ue-shut", "05", "Tue 09:00")
