"""What is wrong in a whole record is named with its place and its mend, and nothing of it is stored."""

import json
from copy import deepcopy
from uuid import uuid4

import pytest
from django.core.management import CommandError, call_command

from teaching.models import Account, Clinician, ImportOrigin, Person, SignOff, Stay, TrailLine, User
from teaching.record import staff
from teaching.record.accounts import sha256_of
from teaching.record.checking import Faults
from teaching.record.refusals import Refused
from teaching.record.whole_checks import check_sign_offs
from teaching.record.whole_in import take_in_stay
from teaching.record.whole_tables import tables
from tests.bedside.ward import HOUSE


def first_signed_off(told):
    return next(index for index, row in enumerate(told["account"]) if row["sign_off"])


def without(told, name):
    del told[name]


def other_uid(told):
    told["rating"][1]["uid"] = told["rating"][0]["uid"]


def stranger(told):
    told["account"][0]["rater"] = str(uuid4())


def lent_sign_off(told):
    """An account that leans on the sign-off of another nurse."""
    leaned = told["sign_offs"][0]
    told["account"][others(told)]["sign_off"] = leaned["uid"]


def others(told):
    return next(index for index, row in enumerate(told["account"]) if row["rater"] != told["sign_offs"][0]["nurse"])


def set_to(path, value):
    def change(told):
        *way, last = path
        for step in way:
            told = told[step]
        told[last] = value

    return change


@pytest.mark.parametrize(
    ("change", "field", "sentence"),
    [
        (set_to(["format"], "something else"), "format", "This is not a whole record"),
        (set_to(["version"], 2), "version", "This house reads version 1"),
        (set_to(["x_rays"], []), "x_rays", "no such table"),
        (lambda told: without(told, "rating"), "rating", "must be a list of rows"),
        (lambda told: without(told, "stay"), "stay", "This part is missing"),
        (set_to(["stay_event"], []), "stay_event", "No stay is without one"),
        (set_to(["stay", "uid"], "17"), "stay.uid", "is not a uid"),
        (set_to(["stay", "revision"], 0), "stay.revision", "a whole number from 1 up"),
        (set_to(["rating", 0, "mood"], "low"), "rating[0].mood", "no such column"),
        (lambda told: without(told["rating"][0], "answer"), "rating[0].answer", "is missing"),
        (lambda told: without(told["rating"][0], "uid"), "rating[0].uid", "is missing"),
        (set_to(["rating", 0, "answer"], "11"), "rating[0].answer", "'11' is not known here; use one of: 06"),
        (set_to(["rating", 0, "practice"], "no"), "rating[0].practice", "must be true or false"),
        (set_to(["rating", 0, "note"], "x" * 301), "rating[0].note", "301 characters long; it holds 300"),
        (set_to(["rating", 0, "learner"], None), "rating[0].learner", "names nobody and nothing"),
        (other_uid, "rating[0]", "The same uid stands twice"),
        (set_to(["kit", 0, "happened_at"], "yesterday"), "kit[0].happened_at", "'yesterday' makes no sense here"),
        (set_to(["kit", 0, "happened_at"], "2026-05-11T10:00:00"), "kit[0].happened_at", "has no offset from UTC"),
        (set_to(["kit", 0, "recorded_at"], "2126-05-11T10:00:00Z"), "kit[0].recorded_at", "is still to come"),
        (set_to(["kit", 0, "cut_limit_mm"], 60), "kit[0].cut_limit_mm", "must be text in quotation marks"),
        (stranger, "account[0].rater", "does not stand in clinicians of this file"),
        (set_to(["clinicians", 0, "grade"], "surgeon"), "clinicians[0].grade", "is not known here"),
        (set_to(["sign_offs"], []), "account[{signed}].sign_off", "does not stand in sign_offs of this file"),
        (lent_sign_off, "account[{others}].sign_off", "does not fit this account"),
        (set_to(["rating", 0, "note"], "changed on the way"), "account[", "What was signed is not what stands here"),
        (set_to(["checklists", "stoma-care 1", "sha256"], "0"), "checklists.stoma-care 1.sha256", "does not match"),
    ],
)
def test_a_fault_is_named_with_its_place_and_nothing_is_stored(
    files, other_house, change, field, sentence
):
    actor, unit = other_house
    told = deepcopy(files["Meadowsweet"][0])
    places = {"signed": first_signed_off(told)} if "{signed}" in field else {}
    if "{others}" in field:
        places["others"] = others(told)
    change(told)
    before = [model.objects.count() for model in (Stay, Person, Clinician, SignOff, TrailLine)]
    with pytest.raises(Refused) as refused:
        take_in_stay(actor=actor, told=told, file_sha256="0" * 64, unit=unit)
    wanted = field.format(**places)
    assert any(one.field.startswith(wanted) and sentence in one.sentence for one in refused.value.faults), (
        refused.value.faults
    )
    assert [model.objects.count() for model in (Stay, Person, Clinician, SignOff, TrailLine)] == before


def test_nothing_is_taken_in_twice(files, other_house):
    actor, unit = other_house
    told = files["Fernhollow"][0]
    take_in_stay(actor=actor, told=told, file_sha256="0" * 64, unit=unit)
    with pytest.raises(Refused, match="This stay is here already"):
        take_in_stay(actor=actor, told=told, file_sha256="0" * 64, unit=unit)
    renamed = deepcopy(told) | {"stay": told["stay"] | {"uid": str(uuid4())}}
    with pytest.raises(Refused, match="A row with this uid is here already"):
        take_in_stay(actor=actor, told=renamed, file_sha256="0" * 64, unit=unit)


def anew(told):
    """The same record under other uids, as if another stay of the same person."""
    text = json.dumps(told)
    names = [*tables(), "clinicians", "sign_offs"]
    for uid in {row["uid"] for name in names for row in told[name]} | {told["stay"]["uid"]}:
        if uid not in {row["uid"] for row in told["person_details"]}:
            text = text.replace(uid, str(uuid4()))
    return json.loads(text)


def test_a_visit_number_and_a_running_stay_are_in_the_way(files, other_house):
    actor, unit = other_house
    told = deepcopy(files["Fernhollow"][0])
    told["stay_details"][0]["visit_number"] = "V-77"
    take_in_stay(actor=actor, told=told, file_sha256="0" * 64, unit=unit)
    with pytest.raises(Refused) as refused:
        take_in_stay(actor=actor, told=anew(told), file_sha256="0" * 64, unit=unit)
    assert refused.value.faults[0].field == "stay_details[0].visit_number"
    other = anew(told)
    other["stay_details"][0]["visit_number"] = ""
    with pytest.raises(Refused, match="has a stay here that has not ended"):
        take_in_stay(actor=actor, told=other, file_sha256="0" * 64, unit=unit)
    other["person_details"][0]["born"] = "1901-01-01"
    with pytest.raises(Refused, match="the birth date differs"):
        take_in_stay(actor=actor, told=other, file_sha256="0" * 64, unit=unit)


def test_a_unit_that_is_not_here_needs_one_that_stands_for_it(files, other_house):
    actor, _ = other_house
    with pytest.raises(Refused, match="is not a unit of this house; say with --unit"):
        take_in_stay(actor=actor, told=files["Fernhollow"][0], file_sha256="0" * 64)
    assert not Stay.objects.exists()


def test_a_sign_off_rides_along_and_gives_nobody_here_a_skill(files, other_house):
    """The account leans on the sign-off it leaned on; a file cannot sign off somebody who works here."""
    actor, unit = other_house
    told = files["Fernhollow"][0]
    leaned = told["sign_offs"][0]
    local = staff.register_clinician(actor=HOUSE, name="Local Invented", grade="registered")
    mine = json.loads(json.dumps(told).replace(leaned["nurse"], str(local.uid)))
    with pytest.raises(Refused, match="works here and holds no such sign-off; a file cannot give it"):
        take_in_stay(actor=actor, told=mine, file_sha256="0" * 64, unit=unit)
    assert not SignOff.objects.exists()
    stay = take_in_stay(actor=actor, told=told, file_sha256="0" * 64, unit=unit)
    assert {each.nurse.source for each in SignOff.objects.all()} == {"imported"}
    assert Account.objects.filter(stay=stay, sign_off__isnull=False).count() == sum(
        bool(row["sign_off"]) for row in told["account"]
    )
    assert not User.objects.filter(clinician__source="imported").exists()


def test_without_its_sign_off_an_account_no_longer_says_what_was_signed(files, other_house):
    """Taken out of the account as well, the hash of what was signed does not match: all or nothing."""
    actor, unit = other_house
    told = deepcopy(files["Fernhollow"][0])
    told["sign_offs"] = []
    for row in told["account"]:
        row["sign_off"] = None
    with pytest.raises(Refused, match="What was signed is not what stands here"):
        take_in_stay(actor=actor, told=told, file_sha256="0" * 64, unit=unit)


def test_a_sign_off_past_its_end_does_not_fit(files):
    told = deepcopy(files["Fernhollow"][0])
    told["sign_offs"][0]["valid_until"] = told["sign_offs"][0]["valid_from"]
    faults = Faults()
    with pytest.raises(Refused):
        check_sign_offs(faults, told)
        faults.stop()
    assert "not valid then" in faults.found[0].sentence


def test_the_commands_write_a_file_and_take_it_in(files, other_house, tmp_path, monkeypatch, capsys):
    actor, unit = other_house
    _, password = staff.open_account(actor=HOUSE, clinician=actor.clinician, username="rosa")
    monkeypatch.setattr("teaching.management.commands.import_stay.getpass", lambda prompt: password)
    file = tmp_path / "stay.json"
    file.write_text(json.dumps(files["Fernhollow"][0]))
    call_command("import_stay", str(file), "--by", "rosa", "--unit", unit.name)
    stay = Stay.objects.get()
    assert f"Stay {stay.uid} is here, on Ward Nine" in capsys.readouterr().out
    call_command("export_stay", str(stay.uid))
    out = capsys.readouterr().out
    assert json.loads(out)["stay"]["uid"] == str(stay.uid)
    whole = ('"checklists"', '"content"', '"bytes"')  # a checklist or a kept paper is one long row
    rows = [line for line in out.splitlines() if not any(name in line for name in whole)]
    assert all(len(line) < 2000 for line in rows), "one row a line"
    assert set(ImportOrigin.objects.values_list("object_kind", flat=True)) >= {"stay", "account", "stoma", "kit"}
    with pytest.raises(CommandError, match="1 fault; nothing was taken in"):
        call_command("import_stay", str(file), "--by", "rosa")
    assert "stay.uid: This stay is here already" in capsys.readouterr().err
    file.write_text("{")
    with pytest.raises(CommandError, match="nothing was taken in"):
        call_command("import_stay", str(file), "--by", "rosa")
    monkeypatch.setattr("teaching.management.commands.import_stay.getpass", lambda prompt: "wrong")
    file.write_text("{}")
    with pytest.raises(CommandError, match="could not be signed in"):
        call_command("import_stay", str(file), "--by", "rosa")
    with pytest.raises(CommandError, match="is not the name of one unit here"):
        call_command("import_stay", str(file), "--by", "rosa", "--unit", "Ward Ten")
    with pytest.raises(CommandError, match="There is no such stay"):
        call_command("export_stay", str(uuid4()))


def test_a_checklist_of_another_house_comes_along(files, other_house):
    """Its own version is published here from the file; no unit works by it until somebody names it."""
    actor, unit = other_house
    told = json.loads(json.dumps(files["Stillwater"][0]).replace("stoma-care 1", "house-care 3"))
    content = told["checklists"]["house-care 3"]["content"] | {"code": "house-care", "number": 3}
    told["checklists"] = {"house-care 3": {"sha256": sha256_of(content), "content": content}}
    stay = take_in_stay(actor=actor, told=told, file_sha256="0" * 64, unit=unit)
    assert {str(each.event.checklist) for each in Account.objects.filter(stay=stay)} <= {"house-care 3", "None"}
