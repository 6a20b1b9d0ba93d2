"""A signed session on screen: every version readable; corrected, noted, entered in error, co-signed, rated beside."""

import uuid
from dataclasses import replace
from datetime import timedelta

import pytest
import time_machine
from django.urls import reverse

from teaching.models import Account
from teaching.record.charts import chart_for
from teaching.record.checklists import publish_checklist
from teaching.record.corrections import retract_account
from teaching.record.entries import CareEntry, FindingEntry
from teaching.record.kept_papers import keep_paper
from teaching.record.places import change_unit
from teaching.record.sessions import record_care
from teaching.record.staff import register_clinician
from tests.bedside.reading import words
from tests.bedside.ward import HOUSE, NIGHT, PASSWORD, checklist_file

HOUR = timedelta(hours=1)
BUDGET = 22


@pytest.fixture
def account(ward, ada, stoma):
    return ward.teach(ada, stoma, 3, ["06", "03", None, None, None])


@pytest.fixture
def read(signed_in, account):
    return lambda name="amber": words(signed_in(name).get(reverse("session", args=[account.event.uid])))


@pytest.fixture
def act(signed_in, account):
    """act("add-note", words="...") posts one act about the account."""

    def post(name, by="amber", about=None, **fields):
        address = reverse(name, args=[(about or account).uid])
        return signed_in(by).post(address, {"form_key": str(uuid.uuid4()), **fields})

    return post


def corrected(act, account, **more):
    """Amber's session told anew: the second row 04 and not 03."""
    person = account.ratings.first().learner.uid
    said = {
        "which": f"{account.event.stoma.uid}:{person}", "ratings.em-when": "06", "ratings.em-open": "04",
        "began_at_0": "2026-05-12T23:14", "reason": "read the wrong line", "password": PASSWORD,
    }  # fmt: skip
    return act("correct-account", **said | more)


def answers(stay):
    return {rating.code: rating.answer for rating in chart_for(stay).ratings}


def test_it_says_who_signed_what_when_and_that_it_stands(read):
    told = read()
    assert "Original Amber Oakley, registered nurse, signed today 02:14. It happened yesterday 23:14. Stands." in told
    assert "03 A nurse did less than half of the work" in told


def test_late_says_so_for_good(ward, read, ada, stoma):
    assert "Late entry, written 3 h after." in read()


def test_a_correction_counts_at_once_and_the_first_stays_readable(act, account, ada, read):
    answer = corrected(act, account)
    assert (answer.status_code, answer.url) == (303, reverse("session", args=[account.event.uid]))
    assert answers(ada) == {"em-when": "06", "em-open": "04"}
    told = read()
    assert "Replaced by a later version." in told
    assert "Correction" in told and "read the wrong line" in told
    assert "03 A nurse did less than half of the work" in told


def test_a_correction_needs_the_password_and_why(act, account, ada):
    answer = corrected(act, account, password="wrong", reason="")
    assert answer.status_code == 422
    assert "This is not your password" in words(answer)
    assert "Write in a few words what was wrong." in words(answer)
    assert answers(ada)["em-open"] == "03"


def test_nobody_corrects_another_nurses_entry(signed_in, account):
    client = signed_in("basil")
    assert client.get(reverse("correct-account", args=[account.uid])).status_code == 403
    assert "Correct this" not in words(client.get(reverse("session", args=[account.event.uid])))


def test_a_second_correction_of_what_no_longer_stands_is_409(act, account, ada):
    assert corrected(act, account).status_code == 303
    answer = corrected(act, account, **{"ratings.em-open": "05"})
    assert answer.status_code == 409
    assert "changed meanwhile" in words(answer)
    assert answers(ada)["em-open"] == "04"


def test_a_note_changes_nothing_that_counts(act, account, ada, read):
    before = answers(ada)
    assert act("add-note", by="basil", words="She asked for the mirror").status_code == 303
    assert answers(ada) == before
    assert "She asked for the mirror" in read()


def test_entered_in_error_counts_no_more_and_stays_readable(act, account, ada, read):
    assert act("entered-in-error", reason="another person", password=PASSWORD).status_code == 303
    assert answers(ada) == {}
    told = read()
    assert "Entered in error: it does not count." in told
    assert "another person" in told


def test_a_signed_readiness_record_that_leans_on_it_is_said_first(ward, act, account, ada):
    keep_paper(
        actor=replace(ward.staff["amber"], proof="password given again"), stay=ada, kind="readiness",
        content={"events": [str(account.event.uid)]}, pdf=b"%PDF", revision=chart_for(ada).revision,
        policy_version="0" * 12, meaning="This is what the record shows.",
    )  # fmt: skip
    answer = act("entered-in-error", reason="another person", password=PASSWORD)
    assert answer.status_code == 422
    assert "A signed readiness record leans on this entry" in words(answer)
    assert answers(ada)
    assert act("entered-in-error", reason="another person", aware="on", password=PASSWORD).status_code == 303
    assert answers(ada) == {}


def test_a_students_entry_waits_and_counts_once_co_signed(ward, act, signed_in, ada, stoma):
    made = ward.teach(ada, stoma, 2, "06", by="tansy")
    waiting = reverse("waiting", args=[ward.unit.uid])
    assert "Tansy Reed" in words(signed_in("amber").get(waiting))
    assert act("cosign", about=made).status_code == 303
    assert "None waits now." in words(signed_in("amber").get(waiting))
    students = [one.witness.cosigned_by for one in chart_for(ada).ratings if one.witness.grade == "student"]
    assert set(students) == {"registered"}


def test_nobody_co_signs_their_own(ward, signed_in, ada, stoma):
    made = ward.teach(ada, stoma, 2, "06", by="tansy")
    assert signed_in("tansy").get(reverse("cosign", args=[made.uid])).status_code == 403


def test_rated_beside_without_seeing_the_first(act, account, ada, signed_in):
    page = words(signed_in("basil").get(reverse("rate-beside", args=[account.uid])))
    assert "last yesterday 23:14" not in page
    person = account.ratings.first().learner.uid
    said = {"which": f"{account.event.stoma.uid}:{person}", "ratings.em-open": "05", "began_at_0": "2026-05-12T23:14"}
    assert act("rate-beside", by="basil", **said).status_code == 303
    assert set(Account.objects.values_list("role", flat=True)) == {"taught", "paired"}


@pytest.mark.parametrize("versions", [1, 3])
def test_queries_do_not_grow_with_versions(act, account, signed_in, assert_selects, versions):
    for number in range(versions):
        act("add-note", words=f"note {number}")
    client = signed_in("amber")
    client.get(reverse("session", args=[account.event.uid]))
    with assert_selects(BUDGET):
        client.get(reverse("session", args=[account.event.uid]))


def test_the_person_page_leads_to_it(signed_in, account, ada):
    page = signed_in("amber").get(reverse("person", args=[ada.uid]))
    assert reverse("session", args=[account.event.uid]) in page.content.decode()


def test_another_wards_nurse_does_not_see_it(signed_in, account):
    with time_machine.travel(NIGHT + HOUR, tick=False):
        assert signed_in("wilma").get(reverse("session", args=[account.event.uid])).status_code == 404


def test_a_worrying_finding_that_only_the_correction_says_is_a_caution_at_once(act, account, ada):
    assert corrected(act, account, **{"finding.colour": "dark"}).status_code == 303
    assert ada.cautions.get().sign == "dark-stoma"


def test_what_was_seen_is_read_in_full(act, account, read):
    corrected(act, account, **{"finding.colour": "pink-red", "skin.feet": "wet-raw"})
    told = read()
    assert "Colour of the stoma: pink or red" in told
    assert "Skin towards the feet: wet or raw" in told


def test_the_page_and_the_board_follow_at_once(ward, act, ada, stoma, signed_in):
    act("entered-in-error", reason="Never happened.", password=PASSWORD)  # what every test here begins with
    ward.teach(ada, stoma, 30)
    second = ward.teach(ada, stoma, 6)
    shift, page = reverse("this-shift", args=[ward.unit.uid]), reverse("person", args=[ada.uid])

    def stands():
        client = signed_in("amber")
        needed = [one.said for part in client.get(page).context["page"].needed for one in part.procedures]
        return client.get(shift).context["page"].strips[0].line.standing, needed

    alone = stands()
    person = ada.learners.get(kind="person").uid
    said = {"which": f"{stoma.uid}:{person}", "began_at_0": "2026-05-12T20:14", "reason": "Wrong row.", "alone": "on"}
    act("correct-account", about=second, password=PASSWORD, **said, **{"ratings.em-close": "03"})
    helped = stands()
    act("entered-in-error", about=Account.objects.get(kind="correction"), reason="Bo's.", password=PASSWORD)
    once = stands()
    assert alone[0] == "Emptying: alone."
    assert "alone." not in helped[0]
    assert once[0].startswith("Emptying: shown once")
    assert len({str(alone[1]), str(helped[1]), str(once[1])}) == 3


def test_what_was_entered_in_error_stays_within_reach(act, account, ada, signed_in):
    act("entered-in-error", reason="another person", password=PASSWORD)
    page = signed_in("basil").get(reverse("person", args=[ada.uid]))
    assert "Emptying: entered in error, says Amber Oakley. It does not count." in words(page)
    assert reverse("session", args=[account.event.uid]) in page.content.decode()


def test_a_stoma_nurses_taking_back_carries_her_own_name(ward, act, account, read):
    sorrel = register_clinician(actor=HOUSE, name="Sorrel Vane", grade="stoma-nurse")
    actor = replace(HOUSE, clinician=sorrel, proof="made up")
    retract_account(actor=actor, account=account, reason="Bo's.")
    told = read()
    assert "Entered in error Sorrel Vane, signed today 02:14. " in told
    assert "It takes back what Amber Oakley signed." in told


def test_who_co_signed_and_when_is_said(ward, act, signed_in, ada, stoma):
    made = ward.teach(ada, stoma, 2, "06", by="tansy")
    address = reverse("session", args=[made.event.uid])
    assert "Waits for a registered nurse to co-sign." in words(signed_in("basil").get(address))
    act("cosign", about=made, by="basil")
    assert "Co-signed today 02:14 by Basil Thorne, registered nurse." in words(signed_in("amber").get(address))


def test_the_shift_leads_a_nurse_to_what_waits_for_her_and_nobody_else(ward, ada, stoma, signed_in):
    shift = reverse("this-shift", args=[ward.unit.uid])
    assert "for a co-signature" not in words(signed_in("amber").get(shift))
    ward.teach(ada, stoma, 2, "06", by="tansy")
    assert "1 student's entry waits for a co-signature" in words(signed_in("amber").get(shift))
    assert "for a co-signature" not in words(signed_in("tansy").get(shift))


def test_a_time_left_as_it_stood_keeps_its_seconds(ward, act, ada, stoma):
    with time_machine.travel(NIGHT + timedelta(seconds=33), tick=False):
        ward.now = NIGHT + timedelta(seconds=33)
        made = ward.teach(ada, stoma, 3, ["06", "03", None, None, None])
        assert corrected(act, made, about=made).status_code == 303
    assert Account.objects.get(kind="correction").began_at == made.began_at


def test_a_session_is_corrected_by_the_checklist_it_was_recorded_by(ward, act, account):
    content = checklist_file()
    rows = [row for row in content["rows"] if row["code"] != "em-open"]
    version = publish_checklist(actor=HOUSE, content=content | {"number": 2, "rows": rows})
    change_unit(actor=ward.staff["linden"], unit=ward.unit, checklist=version)
    assert corrected(act, account).status_code == 303


@pytest.fixture
def leak(ward, ada, stoma):
    at = NIGHT - timedelta(hours=1)
    entry = CareEntry(stay=ada, stoma=stoma, procedure="change", at=at, finding=FindingEntry(wear_end="planned"))
    return record_care(actor=ward.staff["amber"], entry=entry)


def test_care_given_is_corrected_from_what_it_said(act, leak, ada, signed_in, stoma):
    form = signed_in("amber").get(reverse("correct-account", args=[leak.uid])).context["form"]
    assert (form["which"].value(), form["what"].value()) == (str(stoma.uid), "changed")
    said = {"which": str(stoma.uid), "what": "leak", "leak_track": "feet", "at_0": "2026-05-13T01:14"}
    answer = act("correct-account", about=leak, **said, reason="It had leaked.", password=PASSWORD)
    assert answer.status_code == 303
    assert [(one.wear_end, one.at) for one in chart_for(ada).care] == [("leak", leak.began_at)]


def test_the_password_is_not_asked_for_twice_in_a_quarter_of_an_hour(act, account, signed_in):
    client, address = signed_in("amber"), reverse("entered-in-error", args=[account.uid])
    assert "Your password again" in words(client.get(address))
    body = {"form_key": str(uuid.uuid4()), "password": PASSWORD}
    answer = client.post(address, body)
    assert answer.status_code == 422
    assert "Your password again" not in words(answer)
    assert PASSWORD not in answer.content.decode()
    assert "You sign as Amber Oakley, registered nurse." in words(answer)
    answer = client.post(address, body | {"reason": "another person", "password": ""})
    assert answer.status_code == 303
    assert Account.objects.get(kind="retraction").proof == "password given within 15 minutes"


def test_enter_in_a_field_of_a_correction_signs_nothing(act, account):
    answer = corrected(act, account, saw="yes")
    assert (answer.status_code, Account.objects.count()) == (200, 1)
    assert answer.context["form"]["ratings.em-open"].value() == "04"
    assert "Save what you saw" not in words(answer)
