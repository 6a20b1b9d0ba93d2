"""Faults of a stay file outside its sessions, each by path with its mend. All people are invented."""

import pytest

from teaching.exchange.stay_file import read_stay
from teaching.exchange.wrong_file import WrongFile

HEAD = {
    "format": "ostomy-teach stay file",
    "version": 1,
    "ward": "America/New_York",
    "surgery": "2026-10-30 09:00",
    "at": "day 9 12:00",
    "stomas": [{"kind": "ileostomy"}],
    "kits": [{"since": "day 0 12:00", "pieces": "two", "opening": "cut"}],
}
KIT = HEAD["kits"][0]

FAULTS = [
    ({"format": "stay"}, 'format: must be "ostomy-teach stay file".'),
    ({"version": 2}, "version: this reader knows version 1"),
    ({"version": "1"}, "version: '1' does not fit here; write 1."),
    ({"ward": "Mars/North"}, "ward.zone: Mars/North is not a time zone; write one such as Europe/London."),
    ({"ward": {}}, "ward.zone: is missing"),
    ({"ward": None}, "ward: must be an object in braces."),
    (
        {"ward": {"zone": "UTC", "shifts": [{"name": "day", "starts": "7", "ends": "19:00"}]}},
        "ward.shifts[0].starts: 7 is not a time of day",
    ),
    ({"checklist": {"number": 99}}, "checklist: stoma-care 99 does not come with this product"),
    ({"surgery": "day 0 09:00"}, "surgery: a day counted from surgery needs the top key surgery as a date"),
    ({"planned_home": "2026-11-01 01:30"}, "planned_home: 2026-11-01 01:30 came twice in America/New_York"),
    ({"patient": "x"}, "patient: nobody reads this key; use one of:"),
    ({"state": "home"}, "state: home is unknown; "),
    ({"taught_before": "yes"}, "taught_before: 'yes' does not fit here; write true or false."),
    ({"policy": {"spacing": 1000}}, "policy.spacing: must be from 1 to 24 hours; 1000 is not."),
    ({"policy": {"spaces": 4}}, "policy.spaces: is not a line of the policy"),
    ({"stomas": []}, "stomas: is missing; list at least one"),
    ({"stomas": [{"kind": "stoma"}]}, "stomas[0].kind: stoma is unknown; "),
    ({"stomas": [{"kind": "ileostomy"}, {"kind": "urostomy"}]}, "stomas[1].key: stoma stands twice"),
    ({"kits": [{**KIT, "pieces": "2"}]}, "kits[0].pieces: 2 is unknown; use one of: one, two."),
    ({"kits": [{**KIT, "since": None}]}, "kits[0].since: is missing; write a time in quotes"),
    ({"kits": [{**KIT, "items": ["powdr"]}]}, "kits[0].items: powdr is unknown; did you mean powder?"),
    ({"kits": [{**KIT, "items": [["powder"]]}]}, "kits[0].items: ['powder'] is unknown"),
    (
        {"kits": [{**KIT, "interval_hours": 500}]},
        "kits[0].interval_hours: 500 is out of range; write a number of hours from 1 to 168",
    ),
    ({"kits": [{**KIT, "interval_hours": 1.5}]}, "kits[0].interval_hours: 1.5 is not whole"),
    ({"kits": [{**KIT, "interval_hours": True}]}, "kits[0].interval_hours: True does not fit here"),
    ({"kits": [{**KIT, "pre_cut_mm": 30}]}, "kits[0].pre_cut_mm: the opening is cut, not pre-cut"),
    ({"kits": [{**KIT, "closure": "closed", "outlet": "clip"}]}, "kits[0].outlet: a closed pouch has none"),
    (
        {"stomas": [{"kind": "urostomy"}], "kits": [{**KIT, "outlet": "clip"}]},
        "kits[0].outlet: a pouch on a urostomy has a tap or a cap",
    ),
    (
        {"stomas": [{"kind": "urostomy"}], "kits": [{**KIT, "closure": "closed"}]},
        "kits[0].outlet: a pouch on a urostomy has a tap",
    ),
    ({"learners": [{"key": "a"}, {"key": "a"}]}, "learners[1].key: a stands twice"),
    (
        {"learners": [{"key": "a", "kind": "person"}, {"key": "person"}]},
        "learners[1].kind: there is one person",
    ),
    ({"learners": [{"key": "person", "agreed": "day 1 09:00"}]}, "learners[0].agreed: is for helpers"),
    ({"learners": [{"relation": "son"}]}, "learners[0].key: is missing"),
    ({"learners": [{"key": "a", "needs": ["eyes"]}]}, "learners[0].needs: eyes is unknown"),
    (
        {"consents": [{"learner": "person", "whose": "person", "yes": True, "at": "day 1 09:00"}]},
        "consents[0].learner: person is unknown",
    ),
    (
        {"body_events": [{"code": "rod", "began": "day 2 09:00", "ended": "day 1 09:00"}]},
        "body_events[0].ended: is before it began",
    ),
    ({"body_events": [{"code": "fever", "began": "day 2 09:00"}]}, "body_events[0].code: fever is unknown"),
    ({"care": [{"at": "day 1 09:00", "procedure": "topics"}]}, "care[0].procedure: topics is unknown"),
    (
        {"care": [{"at": "day 1 09:00", "procedure": "swap"}]},
        "care[0].procedure: stoma had no swapping a closed pouch with the kit it wore then",
    ),
    (
        {"care": [{"at": "day 1 09:00", "procedure": "emptying", "wear_end": "leak"}]},
        "care[0].wear_end: only a change ends a wear",
    ),
    (
        {"rechecks": [{"at": "day 1 09:00", "procedure": "change", "by": "registered"}]},
        "rechecks[0].procedure: change is not renewed by a recheck",
    ),
    (
        {"findings": [{"at": "day -1 09:00", "colour": "pink-red"}]},
        "findings[0].at: is before the stoma was formed",
    ),
    ({"findings": [{"at": "day 1 09:00", "colour": "red"}]}, "findings[0].colour: red is unknown"),
    ({"findings": [{"at": "day 1 09:00", "width_mm": 3}]}, "findings[0].width_mm: 3 is out of range"),
    (
        {"findings": [{"at": "day 1 09:00", "skin": {"left": "good"}}]},
        "findings[0].skin.left: nobody reads this key; ",
    ),
    (
        {"goes_to": "hotel"},
        "goes_to: hotel is unknown",
    ),
    (
        {"appointments": [{"at": "day 9 10:00", "state": "bokked"}]},
        "appointments[0].state: bokked is unknown; did you mean booked?",
    ),
    (
        {"totals": [{"until": "day 2 07:00", "ml": "1500"}]},
        "totals[0].ml: '1500' does not fit here; write a number of mL",
    ),
    ({"cautions": [{"sign": "dark", "at": "day 1 09:00"}]}, "cautions[0].sign: dark is unknown; "),
    (
        {"cautions": [{"sign": "gap", "at": "day 1 09:00", "settled": "day 2 09:00"}]},
        "cautions[0].settled: a caution is settled only after it was told",
    ),
    (
        {"cautions": [{"sign": "gap", "at": "day 2 09:00", "told": "day 1 09:00"}]},
        "cautions[0].told: is before the sign was seen",
    ),
    (
        {"cautions": [{"sign": "gap", "at": "day 1 09:00", "told": "day 2 09:00", "settled": "day 1 10:00"}]},
        "cautions[0].settled: is before it was told",
    ),
    (
        {"arrangements": [{"code": "number", "state": "done", "at": "day 1 09:00"}]},
        "arrangements[0].state: done is unknown; ",
    ),
    (
        {"arrangements": {"code": "number"}},
        "arrangements: {'code': 'number'} does not fit here; write a list",
    ),
]


@pytest.mark.parametrize(("change", "sentence"), FAULTS)
def test_a_fault(change, sentence):
    with pytest.raises(WrongFile) as wrong:
        read_stay({**HEAD, **change})
    assert any(fault.startswith(sentence) for fault in wrong.value.faults), wrong.value.faults


def test_a_wrong_moment_to_judge_at():
    with pytest.raises(WrongFile) as wrong:
        read_stay(HEAD, "2026-11-01 01:30")
    assert wrong.value.faults[0].startswith("--at: 2026-11-01 01:30 came twice in America/New_York")


def test_an_earlier_moment_refuses_what_had_not_happened():
    with pytest.raises(WrongFile) as wrong:
        read_stay(HEAD, "day 0 11:00")
    assert wrong.value.faults == (
        "kits[0].since: day 0 12:00 lies after the moment judged; correct it, or judge at a later time.",
    )


def test_a_file_without_any_time_says_so():
    with pytest.raises(WrongFile, match="at: nothing in the file has a time"):
        read_stay({"format": HEAD["format"], "version": 1, "ward": "UTC", "stomas": [{"kind": "ileostomy"}]})
