"""The verbs of nurses' skills: who may observe and sign off, what is refused, and that the past stays as it was."""

from dataclasses import replace
from datetime import timedelta
from functools import partial

import pytest
import time_machine

from teaching.models import Account, Practice, SelfRating, SignOff, SkillVersion, StayNow, TrailLine
from teaching.record.nurses import nurse, nurses
from teaching.record.practices import take_back_practice
from teaching.record.refusals import Refused
from teaching.record.sign_offs import sign_off
from teaching.record.skills import publish_skill, publish_skills, rate_oneself, skills_in_force
from teaching.record.staff import accept_certificate, withdraw_sign_off
from tests.bedside.ward import HOUSE, NIGHT, build_ward
from tests.record.conftest import file_database  # noqa: F401
from tests.record.test_races import at_once
from tests.skills import certify, observe, publish, skills_file


@pytest.fixture(autouse=True)
def at_night():
    with time_machine.travel(NIGHT, tick=False):
        yield


@pytest.fixture
def ward(db, at_night):
    return practising(build_ward())


def practising(ward):
    """Amber holds all skills by certificates that the lead accepted; Basil has been observed three times."""
    publish(HOUSE)
    for skill in ("change", "teach-bowel", "teach-urostomy"):
        certify(ward.staff["linden"], ward.staff["amber"], skill)
    for days, level in ((9, "4"), (6, "5"), (2, "5")):
        observe(ward.staff["amber"], ward.staff["basil"], ward.unit, level=level, hours_ago=24 * days)
    return ward


def signs(ward, by="amber", nurse="basil", skill="change"):
    actor = replace(ward.staff[by], proof="password given again")
    return sign_off(actor=actor, nurse=ward.staff[nurse].clinician, skill=skill, unit=ward.unit)


def refused(act, *args, **more):
    with pytest.raises(Refused) as caught:
        act(*args, **more)
    return [sentence for _, sentence in caught.value.faults]


def test_publishing_again_is_no_harm_and_a_published_version_never_changes(ward):
    assert len(publish(HOUSE)) == SkillVersion.objects.count() == 3
    changed = skills_file()["skills"][0] | {"practices": 2}
    assert "never changes; use the next number" in refused(publish_skill, actor=HOUSE, content=changed)[0]
    publish_skill(actor=HOUSE, content=changed | {"number": 2})
    assert next((skill.code, skill.version) for skill in skills_in_force()) == ("change", 2)


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        ({"skill": "chnge"}, "did you mean change?"),
        ({"practices": 0}, "practices must be a whole number from 1 to 20"),
        ({"at_five": 4}, "More practices at 5 are asked for than practices in all"),
        ({"settings": ["simulation", "bench"]}, "simulation alone is never enough"),
        ({"grades": ["nurse"]}, "'nurse' is not known here"),
        ({"rows": []}, "rows to observe"),
        ({"rows": ["dc-off"]}, "A row needs a code and a title"),
        ({"settings": "person"}, "Name at least one of: person"),
        ({"title": "Do a change"}, "A skill has a title in some language"),
        ({"rows": [{"code": "a", "title": {"en": "A"}}] * 2}, "Two rows have the same code"),
    ],
)
def test_a_skill_that_makes_no_sense_is_refused(db, wrong, said):
    assert said in " ".join(refused(publish_skill, actor=HOUSE, content=skills_file()["skills"][0] | wrong))
    assert not SkillVersion.objects.exists()


@pytest.mark.parametrize("content", [[], "skills", {"skills": {}}, {"skills": ["change"]}])
def test_a_file_that_holds_no_skills_is_refused(db, content):
    assert "a list named skills" in refused(publish_skills, actor=HOUSE, content=content)[0]


def test_a_file_is_published_whole_or_not_at_all(db):
    first, second, _ = skills_file()["skills"]
    assert refused(publish_skills, actor=HOUSE, content={"skills": [first, second | {"rows": []}]})
    assert not SkillVersion.objects.exists()


@pytest.mark.parametrize(
    ("by", "whom", "said"),
    [
        ("amber", "amber", "Nobody observes themselves. Ask a colleague who holds the skill."),
        ("basil", "amber", "Only somebody signed off then observes it"),
        ("edda", "basil", "Only somebody signed off then observes it"),
    ],
)
def test_only_a_holder_observes_and_never_themselves(ward, by, whom, said):
    before = Practice.objects.count()
    assert said in refused(observe, ward.staff[by], ward.staff[whom], ward.unit)[0]
    assert Practice.objects.count() == before


def test_the_assessor_lapsed_the_day_before(ward):
    """Held on the day it was seen is what counts, not on the day it is written down."""
    with time_machine.travel(NIGHT + timedelta(days=201), tick=False):
        seen = partial(observe, ward.staff["amber"], ward.staff["basil"], ward.unit)
        assert "signed off then" in refused(seen)[0]
        assert seen(hours_ago=30).nurse == ward.staff["basil"].clinician
        assert "you are not signed off now" in refused(signs, ward)[0]


@pytest.mark.parametrize(
    ("wrong", "field", "said"),
    [
        ({"dc_off": "6"}, "dc-off", "'6' is not known here"),
        ({"dc_of": "5"}, "dc-of", "is not a row of version 1"),
        ({"level": "X"}, "", "Nothing was observed"),
        ({"setting": "online"}, "setting", "'online' is not known here"),
        ({"hours_ago": -3}, "at", "still to come"),
    ],
)
def test_a_practice_that_makes_no_sense_is_refused_beside_its_row(ward, wrong, field, said):
    with pytest.raises(Refused) as caught:
        observe(ward.staff["amber"], ward.staff["basil"], ward.unit, **wrong)
    assert [(fault.field, said in fault.sentence) for fault in caught.value.faults] == [(field, True)]


def test_a_sign_off_lasts_to_the_end_of_the_day_a_year_on(ward):
    made = signs(ward)
    assert (made.number, made.kind, made.valid_from) == (1, "granted", NIGHT)
    assert made.valid_until.isoformat() == "2027-05-13T22:59:59.999999+00:00"  # British Summer Time
    assert made.practice.number == 3 and made.skill_version.number == 1


def test_not_before_what_is_required_was_seen(ward):
    said = refused(signs, ward, skill="teach-bowel")
    assert said == ["Observed practices: 0 of 3."]
    assert not SignOff.objects.filter(nurse=ward.staff["basil"].clinician).exists()


def test_never_for_oneself_and_only_by_a_holder(ward):
    assert refused(signs, ward, by="basil") == ["Nobody signs for themselves. Ask a colleague who holds the skill."]
    assert "Only a holder signs it off" in refused(signs, ward, by="edda")[0]


def test_a_bare_sign_in_is_not_enough_proof(ward):
    basil = ward.staff["basil"].clinician
    bare = partial(sign_off, actor=ward.staff["amber"], nurse=basil, skill="change", unit=ward.unit)
    assert "fresh proof" in refused(bare)[0]


def test_signed_again_at_once_there_is_nothing_new_to_sign(ward):
    signs(ward)
    assert refused(signs, ward) == ["Observed practices: 0 of 1."]


def test_two_sign_offs_at_once_one_wins(file_database):  # noqa: F811
    ward = practising(build_ward())
    certify(ward.staff["linden"], ward.staff["edda"])
    found = at_once(*(partial(signs, ward, by=by) for by in ("amber", "edda")))
    assert sorted(isinstance(one, Refused) for one in found) == [False, True], found
    assert SignOff.objects.filter(nurse=ward.staff["basil"].clinician).count() == 1


def test_whoever_waited_for_the_lock_sees_what_was_signed_meanwhile(ward, monkeypatch):
    certify(ward.staff["linden"], ward.staff["edda"])
    before_us = [partial(signs, ward, by="edda")]
    monkeypatch.setattr(
        "teaching.record.sign_offs.one_at_a_time", lambda *words: before_us.pop()() if before_us else None
    )
    with time_machine.travel(NIGHT, tick=True):
        assert refused(signs, ward) == ["Observed practices: 0 of 1."]
    assert SignOff.objects.filter(nurse=ward.staff["basil"].clinician).count() == 0 and not before_us


def test_a_practice_taken_back_counts_no_more_and_stays_to_be_read(ward):
    last = Practice.objects.order_by("-number").first()
    assert "Only whoever recorded" in refused(
        take_back_practice, actor=ward.staff["linden"], practice=last, words="Wrong nurse."
    )[0]
    take_back_practice(actor=ward.staff["amber"], practice=last, words="Wrong nurse.")
    assert refused(signs, ward) == ["Observed practices: 2 of 3."]
    assert [each.taken_back for each in nurse(ward.staff["basil"].clinician.pk).practices] == [False, False, True]
    again = refused(take_back_practice, actor=ward.staff["amber"], practice=last, words="Again.")
    assert again == ["This practice is taken back already."]


def test_a_withdrawal_leaves_what_was_signed_until_then_as_it_was(ward):
    """A session keeps the sign-off it leaned on; one after the withdrawal leans on nothing."""
    stay = ward.stay()
    stoma = ward.stoma(stay)
    before = ward.teach(stay, stoma, 3, by="amber")
    leaned, revision = before.sign_off, StayNow.objects.get(stay=stay).revision
    assert leaned.skill == "teach-bowel"
    withdraw_sign_off(
        actor=ward.staff["linden"], nurse=ward.staff["amber"].clinician, skill="teach-bowel", reason="Asked for it."
    )
    assert Account.objects.get(pk=before.pk).sign_off == leaned
    assert StayNow.objects.get(stay=stay).revision == revision + 1
    with time_machine.travel(NIGHT + timedelta(hours=5), tick=False):
        after = ward.teach(stay, stoma, -4, by="amber")
        assert after.sign_off is None
        late_entry = ward.teach(stay, stoma, 1, by="amber")
        assert late_entry.sign_off == leaned, "judged at the time of the session, not of writing"


def test_a_new_sign_off_moves_the_revision_of_the_stays_they_taught(ward):
    stay, elsewhere = ward.stay(), ward.stay("Bo", "Fen", "A2")
    ward.teach(stay, ward.stoma(stay), 3, by="basil")
    before = {each.stay_id: each.revision for each in StayNow.objects.all()}
    signs(ward)
    after = {each.stay_id: each.revision for each in StayNow.objects.all()}
    assert after == before | {stay.pk: before[stay.pk] + 1} and elsewhere.pk in after


def test_the_first_week_nobody_holds_it_until_the_lead_accepts_a_certificate(db, at_night):
    ward = build_ward()
    publish(HOUSE)
    first = partial(observe, ward.staff["amber"], ward.staff["basil"], ward.unit)
    assert "Only somebody signed off then" in refused(first)[0]
    own = partial(accept_certificate, skill="change", certificate="School", unit=ward.unit, valid_from=NIGHT,
                  valid_until=NIGHT + timedelta(days=90))  # fmt: skip
    linden = ward.staff["linden"]
    assert "Nobody signs for themselves" in refused(own, actor=linden, nurse=linden.clinician)[0]
    certify(linden, ward.staff["amber"])
    assert first().assessor == ward.staff["amber"].clinician


@pytest.mark.parametrize(("days_left", "cut"), [(199, True), (200, False)])
def test_a_certificate_never_cuts_a_running_sign_off_short(ward, days_left, cut):
    """Amber holds it for 200 more days: an older certificate with a later number would end that."""
    accept = partial(certify, ward.staff["linden"], ward.staff["amber"], days_left=days_left)
    if cut:
        assert refused(accept) == [
            "It ends before 29 Nov 2026, when this nurse's sign-off does, and would cut it short."
        ]
    else:
        assert accept().number == 2


def test_last_taught_and_last_done_follow_what_still_stands(ward):
    stay = ward.stay()
    bowel = ward.stoma(stay)
    ward.teach(stay, bowel, 20, by="basil")
    assert nurse(ward.staff["basil"].clinician.pk).taught == {"teach-bowel": NIGHT - timedelta(hours=20)}
    assert nurse(ward.staff["amber"].clinician.pk).taught == {}


def test_how_sure_one_feels_is_kept_by_its_newest_word(ward):
    for confidence in (2, 5):
        rate_oneself(actor=ward.staff["basil"], skill="change", confidence=confidence)
    assert SelfRating.objects.count() == 2
    assert [each.confidence for each in nurse(ward.staff["basil"].clinician.pk).self_ratings] == [5]
    for wrong in (0, 7, "3"):
        assert refused(rate_oneself, actor=ward.staff["basil"], skill="change", confidence=wrong) == [
            "Tap a number from 1 to 6."
        ]


def test_each_verb_leaves_one_trail_line_that_names_rows_alone(ward):
    signs(ward)
    line = TrailLine.objects.order_by("-pk").first()
    assert (line.verb, line.outcome, line.stay) == ("sign_off", "done", "")
    assert str(SignOff.objects.order_by("-pk").first().uid) in line.object


@pytest.mark.parametrize("staff", [1, 4])
def test_all_facts_of_nurses_take_the_same_queries(ward, staff, assert_selects):
    keys = sorted(actor.clinician.pk for actor in list(ward.staff.values())[:staff])
    with assert_selects(5):
        nurses(keys)
