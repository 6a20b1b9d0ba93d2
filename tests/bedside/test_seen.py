"""What was seen, with scripts off: saved by its own button, before and apart from the signature."""

import pytest
from django.urls import reverse

from teaching.models import Account, Draft
from tests.bedside.reading import words


@pytest.fixture
def taps(ada, stoma):
    return {"which": f"{stoma.uid}:{ada.learners.get(kind='person').uid}"}


def test_what_you_saw_is_saved_before_signing_and_the_page_comes_back(ada, taps, send):
    answer = send("emptying", ada, **taps, saw="yes", **{"finding.colour": "dark", "ratings.em-open": "03"})
    assert answer.status_code == 200
    caution, draft = ada.cautions.get(), Draft.objects.get()
    assert (caution.sign, caution.event_uid) == ("dark-stoma", draft.event_uid)
    assert Account.objects.count() == 0
    page = words(answer)
    assert f"Call now: {caution.words}. Open since today 02:14, nobody told yet." in page
    assert answer.context["form"]["ratings.em-open"].value() == "03"
    assert f'name="draft" value="{draft.uid}"' in answer.content.decode()


def test_signing_afterwards_keeps_the_finding_and_the_one_caution(ada, taps, send):
    send("emptying", ada, **taps, saw="yes", **{"finding.colour": "dark"})
    draft = Draft.objects.get()
    answer = send("emptying", ada, **taps, alone="on", draft=str(draft.uid), **{"finding.colour": "dark"})
    assert answer.status_code == 303
    account = Account.objects.get()
    assert (account.event.uid, account.finding.colour) == (draft.event_uid, "dark")
    assert ada.cautions.count() == 1


def test_signing_at_once_with_a_worrying_value_stores_the_caution_too(ada, taps, send):
    """Scripts off and the button passed over: the caution must not be lost."""
    send("emptying", ada, **taps, alone="on", **{"finding.colour": "dark"})
    assert ada.cautions.get().sign == "dark-stoma"


def test_without_a_stoma_nothing_is_stored_and_the_page_asks_which(ada, stoma, send):
    answer = send("emptying", ada, saw="yes", **{"finding.colour": "dark"})
    assert answer.status_code == 422
    assert "Tap whose emptying this was" in words(answer)
    assert not ada.cautions.exists()


def test_signs_are_asked_only_where_they_fit(ward, ada, stoma, amber):
    page = words(amber.get(reverse("emptying", args=[ada.uid])))
    assert "Ileostomy silent after it had worked, with cramps or vomiting" in page
    assert "No urine" not in page


def test_skin_is_asked_in_words_that_hold_on_dark_skin(ada, stoma, amber):
    page = words(amber.get(reverse("emptying", args=[ada.uid])))
    assert "different from the skin near it (redder, darker, lighter, warm or sore)" in page
