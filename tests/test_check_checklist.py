"""manage.py check_checklist FILE: every fault printed and exit 1, or a short table and exit 0."""

import json

import pytest
from django.core.management import CommandError, call_command

from teaching.exchange.checklist_file import FIXTURE


def test_a_right_file_is_counted(capsys):
    call_command("check_checklist", str(FIXTURE))
    lines = capsys.readouterr().out.splitlines()
    assert lines[0] == "stoma-care 1, in en: no faults"
    assert [line.split()[-4:] for line in lines if line.startswith(("Pouch change", "all"))] == [
        ["30", "22", "0", "7"],
        ["90", "61", "13", "8"],
    ]


def test_every_fault_is_printed(tmp_path, capsys):
    data = json.loads(FIXTURE.read_text())
    data["rows"][3]["phase"] = "begin"
    data["rows"][4]["position"] = data["rows"][5]["position"]
    wrong = tmp_path / "wrong.json"
    wrong.write_text(json.dumps(data))
    with pytest.raises(CommandError, match="2 faults; mend and check again"):
        call_command("check_checklist", str(wrong))
    assert capsys.readouterr().out.splitlines() == [
        "rows[3] (prep-time).phase: 'begin' is unknown; "
        "use one of: prepare, take-off, clean-look, fit-protect, put-on.",
        "rows (prep-kit, prep-hands): all stand at position 2030; give each its own.",
    ]


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ('{"rows": [', "is not JSON at line 1"),
        ('{"code": "a", "code": "b"}', "code: stands twice in the same object"),
        ("[]", "file: must be one JSON object"),
        ('{"languages": []}', "languages: must list at least one language code"),
    ],
)
def test_a_file_that_is_no_checklist(tmp_path, capsys, text, sentence):
    (tmp_path / "wrong.json").write_text(text)
    with pytest.raises(CommandError):
        call_command("check_checklist", str(tmp_path / "wrong.json"))
    assert sentence in capsys.readouterr().out


def test_a_file_that_is_not_there(tmp_path, capsys):
    with pytest.raises(CommandError):
        call_command("check_checklist", str(tmp_path / "none.json"))
    assert "cannot be read (No such file or directory)" in capsys.readouterr().out
