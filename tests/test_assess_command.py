"""manage.py assess: conclusions with reasons from a file or from the record; a wrong file is refused whole."""

import json
from io import StringIO
from pathlib import Path

import pytest
from django.core.management import CommandError, call_command

from teaching.management.commands.load_demo import Command as LoadDemo
from teaching.models import StayNow

EXAMPLE = Path(__file__).parents[1] / "docs" / "example-stay.json"


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
    assert "sessions[1].at:" in err.getvalue()


@pytest.mark.django_db
def test_a_stay_on_record_is_judged_now_and_as_known_before():
    call_command(LoadDemo(), stdout=StringIO(), stderr=StringIO())
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
