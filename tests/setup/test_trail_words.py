"""No code word of the trail reaches the screen: each verb and each page has its plain words."""

import re
from pathlib import Path

import pytest

from teaching.access.permissions import PERMISSIONS
from teaching.setup.trail_words import DONE, PAGES, said_of

TEACHING = Path(__file__).parents[2] / "teaching"
WRITTEN = re.compile(r'\bdone\(\s*(?:self\.)?actor, (?:"(\w+)" if \w+ else )?"(\w+)"|\bverb="(\w+)"')


def written_in_the_code() -> set[str]:
    """The verbs that stand in the code as they are written; those put together there stand in the test below."""
    files = [file.read_text() for file in TEACHING.rglob("*.py")]
    return {verb for text in files for found in WRITTEN.findall(text) for verb in found if verb}


def test_every_permission_has_a_page_in_words():
    assert set(PAGES) == set(PERMISSIONS)


def test_every_verb_is_said():
    written = written_in_the_code()
    assert {"sign_paper", "keep_paper", "cosign", "import_stay", "purge_stay", "sign_in"} <= written, "read"
    assert written <= set(DONE), written - set(DONE)


@pytest.mark.parametrize(
    "verb",
    ["told_caution", "settled_caution", "withdrawn_caution", "grant_role", "revoke_role", "record_session",
     "record_care", "record_recheck", "make_arrangement", "arrange_visit", "book_teaching", "ask_to_be_observed",
     "pair_ask", "take_back_ask", "accept_certificate", "withdraw_sign_off"],
)  # fmt: skip
def test_verbs_put_together_in_the_code_are_said(verb):
    assert verb in DONE


@pytest.mark.parametrize(
    ("verb", "outcome", "said"),
    [
        ("see_shift", "read", "Opened this shift"),
        ("record_session", "done", "Signed a session"),
        ("see_trail", "refused", "Was refused: the trail"),
        ("see_person", "not there", "Asked for a person's page: not there, or not theirs to see"),
        ("sign_in", "refused", "Tried to sign in, and was refused"),
        ("prove_again", "refused", "Tried to give the password again, and was refused"),
        ("export_stay", "read", "Took out the whole record of a stay"),
        ("purge_stay", "begun", "Began, and may not have ended: deleted a stay"),
        ("some_new_verb", "done", "Some new verb"),
    ],
)
def test_said(verb, outcome, said):
    assert said_of(verb, outcome) == said
