"""The language to teach in can be put right later: the rules lean on it."""

from datetime import date, timedelta

import pytest
import time_machine
from django.core.management import call_command
from django.urls import reverse
from django.utils import timezone

from teaching.models import PersonDetails, TrailLine
from teaching.record.charts import chart_for
from teaching.record.entries import StayEntry
from teaching.record.refusals import Refused
from teaching.record.stays import note_stay_event, open_stay, teach_in
from tests.bedside.reading import words

pytestmark = pytest.mark.django_db


def test_it_is_said_where_the_stay_is_set_up_and_put_right_there(house, nurse, send):
    named = {"stay": house.stay.uid}
    assert "Taught in English." in words(nurse.get(reverse("stay-setup", kwargs=named)))
    answer = send(nurse, "taught-in", named, language="pl")
    assert (answer.status_code, answer.url) == (303, reverse("stay-setup", kwargs=named))
    assert "Taught in Polish." in words(nurse.get(answer.url))
    assert chart_for(house.stay).language == "pl"
    first, second = PersonDetails.objects.filter(person=house.stay.person).order_by("number")
    assert (first.language, second.language, first.born) == ("en", "pl", second.born), "the first stays on record"
    assert 'value="pl" selected' in nurse.get(reverse("taught-in", kwargs=named)).content.decode()


def test_the_same_language_again_changes_nothing_and_an_unknown_one_is_refused(house, nurse, send):
    named, before = {"stay": house.stay.uid}, TrailLine.objects.filter(verb="teach_in").count()
    assert send(nurse, "taught-in", named, language="en").status_code == 303
    page = send(nurse, "taught-in", named, language="elvish")
    assert page.status_code == 422 and "This is not one of the choices." in words(page)
    with pytest.raises(Refused, match="not known here"):
        teach_in(actor=house.actor, stay=house.stay, language="elvish")
    assert PersonDetails.objects.filter(person=house.stay.person).count() == 1
    assert TrailLine.objects.filter(verb="teach_in").count() == before


def test_what_is_newly_known_of_a_person_reaches_the_derived_row_of_every_stay(house):
    """Come back under another name, and to be taught in another language: the earlier stay is worked out again too."""
    earlier = house.open_stay("Z1")
    note_stay_event(actor=house.actor, stay=earlier, kind="left", at=timezone.now())
    again = open_stay(actor=house.actor, entry=StayEntry(
        unit=house.own, authority="Invented Hospital", mrn="Z1", family_name="Married", given_names="Person Z1",
        born=date(1958, 4, 23), bed="Z1",
    ))  # fmt: skip
    call_command("rebuild_figures", "--check")
    teach_in(actor=house.actor, stay=again, language="pl")
    assert {chart_for(stay).language for stay in (earlier, again)} == {"pl"}
    call_command("rebuild_figures", "--check")


def test_a_person_who_became_known_only_later_is_taught_as_first_told(house):
    """A stay that was brought in keeps its own time; what is known of its person may be younger."""
    now, entry = timezone.now(), StayEntry(
        unit=house.own, authority="Invented Hospital", mrn="Z2", family_name="Younger", given_names="Person Z2",
        born=date(1958, 4, 23), bed="Z2", language="pl",
    )  # fmt: skip
    with time_machine.travel(now + timedelta(days=1), tick=False):
        note_stay_event(actor=house.actor, stay=open_stay(actor=house.actor, entry=entry), kind="left")
    with time_machine.travel(now, tick=False):
        older = open_stay(actor=house.actor, entry=entry)
    assert chart_for(older, as_known_at=now).language == "pl"
