"""manage.py assess: conclusions with reasons from a file or from the record; a wrong file is refused whole."""

import json
from io import StringIO
from pathlib import Path

import pytest
from django.core.management import CommandError, call_command
from django.utils import timezone

from teaching.exchange.assessment import as_json
from teaching.exchange.stay_file import read_stay
from teaching.exchange.stay_writer import stay_file_of
from teaching.management.commands.load_demo import Command as LoadDemo
from teaching.models import Stay, StayNow
from teaching.record.charts import charts_for
from teaching.rules.assess import assess
from teaching.rules.policy import DEFAULT

EXAMPLE = Path(__file__).parents[1] / "docs" / "example-stay.json"


@pytest.fixture(scope="module")
def loaded(module_record):
    call_command(LoadDemo(), stdout=StringIO(), stderr=StringIO())


def assessed(*arguments):
    out, err = StringIO(), StringIO()
    call_command("assess", *arguments, stdout=out, stderr=err)
    return out.getvalue()


def rows(*arguments):
    return {(row["learner"], row["code"]): row for row in json.loads(assessed(*arguments, "--json"))["rows"]}


def changed(tmp_path, **changes):
    data = json.loads(EXAMPLE.read_text()) | changes
    path = tmp_path / "stay.json"
    path.write_text(json.dumps(data))
    return str(path)


def test_the_example_says_what_the_new_outlet_reopened_and_why():
    told = rows("--file", str(EXAMPLE))
    closing = told["person", "em-close"]
    assert (closing["state"], closing["reasons"][0]["code"]) == ("show again", "after-kit")
    assert told["person", "em-open"]["state"] == "independent"
    assert told["person", "cut"]["evidence"][0]["practice"] is True


def test_text_reads_from_what_stands_out_to_each_row_with_its_reason():
    text = assessed("--file", str(EXAMPLE))
    parts = ["What stands out", "Cautions:", "Pouch change due:", "Teach next:", "Emptying, the person: show again"]
    places = [text.index(part) for part in parts]
    assert places == sorted(places)
    assert "New kit Sun 17 May 15:00: another kind of outlet. Once more alone." in text


def test_each_showing_says_how_when_who_and_which_row_lent_it():
    lines = [line.strip() for line in assessed("--file", str(EXAMPLE)).splitlines()]
    closing = lines.index(next(line for line in lines if line.startswith("em-close ")))
    assert lines[closing + 1 : closing + 3] == [
        "alone: Sat 2026-05-16 08:30, student nurse, co-signed",
        "alone in close: Sun 2026-05-17 11:00, stoma nurse",
    ]
    cut = lines.index(next(line for line in lines if line.startswith("cut ")))
    assert lines[cut + 1] == "alone: Sat 2026-05-16 14:00, registered nurse, practice"
    called = lines.index(next(line for line in lines if line.startswith("t-call ")))
    assert [line.split(":")[0] for line in lines[called + 1 : called + 3]] == ["told", "own words"]


def test_a_decision_that_is_no_must_is_told_as_such():
    lines = assessed("--file", str(EXAMPLE)).splitlines()
    assert ["hair", "independent", "(not", "a", "must)"] in [line.split() for line in lines]


def test_conclusions_of_the_example():
    told = json.loads(assessed("--file", str(EXAMPLE), "--json"))
    assert {one["procedure"]: one["state"] for one in told["conclusions"] if one["learner"] == "person"} == {
        "change": "learning", "emptying": "show again", "topics": "not started",
    }
    assert [one["code"] for one in told["aims"]] == ["em-close", "close", "em-wipe"]
    assert told["changes"] == [
        {"stoma": "stoma", "last": "2026-05-17T10:00:00+00:00", "due": "2026-05-20T10:00:00+00:00", "unknown": None}
    ]
    assert told["holds_until"].startswith("2026-05-19T06:45")  # 48 h after the recheck of day 6, 07:45 (I12)
    assert [one["sign"] for one in told["cautions"]] == ["output-today"]


def test_why_a_due_time_is_not_known_is_said(tmp_path):
    kit = {"since": "day 0 11:30", "pieces": "two", "opening": "cut", "items": ["powder"]}
    told = json.loads(assessed("--file", changed(tmp_path, kits=[kit]), "--json"))
    assert (told["changes"][0]["due"], told["changes"][0]["unknown"]["code"]) == (None, "no-interval")


def test_at_another_moment():
    earlier = rows("--file", str(EXAMPLE))
    later = rows("--file", str(EXAMPLE), "--at", "day 9 18:00")
    assert (earlier["person", "em-open"]["state"], later["person", "em-open"]["state"]) == ("independent", "show again")
    assert later["person", "em-open"]["lack"] == "missing"


def test_a_wrong_file_is_refused_whole_with_every_fault_by_its_path(tmp_path):
    out, err = StringIO(), StringIO()
    wrong = changed(
        tmp_path,
        sessions=[
            {"at": "day 2 10:00", "procedure": "emptying", "by": "registered", "ratings": {"em-open": "11"}},
            {"at": "day 40 10:00", "procedure": "emptying", "by": "registered", "all": "06"},
        ],
    )
    with pytest.raises(CommandError) as refused:
        call_command("assess", "--file", wrong, stdout=out, stderr=err)
    assert refused.value.returncode == 2
    assert out.getvalue() == ""
    assert "sessions[0].ratings.em-open: 11 is not an answer" in err.getvalue()
    assert "sessions[1].at: day 40 10:00 lies after the moment judged" in err.getvalue()


@pytest.mark.parametrize(
    ("change", "path"),
    [
        ({"all": "6"}, "sessions[0].all: 6 is unknown"),
        ({"ratings": {"em-opn": "06"}}, "sessions[0].ratings.em-opn: is not a row of the checklist"),
        ({"procedure": "change", "ratings": {"film": "right"}}, "sessions[0].ratings.film: is not for this stoma"),
        ({"at": "day 7 10:00"}, "sessions[0].at: day 7 10:00 lies after the moment judged"),
        ({"ended": "day 2 09:00"}, "sessions[0].ended: is before the session began"),
        ({"stoma": "left"}, "sessions[0].stoma: left is unknown"),
        ({"procedure": "urine"}, "sessions[0].procedure: stoma had no emptying (urostomy)"),
        ({"learner": "son"}, "sessions[0].learner: son had not said yes by then"),
        ({"at": "2026-03-29 01:30"}, "sessions[0].at: 2026-03-29 01:30 never was in Europe/London"),
        ({"at": "2026-10-25 01:30"}, "sessions[0].at: 2026-10-25 01:30 came twice in Europe/London"),
    ],
)
def test_bad_input_of_each_kind_is_refused_with_its_path(tmp_path, change, path):
    """Clocks of Europe/London in 2026: forward on 29 March, back on 25 October (tz database)."""
    session = {"at": "day 2 10:00", "procedure": "emptying", "by": "registered", "all": "06", **change}
    wrong = changed(tmp_path, sessions=[session], learners=[{"key": "son"}, {"key": "wife", "agreed": "day 1 10:00"}])
    out, err = StringIO(), StringIO()
    with pytest.raises(CommandError) as refused:
        call_command("assess", "--file", wrong, stdout=out, stderr=err)
    assert (refused.value.returncode, out.getvalue()) == (2, "")
    assert any(line.startswith(path) for line in err.getvalue().splitlines()), err.getvalue()


def test_a_wrong_moment_to_judge_at_is_a_wrong_file_too():
    with pytest.raises(CommandError) as refused:
        call_command("assess", "--file", str(EXAMPLE), "--at", "noon", stdout=StringIO(), stderr=StringIO())
    assert refused.value.returncode == 2


@pytest.mark.django_db
def test_a_stay_on_record_is_judged_now_and_as_known_before(loaded):
    ada = StayNow.objects.select_related("stay").get(name="Ada Fernhollow").stay
    person = [row for (_, code), row in rows("--stay", str(ada.uid)).items() if code == "em-open"]
    assert [row["state"] for row in person] == ["independent"]
    with pytest.raises(CommandError, match="nothing was on record"):
        assessed("--stay", str(ada.uid), "--at", "2020-01-01 08:00")
    with pytest.raises(CommandError, match="still to come"):
        assessed("--stay", str(ada.uid), "--at", "2099-01-01 08:00")


@pytest.mark.django_db
def test_a_stay_that_is_not_there_says_where_to_find_its_uid():
    with pytest.raises(CommandError, match="the address of its page"):
        assessed("--stay", "00000000-0000-4000-8000-000000000000")


@pytest.mark.django_db
def test_each_stay_of_the_demo_written_as_a_file_is_judged_the_same(loaded):
    now = timezone.now()
    stays = list(Stay.objects.filter(events__isnull=False).distinct())
    assert len(stays) >= 5
    for chart in charts_for(stays):
        told = read_stay(json.loads(json.dumps(stay_file_of(chart, now))))
        ours, theirs = assess(chart, DEFAULT, now), assess(told.chart, DEFAULT, now)
        assert as_json(told.chart, theirs) == as_json(chart, ours)
