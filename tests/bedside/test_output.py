"""Output: the fluid chart's 24-hour total, and nothing out since, both as asked. Limits: see tests/published."""

from django.urls import reverse

from teaching.models import NothingSince, OutputTotal
from teaching.record.charts import chart_for
from tests.bedside.reading import words

SEVEN = "2026-05-12 07:00"


def test_a_total_is_kept_as_the_chart_says_it(ada, stoma, send):
    answer = send("output-total", ada, ml="900", until_at_0=SEVEN)
    assert answer.status_code == 303
    total = OutputTotal.objects.get()
    assert (total.ml, total.stoma, total.source) == (900, stoma, "chart")
    assert not ada.cautions.exists()


def test_at_1500_it_asks_for_a_fluid_plan_and_at_2000_it_is_call_now(ada, stoma, send, amber):
    """Arenas Villafranca 2015 (1,500), Baker, Williams, Nightingale 2011 (2,000); the lists are common practice."""
    send("output-total", ada, ml="1499", until_at_0="2026-05-10 07:00")
    assert not ada.cautions.exists()
    send("output-total", ada, ml="1500", until_at_0="2026-05-11 07:00")
    assert ada.cautions.get().sign == "output-today"
    page = words(amber.get(reverse("person", args=[ada.uid])))
    assert "Output 1500 mL or more in 24 hours: ask for a fluid plan" in page
    send("output-total", ada, ml="2000", until_at_0=SEVEN)
    assert set(ada.cautions.values_list("sign", flat=True)) == {"output-today", "output-now"}


def test_the_same_sign_is_not_raised_twice_while_it_runs(ada, stoma, send):
    send("output-total", ada, ml="1600", until_at_0="2026-05-11 07:00")
    send("output-total", ada, ml="1700", until_at_0=SEVEN)
    assert ada.cautions.count() == 1


def test_bad_totals_are_refused_in_a_sentence_and_nothing_is_stored(ada, stoma, send):
    for fields, said in (
        ({"until_at_0": SEVEN}, "If there is none, leave this page: it is not known."),
        ({"ml": "lots", "until_at_0": SEVEN}, "Write a whole number of mL"),
        ({"ml": "-5", "until_at_0": SEVEN}, "-5 mL is not possible here; measure again, 0 to 20000 mL."),
        ({"ml": "900"}, "Say up to when the chart was added up."),
        ({"ml": "900", "until_at_0": "2026-05-14 07:00"}, "This time is still to come."),
    ):
        answer = send("output-total", ada, **fields)
        assert answer.status_code == 422
        assert said in words(answer)
    assert not OutputTotal.objects.exists()


def test_with_two_stomas_it_asks_which(ward, ada, stoma, send):
    ward.stoma(ada, "urostomy", "left", outlet="tap")
    answer = send("output-total", ada, ml="900", until_at_0=SEVEN)
    assert "Tap the stoma." in words(answer)
    assert send("output-total", ada, ml="900", until_at_0=SEVEN, which=str(stoma.uid)).status_code == 303


def test_nothing_since_is_asked_and_the_newest_answer_wins(ada, stoma, send):
    send("nothing-since", ada, has="nothing", since_at_0="2026-05-12 20:00")
    (kept,) = chart_for(ada).nothing
    assert kept.since.hour == 19  # 20:00 on the ward's clock, summer time
    send("nothing-since", ada, has="worked")
    assert chart_for(ada).nothing[0].since is None
    assert NothingSince.objects.count() == 2


def test_a_silent_ileostomy_with_cramps_is_tapped_and_never_inferred(ada, stoma, send):
    send("nothing-since", ada, has="nothing", since_at_0="2026-05-12 12:00")
    assert not ada.cautions.exists()
    send("nothing-since", ada, has="nothing", since_at_0="2026-05-12 12:00", signs="silent-ileostomy")
    assert ada.cautions.get().list == "call_now"


def test_nothing_since_needs_its_time_and_one_answer(ada, stoma, send):
    assert "Say since when" in words(send("nothing-since", ada, has="nothing"))
    assert "This says both." in words(send("nothing-since", ada, has="worked", since_at_0=SEVEN))
    early = send("nothing-since", ada, has="nothing", since_at_0="2026-05-01 07:00")
    assert "This is before the stoma was formed." in words(early)
    assert not NothingSince.objects.exists()


def test_an_assistant_may_store_a_total(ada, stoma, send, signed_in):
    assert send("output-total", ada, client=signed_in("ashby"), ml="900", until_at_0=SEVEN).status_code == 303
