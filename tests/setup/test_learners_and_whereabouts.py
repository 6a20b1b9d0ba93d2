"""Helpers' hours and needs, what becomes of a stay, the planned day home: from the forms of the set-up room."""

from datetime import UTC, datetime

import pytest
import time_machine
from django.urls import reverse

from teaching.models import LearnerHours, PlannedHome
from teaching.record.charts import chart_for
from teaching.record.drafts import put_away_draft
from teaching.setup.hours_form import FILLED, exact_of, filled, hours_in, parts_of
from tests.bedside.reading import words

pytestmark = pytest.mark.django_db
NOON = "2026-11-03 17:00:00+00:00"  # 12:00 in New York


@pytest.fixture(autouse=True)
def at_noon():
    with time_machine.travel(NOON, tick=False):
        yield


def joan(house):
    return {"learner": house.learner.uid}


def known(house):
    return chart_for(house.stay).learner(str(house.learner.uid))


def errors(page):
    return " ".join(sentence for found in page.context["form"].errors.values() for sentence in found)


def test_a_week_by_quarters_of_a_day_and_one_day_exactly(house, nurse, send):
    tapped = [f"{day}-{part}" for day in range(5) for part in ("evening", "night")]
    said = {"parts": tapped, "exact_2": "7-9, 17-23", "minutes_away": "20"}
    assert send(nurse, "helper-hours", joan(house), **said).status_code == 303
    week = known(house).week
    assert week[:24] == "1" * 6 + "0" * 12 + "1" * 6
    assert [hour for hour in range(24) if week[48 + hour] == "1"] == [7, 8, 17, 18, 19, 20, 21, 22]
    assert week[120:] == "0" * 48 and known(house).minutes_away == 20
    page = nurse.get(reverse("helper-hours", kwargs=joan(house))).content.decode()
    assert 'value="7-9, 17-23"' in page and page.count(" checked") == 8, "four days by quarters, one exactly"


def test_what_stands_is_kept_when_only_something_else_changes(house, nurse, send):
    """Opened and sent as it came, nothing is lost: exact hours and exceptions stand in the form."""
    said = {
        "exact_6": "none", "parts": ["0-night"], "exception_1_from_0": "2026-11-05T08:00",
        "exception_1_to_0": "2026-11-06T20:00", "exception_1_there": "no", "exact_1": "6-18", "lives_in": "on",
    }
    send(nurse, "helper-hours", joan(house), **said)
    before = known(house)
    assert before.exceptions == ((datetime(2026, 11, 5, 13, tzinfo=UTC), datetime(2026, 11, 7, 1, tzinfo=UTC), False),)
    form = nurse.get(reverse("helper-hours", kwargs=joan(house))).context["form"]
    again = {"exception_1_from_0": "2026-11-05T08:00", "exception_1_to_0": "2026-11-06T20:00", "lives_in": "on"}
    for field in form:
        if field.name.startswith("exact") or field.name == "parts" or field.name.endswith("there"):
            again[field.name] = field.value() or ""
    send(nurse, "helper-hours", joan(house), **again)
    assert known(house) == before and LearnerHours.objects.count() == 2


@pytest.mark.parametrize(
    ("said", "sentence"),
    [
        ({"exact_0": "from nine"}, "Write whole hours such as 7-9, 17-23"),
        ({"exact_0": "9-7"}, "Write whole hours such as 7-9"),
        ({"exact_0": "20-25"}, "Write whole hours such as 7-9"),
        ({"exception_1_from_0": "2026-11-05T08:00"}, "An exception needs from, to, and whether they are there."),
        (
            {"exception_1_from_0": "2026-11-06T08:00", "exception_1_to_0": "2026-11-05T08:00"}
            | {"exception_1_there": "no"},
            "An exception ends before it starts",
        ),
        ({"minutes_away": "-5"}, "Write a whole number of minutes."),
    ],
)
def test_a_slip_in_the_hours_is_named(house, nurse, send, said, sentence):
    page = send(nurse, "helper-hours", joan(house), **said)
    assert page.status_code == 422 and sentence in errors(page), errors(page)
    assert not LearnerHours.objects.exists()


def test_a_usual_week_to_begin_with_is_only_offered(house, nurse):
    path = reverse("helper-hours", kwargs=joan(house))
    page = nurse.get(f"{path}?fill=outside-work")
    assert page.content.decode().count(" checked") == 5 * 2 + 2 * 4
    assert nurse.get(f"{path}?fill=tuesdays").status_code == 200
    assert not LearnerHours.objects.exists()


def test_quarters_and_exact_hours_say_every_week_there_is():
    for name in FILLED:
        week = filled(name)
        assert len(week) == 168 and not any(exact_of(week, day) for day in range(7))
    odd = "1" * 7 + "0" * 17
    assert hours_in(exact_of(odd * 7, 3)) == odd and parts_of(odd * 7) == [f"{day}-night" for day in range(7)]
    assert hours_in("none") == "0" * 24 and hours_in("7 to 9, 22-24").count("1") == 4


def test_the_person_has_needs_and_no_hours(house, nurse, send):
    person = house.stay.learners.get(kind="person")
    assert nurse.get(reverse("helper-hours", kwargs={"learner": person.uid})).status_code == 404
    send(nurse, "learning-needs", {"learner": person.uid}, needs=["sight", "hand"], words="reading glasses")
    assert chart_for(house.stay).learner(str(person.uid)).needs == {"sight", "hand"}
    send(nurse, "learning-needs", {"learner": person.uid}, needs=["hand"])
    assert chart_for(house.stay).learner(str(person.uid)).needs == {"hand"}
    assert person.needs.count() == 3, "what did not change is not written again"


def becomes(house, nurse, send, kind, **said):
    return send(nurse, "stay-event", {"stay": house.stay.uid, "kind": kind}, **said)


def test_moved_left_and_reopened(house, nurse, send):
    assert becomes(house, nurse, send, "moved", unit=str(house.own.uid), bed="B7").status_code == 303
    house.stay.now.refresh_from_db()
    assert house.stay.now.bed == "B7"
    put_away_draft(actor=house.actor, draft=house.draft)
    assert becomes(house, nurse, send, "left", left_to="home").url == reverse("setup")
    assert "Left or ended" in words(nurse.get(reverse("setup")))
    page = nurse.get(reverse("stay-setup", kwargs={"stay": house.stay.uid})).context["page"]
    assert [act.words for act in page.becomes] == ["Reopen this stay"]
    again = {"unit": str(house.own.uid), "bed": "B7", "why": "Left by mistake."}
    assert becomes(house, nurse, send, "reopened", **again).status_code == 303
    assert chart_for(house.stay).state == "reopened"


def test_somebody_who_leaves_with_a_session_not_signed_is_asked_about_once(house, nurse, signed_in, send):
    path = reverse("stay-event", kwargs={"stay": house.stay.uid, "kind": "left"})
    page = words(nurse.get(path))
    assert "Begun and not signed" in page and "Pouch change, begun Tue 3 Nov 12:00 by you" in page
    assert reverse("take-over", args=[house.draft.uid]) in signed_in("stoma-nurse").get(path).content.decode()
    asked = becomes(house, nurse, send, "left", left_to="home")
    assert asked.status_code == 422 and "Begun and not signed: pouch change (" in words(asked)
    assert chart_for(house.stay).state == "opened"
    assert becomes(house, nurse, send, "left", left_to="home", leaves_drafts="on").status_code == 303
    assert chart_for(house.stay).state == "left"
    house.draft.refresh_from_db()
    assert house.draft.state == "open", "nothing becomes of it by itself"


def test_nobody_is_asked_where_it_was_put_away_or_who_is_only_moved(house, nurse, send):
    assert becomes(house, nurse, send, "moved", unit=str(house.own.uid), bed="B7").status_code == 303
    put_away_draft(actor=house.actor, draft=house.draft)
    path = reverse("stay-event", kwargs={"stay": house.stay.uid, "kind": "left"})
    assert "leaves_drafts" not in nurse.get(path).content.decode()
    assert becomes(house, nurse, send, "left", left_to="home").status_code == 303


def test_moved_to_another_unit_they_are_on_its_list_and_off_this_one(house, nurse, send):
    answer = becomes(house, nurse, send, "moved", unit=str(house.other.uid), bed="K1")
    assert answer.url == reverse("setup"), "they are out of this nurse's sight now"
    house.stay.now.refresh_from_db()
    assert house.stay.now.unit == house.other
    assert nurse.get(reverse("stay-setup", kwargs={"stay": house.stay.uid})).status_code == 404


@pytest.mark.parametrize("kind", ["paused", "stopped", "cancelled"])
def test_an_ending_or_a_pause_says_why(house, nurse, send, kind):
    page = becomes(house, nurse, send, kind)
    assert page.status_code == 422 and "Write in a few words why." in errors(page)
    assert becomes(house, nurse, send, kind, why="Intensive care.").status_code == 303
    assert chart_for(house.stay).state == kind


def test_what_cannot_follow_is_refused(house, nurse, send):
    page = becomes(house, nurse, send, "moved", unit=str(house.own.uid), bed=house.stay.now.bed)
    assert page.status_code == 422 and "Moved where?" in errors(page)
    assert "The stay is opened; from there it can be" in errors(becomes(house, nurse, send, "resumed"))
    assert nurse.get(reverse("stay-event", kwargs={"stay": house.stay.uid, "kind": "vanished"})).status_code == 404


def test_the_planned_day_goes_to_a_facility_and_is_taken_back(house, nurse, send):
    named = {"stay": house.stay.uid}
    said = {"day": "2026-11-06", "goes_to": "facility", "why": "Her daughter is away."}
    assert send(nurse, "planned-home", named, **said).status_code == 303
    newest = PlannedHome.objects.order_by("-number")[0]
    assert (newest.at, newest.goes_to) == (datetime(2026, 11, 6, 17, tzinfo=UTC), "facility"), "12:00 on the ward clock"
    assert chart_for(house.stay).goes_to == "facility"
    send(nurse, "planned-home", named, day="2026-11-06", hour="9", goes_to="home")
    assert chart_for(house.stay).planned_at == datetime(2026, 11, 6, 14, tzinfo=UTC)
    send(nurse, "planned-home", named, day="", goes_to="home")
    assert chart_for(house.stay).planned_at is None


@pytest.mark.parametrize(
    ("said", "sentence"),
    [
        ({"day": "2026-11-01", "goes_to": "home"}, "This moment is already past"),
        ({"day": "soon", "goes_to": "home"}, "Write the day as year, month, day"),
        ({"day": "2026-11-06", "hour": "25", "goes_to": "home"}, "Write a whole hour from 0 to 23."),
        ({"day": "2026-11-06"}, "Choose home or a care facility."),
    ],
)
def test_a_slip_in_the_plan_is_named(house, nurse, send, said, sentence):
    page = send(nurse, "planned-home", {"stay": house.stay.uid}, **said)
    assert page.status_code == 422 and sentence in errors(page), errors(page)
