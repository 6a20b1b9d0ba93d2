"""After signing: corrected, added to, taken back. What counts follows at once; nothing is lost.

Marked as such for good, dated, with author and reason, the original left readable: CMS Program Integrity Manual ch. 3.
"""

from dataclasses import replace
from datetime import timedelta

import pytest
import time_machine

from teaching.models import Account, Paper, StayNow
from teaching.record.accounts import content_of, sha256_of
from teaching.record.charts import chart_for
from teaching.record.corrections import add_addendum, correct_account, papers_leaning_on, retract_account
from teaching.record.entries import CareEntry, FindingEntry, RatingEntry, SessionEntry
from teaching.record.figures import board
from teaching.record.refusals import Refused
from teaching.record.sessions import cosign, record_care
from teaching.record.staff import grant_role, register_clinician
from teaching.record.writing import Superseded
from tests.bedside.ward import EMPTYING, HOUSE, NIGHT, build_ward

PROOF = "password given again"


@pytest.fixture(autouse=True)
def at_night():
    with time_machine.travel(NIGHT, tick=False):
        yield


@pytest.fixture
def ward(db, at_night):
    found = build_ward()
    found.staff = {name: replace(actor, proof=PROOF) for name, actor in found.staff.items()}
    return found


@pytest.fixture
def ada(ward):
    return ward.stay()


@pytest.fixture
def stoma(ward, ada):
    return ward.stoma(ada)


def told(account, levels="04", codes=EMPTYING, **more):
    """What a correction of this session says: the same but for what is given."""
    person = account.stay.learners.get(kind="person")
    rated = tuple(RatingEntry(learner=person, code=code, answer=levels) for code in codes)
    said = {
        "stay": account.stay, "stoma": account.event.stoma, "procedure": account.event.procedure,
        "began_at": account.began_at, "ratings": rated, "role": account.role,
    }  # fmt: skip
    return SessionEntry(**said | more)


def correct(ward, account, by="amber", reason="Tapped the wrong level.", **more):
    return correct_account(actor=ward.staff[by], account=account, entry=told(account, **more), reason=reason)


def retract(ward, account, by="amber", reason="Wrong person.", **more):
    return retract_account(actor=ward.staff[by], account=account, reason=reason, **more)


def answers(stay, as_known_at=None):
    return sorted({rating.answer for rating in chart_for(stay, as_known_at).ratings})


def sentence_of(act):
    before = (Account.objects.count(), StayNow.objects.get().revision)
    with pytest.raises(Refused) as refused:
        act()
    assert (Account.objects.count(), StayNow.objects.get().revision) == before
    return " ".join(fault.sentence for fault in refused.value.faults)


def test_a_correction_is_a_whole_new_account_and_the_only_one_that_counts(ward, ada, stoma):
    first = ward.teach(ada, stoma, 6)
    made = correct(ward, first)
    assert (made.number, made.kind, made.replaces, made.event) == (2, "correction", first, first.event)
    assert (made.reason, made.proof, made.rater) == ("Tapped the wrong level.", PROOF, first.rater)
    assert sorted(made.ratings.values_list("code", "answer")) == sorted((code, "04") for code in EMPTYING)
    assert set(first.ratings.values_list("answer", flat=True)) == {"06"}
    assert answers(ada) == ["04"]
    assert made.content_sha256 == sha256_of(content_of(Account.objects.get(pk=made.pk)))


def test_the_board_shows_the_new_standing_at_once(ward, ada, stoma):
    ward.teach(ada, stoma, 30)
    second = ward.teach(ada, stoma, 6)
    assert board(ward.unit, NIGHT)[0].standing == "Emptying: alone."
    correct(ward, second)
    assert board(ward.unit, NIGHT)[0].standing != "Emptying: alone."
    retract(ward, Account.objects.get(kind="correction"))
    assert board(ward.unit, NIGHT)[0].standing.startswith("Emptying: shown once")


def test_a_finding_is_corrected_with_it_and_a_size_not_repeated_is_gone(ward, ada, stoma):
    first = ward.teach(ada, stoma, 6)
    correct(ward, first, levels="06", finding=FindingEntry(colour="pink-red"))
    assert [finding.colour for finding in chart_for(ada).findings] == ["pink-red"]
    second = Account.objects.get(kind="correction")
    correct(ward, second, levels="06")
    assert chart_for(ada).findings == ()


def test_a_time_is_corrected_and_the_event_stays_the_same(ward, ada, stoma):
    first = ward.teach(ada, stoma, 6)
    made = correct(ward, first, levels="06", began_at=NIGHT - timedelta(hours=3))
    assert made.event == first.event
    assert {rating.at for rating in chart_for(ada).ratings} == {NIGHT - timedelta(hours=3)}


def test_care_given_is_corrected_too(ward, ada, stoma):
    amber, at = ward.staff["amber"], NIGHT - timedelta(hours=2)
    care = record_care(actor=amber, entry=CareEntry(stay=ada, stoma=stoma, procedure="change", at=at))
    entry = CareEntry(stay=ada, stoma=stoma, procedure="change", at=at, finding=FindingEntry(wear_end="leak"))
    correct_account(actor=amber, account=care, entry=entry, reason="It had leaked.")
    assert [one.wear_end for one in chart_for(ada).care] == ["leak"]


def test_a_session_keeps_the_checklist_it_was_recorded_by(ward, ada, stoma):
    from tests.record.test_races import next_version

    first = ward.teach(ada, stoma, 6)
    next_version(ward)
    made = correct(ward, first)
    assert {rating.row.version_id for rating in made.ratings.select_related("row")} == {first.event.checklist_id}


REFUSED = {
    "another's": ({"by": "basil"}, "Only the nurse who wrote an entry corrects it. Add a note beside it"),
    "no reason": ({"reason": "  "}, "What was wrong is missing; write it."),
    "a long reason": ({"reason": "x" * 301}, "shorten it to 300"),
    "nothing different": ({"levels": "06"}, "Nothing is different from what stands."),
    "nothing rated": ({"codes": ()}, "Nothing is rated."),
    "a time to come": ({"began_at": NIGHT + timedelta(hours=1)}, "This time is still to come."),
    "an unknown answer": ({"levels": "09"}, "09 is never stored"),
    "another way of signing": ({"role": "paired"}, "A correction keeps how the entry was signed."),
}


@pytest.mark.parametrize("name", REFUSED)
def test_a_correction_refused_changes_nothing_and_says_the_mend(ward, ada, stoma, name):
    more, sentence = REFUSED[name]
    first = ward.teach(ada, stoma, 6)
    assert sentence in sentence_of(lambda: correct(ward, first, **more))
    assert answers(ada) == ["06"]


def test_an_entry_for_the_other_stoma_is_not_a_correction(ward, ada, stoma):
    first, other = ward.teach(ada, stoma, 6), ward.stoma(ada, "colostomy", "left")
    assert "for another stoma or procedure" in sentence_of(lambda: correct(ward, first, stoma=other))


@pytest.mark.parametrize("verb", [correct, retract])
def test_without_fresh_proof_it_is_refused(ward, ada, stoma, verb):
    first = ward.teach(ada, stoma, 6)
    ward.staff["amber"] = replace(ward.staff["amber"], proof="")
    assert "fresh proof" in sentence_of(lambda: verb(ward, first))


@pytest.mark.parametrize("verb", [correct, retract])
def test_the_loser_of_a_race_is_told_and_stores_nothing(ward, ada, stoma, verb):
    first = ward.teach(ada, stoma, 6)
    correct(ward, first)
    with pytest.raises(Superseded, match="Look at what stands now"):
        verb(ward, first)
    assert Account.objects.count() == 2


def test_a_note_counts_for_nothing_and_any_nurse_may_add_one(ward, ada, stoma):
    first = ward.teach(ada, stoma, 6)
    before = StayNow.objects.get().revision
    made = add_addendum(actor=ward.staff["basil"], account=first, words="Her daughter watched.")
    add_addendum(actor=ward.staff["basil"], account=first, words="And asked for a leaflet.")
    assert (made.kind, made.reason, made.number, made.replaces) == ("addendum", "Her daughter watched.", 1, first)
    assert made.rater.details.get().name == "Basil Thorne"
    assert answers(ada) == ["06"]
    assert StayNow.objects.get().revision == before
    assert made.content_sha256 == sha256_of(content_of(Account.objects.get(pk=made.pk)))
    assert "note is missing" in sentence_of(lambda: add_addendum(actor=ward.staff["amber"], account=first, words=" "))


def test_a_note_hinders_no_correction(ward, ada, stoma):
    first = ward.teach(ada, stoma, 6)
    add_addendum(actor=ward.staff["amber"], account=first, words="She was cold.")
    assert correct(ward, first).number == 3
    assert answers(ada) == ["04"]


def test_what_was_entered_in_error_counts_no_more_and_stays_readable(ward, ada, stoma):
    first = ward.teach(ada, stoma, 6)
    made = retract(ward, first)
    assert (made.number, made.kind, made.reason, made.ratings.count()) == (2, "retraction", "Wrong person.", 0)
    assert chart_for(ada).ratings == ()
    assert first.ratings.count() == len(EMPTYING)
    assert "already marked" in sentence_of(lambda: retract(ward, made))
    assert "Record what happened anew" in sentence_of(lambda: correct(ward, made))


def test_another_nurse_takes_nothing_back_and_a_stoma_nurse_may(ward, ada, stoma):
    first = ward.teach(ada, stoma, 6)
    assert "or a stoma nurse" in sentence_of(lambda: retract(ward, first, by="basil"))
    sorrel = register_clinician(actor=HOUSE, name="Sorrel Vane", grade="stoma-nurse")
    grant_role(actor=HOUSE, clinician=sorrel, role="stoma-nurse", unit=None)
    made = retract_account(
        actor=replace(HOUSE, clinician=sorrel, user=ward.user("basil"), proof=PROOF), account=first, reason="Bo's."
    )
    assert (made.rater, made.by, made.rater_grade) == (first.rater, sorrel, "registered")
    assert chart_for(ada).ratings == ()
    assert content_of(made)["signed_by"] == str(sorrel.uid)
    assert made.content_sha256 == sha256_of(content_of(Account.objects.get(pk=made.pk)))


def test_a_retraction_says_why(ward, ada, stoma):
    first = ward.teach(ada, stoma, 6)
    assert "What went wrong is missing" in sentence_of(lambda: retract(ward, first, reason=""))


def signed_readiness(ward, stay, account):
    by = ward.staff["basil"].clinician
    return Paper.objects.create(
        stay=stay, by=by, kind="readiness", content={"evidence": [{"event": str(account.event.uid)}]},
        content_sha256="0" * 64, revision=StayNow.objects.get(stay=stay).revision, policy_version="made up",
        code_version="made up", signed_by=by, signed_at=NIGHT, meaning="Made up.", proof="made up",
    )  # fmt: skip


def test_taking_back_what_a_signed_readiness_record_leans_on_asks_first_and_loses_nothing(ward, ada, stoma):
    first, other = ward.teach(ada, stoma, 6), ward.teach(ada, stoma, 12)
    paper = signed_readiness(ward, ada, first)
    before = (paper.content, paper.content_sha256)
    said = sentence_of(lambda: retract(ward, first))
    assert said.startswith("A signed readiness record leans on this entry. What was signed stays as it is")
    retract(ward, first, aware=True)
    paper.refresh_from_db()
    assert (paper.content, paper.content_sha256) == before
    assert paper.revision != StayNow.objects.get(stay=ada).revision  # so it says that the record changed since
    assert papers_leaning_on(other.event) == []
    assert retract(ward, other).kind == "retraction"


def test_a_students_corrected_entry_waits_for_a_co_signature_again(ward, ada, stoma):
    first = ward.teach(ada, stoma, 6, by="tansy")
    cosign(actor=ward.staff["amber"], account=first)
    assert {rating.witness.cosigned_by for rating in chart_for(ada).ratings} == {"registered"}
    made = correct(ward, first, by="tansy")
    assert {rating.witness.cosigned_by for rating in chart_for(ada).ratings} == {""}
    with pytest.raises(Refused, match="already co-signed"):
        cosign(actor=ward.staff["amber"], account=first)
    cosign(actor=ward.staff["amber"], account=made)
    assert {rating.witness.cosigned_by for rating in chart_for(ada).ratings} == {"registered"}


def test_what_was_corrected_is_not_co_signed_in_its_old_words(ward, ada, stoma):
    first = ward.teach(ada, stoma, 6, by="tansy")
    correct(ward, first, by="tansy")
    with pytest.raises(Superseded, match="corrected meanwhile"):
        cosign(actor=ward.staff["amber"], account=first)
