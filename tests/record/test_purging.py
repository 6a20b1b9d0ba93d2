"""The one way out: two people, one stay, every row of it and no other; then the guards hold again."""

import uuid

import pytest
from django.core.management import CommandError, call_command
from django.db import IntegrityError, connection, transaction

from teaching.models import (
    Draft,
    DraftTap,
    Person,
    PersonDetails,
    Purge,
    PurgeDone,
    Rating,
    Stay,
    StayNow,
    TakeOver,
    TrailLine,
)
from teaching.models.guards import missing_guards, record_models
from teaching.record import purging
from teaching.record.actor import Actor
from teaching.record.purging import purge_stay, stay_models
from teaching.record.refusals import Refused
from tests.record.factories import (
    AccountFactory,
    CautionFactory,
    ClinicianFactory,
    LearnerFactory,
    PaperFactory,
    PersonDetailsFactory,
    PurgeFactory,
    StayFactory,
    StomaFactory,
    UnitFactory,
    UserFactory,
    factory_for,
)

pytestmark = pytest.mark.django_db


def filled_stay(person=None):
    """A stay with a row in every table that can hold one, all of them its own."""
    stay = StayFactory.create(**{"person": person} if person else {})
    PersonDetailsFactory.create(person=stay.person, number=stay.person.details.count() + 1)
    stoma, learner = StomaFactory.create(stay=stay), LearnerFactory.create(stay=stay)
    account, caution = AccountFactory.create(event__stoma=stoma), CautionFactory.create(stay=stay)
    parents = {"stay": stay, "stoma": stoma, "learner": learner, "caution": caution, "account": account}
    parents["paper"] = PaperFactory.create(stay=stay, kind="another")
    for model in set(stay_models()) & set(record_models()) - {type(account), type(account.event)}:
        names = {field.name for field in model._meta.fields}
        factory_for(model).create(**{name: parent for name, parent in parents.items() if name in names})
    unit = UnitFactory.create()
    StayNow.objects.create(stay=stay, unit=unit, state="here", born="1960-05-01")
    draft = Draft.objects.create(stay=stay, stoma=stoma, procedure="change", owner=account.by)
    draft.take_overs.create(left_by=account.by, taken_by=caution.by)
    draft.taps.create(client_id=uuid.uuid4(), user=UserFactory.create(), field="answer", value="06")
    return stay


def standing():
    """{model name: ids} of every table that is the house's, but for the trail and the permits."""
    kept = (TrailLine, Purge, PurgeDone)
    models = [model for model in {*record_models(), *stay_models(), DraftTap, TakeOver} if model not in kept]
    return {model.__name__: set(model._base_manager.values_list("pk", flat=True)) for model in models}


@pytest.fixture
def two():
    return Actor(ClinicianFactory.create()), ClinicianFactory.create()


def purge(two, stay, **changed):
    return purge_stay(**{"actor": two[0], "agreed_by": two[1], "stay": stay, "why": "Asked for."} | changed)


def test_every_table_of_a_stay_is_filled_here():
    """So that the tests below speak of all of them."""
    stay = filled_stay()
    assert [m.__name__ for m in stay_models() if not m._base_manager.filter(stay=stay).exists()] == []


def test_one_stay_goes_and_nothing_else(two):
    other = filled_stay()
    before = standing()
    stay = filled_stay()
    person = stay.person_id
    made = {name: ids - before[name] for name, ids in standing().items()}
    of_the_stay = {model.__name__ for model in (Person, PersonDetails, Stay, DraftTap, TakeOver, *stay_models())}
    done = purge(two, stay)
    after = standing()
    assert all(made[name] and not made[name] & after[name] for name in of_the_stay)
    assert all(made[name] <= after[name] for name in made.keys() - of_the_stay)
    assert all(before[name] <= after[name] for name in before)
    assert done.rows == sum(len(made[name]) for name in of_the_stay)
    assert Stay.objects.filter(pk=other.pk).exists()
    assert not type(other.person).objects.filter(pk=person).exists()
    connection.check_constraints()


def test_a_person_with_another_stay_stays(two):
    first = filled_stay()
    second = filled_stay(person=first.person)
    purge(two, first)
    assert first.person.details.count() == 2
    purge(two, second)
    assert not type(first.person).objects.filter(pk=first.person_id).exists()


def test_the_permit_and_two_trail_lines_stay(two):
    stay = filled_stay()
    purge(two, stay)
    permit = Purge.objects.get()
    assert (permit.stay, permit.asked_by, permit.agreed_by) == (str(stay.uid), two[0].clinician, two[1])
    lines = TrailLine.objects.order_by("id")
    assert [(line.verb, line.outcome, line.stay, line.object) for line in lines] == [
        ("purge_stay", "begun", str(stay.uid), f"purge {permit.uid}"),
        ("purge_stay", "done", str(stay.uid), f"purge {permit.uid}"),
    ]


def test_the_guards_hold_again_afterwards(two):
    """Also for a stay that would come to stand under the same key, and all the time for others."""
    stay, other = filled_stay(), filled_stay()
    purge(two, stay)
    assert missing_guards(connection) == []
    again = Stay(pk=stay.pk, by=two[1], person=other.person, zone="Europe/London")
    again.save(force_insert=True)
    for key in (again.pk, other.pk):
        with pytest.raises(IntegrityError, match="only ever added"), transaction.atomic():
            purging._delete(Stay, "id = %s", key)


def test_an_open_permit_lets_go_its_own_stay_only(two):
    stay, other = filled_stay(), filled_stay()
    PurgeFactory.create(stay_key=stay.pk)
    assert purging._delete(Rating, "stay_id = %s", stay.pk) == 1
    with pytest.raises(IntegrityError, match="only ever added"), transaction.atomic():
        purging._delete(Rating, "stay_id = %s", other.pk)
    with pytest.raises(IntegrityError, match="only ever added"), transaction.atomic():
        purging._delete(type(stay.person), "id = %s", stay.person_id)


def test_a_person_is_not_let_go_while_a_stay_is_left(two):
    stay = filled_stay()
    PurgeFactory.create(stay_key=0, person_key=stay.person_id)
    with pytest.raises(IntegrityError, match="only ever added"), transaction.atomic():
        purging._delete(type(stay.person.details.get()), "person_id = %s", stay.person_id)


@pytest.mark.parametrize(
    ("changed", "field"),
    [(lambda two: {"agreed_by": two[0].clinician}, "agreed_by"), (lambda two: {"why": " "}, "why")],
    ids=["one person alone", "no reason"],
)
def test_what_is_refused_changes_nothing(two, changed, field):
    stay = filled_stay()
    before = standing()
    with pytest.raises(Refused) as refused:
        purge(two, stay, **changed(two))
    assert [fault.field for fault in refused.value.faults] == [field]
    assert standing() == before
    assert not Purge.objects.exists()


def test_the_database_itself_wants_two_people(two):
    with pytest.raises(IntegrityError, match="purge_needs_two_people"), transaction.atomic():
        PurgeFactory.create(asked_by=two[1], agreed_by=two[1])


def test_the_second_purge_of_a_stay_is_refused(two):
    stay = filled_stay()
    purge(two, stay)
    with pytest.raises(Refused, match="not here any more"):
        purge(two, stay)


def test_a_purge_that_fails_half_way_leaves_everything(two, monkeypatch):
    stay = filled_stay()
    before = standing()
    usual = purging._delete

    def stops_at_the_stay(model, where, key):
        if model is Stay:
            raise RuntimeError("power cut")
        return usual(model, where, key)

    monkeypatch.setattr(purging, "_delete", stops_at_the_stay)
    with pytest.raises(RuntimeError):
        purge(two, stay)
    assert standing() == before
    assert not Purge.objects.exists()


@pytest.mark.parametrize("typed", ["right-password", "wrong"])
def test_the_command_wants_both_passwords(typed, monkeypatch, capsys):
    stay = filled_stay()
    for name in ("asks", "agrees"):
        user = UserFactory.create(username=name)
        user.set_password("right-password")
        user.save()
    monkeypatch.setattr(
        "teaching.management.commands.purge_stay.getpass",
        lambda prompt: typed if "agrees" in prompt else "right-password",
    )
    ask = ["purge_stay", str(stay.uid), "--asked-by=asks", "--agreed-by=agrees", "--why=Asked for."]
    if typed == "wrong":
        with pytest.raises(CommandError, match="agrees could not be signed in"):
            call_command(*ask)
    else:
        call_command(*ask)
        assert f"rows of stay {stay.uid} are removed" in capsys.readouterr().out
    assert Stay.objects.filter(pk=stay.pk).exists() == (typed == "wrong")
