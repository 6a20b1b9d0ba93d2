"""A whole record exported and taken in again: equal facts, equal judgement, and who wrote what marked as imported."""


import pytest
from django.urls import reverse

from teaching.models import Account, Clinician, ImportOrigin, Unit, User
from teaching.record.accounts import content_of, sha256_of
from teaching.record.actor import Actor
from teaching.record.purging import purge_stay
from teaching.record.staff import grant_role, open_account, register_clinician
from teaching.record.whole_in import take_in_stay
from teaching.record.whole_tables import tables
from tests.bedside.reading import words
from tests.bedside.ward import HOUSE
from tests.exchange.moving import FAMILIES, exported, judged, same
from tests.record.factories import ClinicianDetailsFactory
from tests.record.test_purging import filled_stay


@pytest.mark.parametrize("family", FAMILIES)
def test_in_another_house_the_facts_and_the_judgement_are_equal(files, other_house, family):
    actor, unit = other_house
    told, chart, found = files[family]
    stay = take_in_stay(actor=actor, told=told, file_sha256="0" * 64, unit=unit)
    same(judged(stay), (chart, found))
    assert stay.now.unit == unit
    assert {each.source for each in Clinician.objects.exclude(pk=actor.clinician.pk)} == {"imported"}
    for account in Account.objects.filter(stay=stay):
        assert sha256_of(content_of(account)) == account.content_sha256
    changed = {"units", "import_origin", "stay_event", "exported_at"}
    again = exported(stay)
    again["clinicians"] = [each for each in again["clinicians"] if each["name"] != "Rosa Invented"]
    assert [name for name in told if name not in changed and told[name] != again[name]] == []


def test_each_thing_says_who_wrote_it_and_in_which_file_it_came(files, other_house):
    actor, unit = other_house
    told, *_ = files["Fernhollow"]
    stay = take_in_stay(actor=actor, told=told, file_sha256="a" * 64, unit=unit)
    origins = {str(each.object_uid): each for each in ImportOrigin.objects.filter(stay=stay)}
    assert {each.file_sha256 for each in origins.values()} == {"a" * 64}
    people = {each["uid"]: each["name"] for each in told["clinicians"]}
    for row in told["account"]:
        assert (origins[row["uid"]].object_kind, origins[row["uid"]].author) == ("account", people[row["rater"]])
    (opened,) = told["stay_event"]
    assert origins[opened["uid"]].author == f"{people[opened['by']]} (Heron Ward (made up))"
    assert not any(row["uid"] in origins for row in told["rating"]), "parts ride with their account"
    assert Unit.objects.count() == 1


def test_moved_on_once_more_it_keeps_its_first_origin(files, other_house):
    actor, unit = other_house
    stay = take_in_stay(actor=actor, told=files["Fernhollow"][0], file_sha256="a" * 64, unit=unit)
    told, first = exported(stay), set(ImportOrigin.objects.values_list("object_uid", "author", "file_sha256"))
    second = Actor(register_clinician(actor=HOUSE, name="Second Invented", grade="registered"))
    purge_stay(actor=actor, agreed_by=second.clinician, stay=stay, why="Moves on.")
    take_in_stay(actor=second, told=told, file_sha256="b" * 64)
    assert set(ImportOrigin.objects.values_list("object_uid", "author", "file_sha256")) == first


def test_the_persons_page_and_the_session_say_that_it_was_brought_in(files, other_house, client):
    actor, unit = other_house
    told = files["Fernhollow"][0]
    stay = take_in_stay(actor=actor, told=told, file_sha256="a" * 64, unit=unit)
    user, _ = open_account(actor=HOUSE, clinician=actor.clinician, username="rosa")
    User.objects.update(must_change_password=False)
    grant_role(actor=HOUSE, clinician=actor.clinician, role="ward-nurse", unit=unit)
    client.force_login(user)
    page = words(client.get(reverse("person", args=[stay.uid])))
    assert f"by Rosa Invented: {len(told['account'])} sessions written there." in page
    event = Account.objects.filter(stay=stay, event__kind="teaching").earliest("began_at").event
    assert "Imported; written by" in words(client.get(reverse("session", args=[event.uid])))


def test_every_row_of_every_table_of_a_stay_is_in_its_file(db):
    """Whatever table there is: the file is made by introspection, and so is this count."""
    stay = filled_stay()
    for clinician in Clinician.objects.filter(details__isnull=True):
        ClinicianDetailsFactory.create(clinician=clinician)
    told = exported(stay)
    for name, model in tables().items():
        parent = {"person": stay.person} if name == "person_details" else {"stay": stay}
        uids = {str(uid) for uid in model._default_manager.filter(**parent).values_list("uid", flat=True)}
        assert {row["uid"] for row in told[name]} == uids and uids, name
        columns = {field.name for field in model._meta.concrete_fields} - {"id", "stay", "person"}
        assert set(told[name][0]) == columns - ({"row"} if name == "rating" else set()), name
