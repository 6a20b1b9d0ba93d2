"""The plan on the readiness page: its sentence, a timeline with words behind it, and what a helper could learn now."""

from django.urls import reverse

from tests.bedside.reading import words


def page(amber, ada):
    return amber.get(reverse("readiness", args=[ada.uid]))


def test_the_plan_says_when_and_draws_the_chances(amber, ada, stoma):
    told = page(amber, ada)
    assert "The plan" in words(told)
    assert "Chances to teach." in told.content.decode()
    assert "Emptying:" in words(told)


def test_a_helper_who_is_here_now(amber, ward, ada, stoma):
    assert "is here now?" not in words(page(amber, ada))
    ward.helper(ada)
    assert "Hugo is here now? In ten minutes:" in words(page(amber, ada))
