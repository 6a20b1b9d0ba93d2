"""A nurse's ask to be observed: paired with a change by herself or by a holder, answered, taken back."""

from datetime import timedelta
from functools import partial

from teaching.models import ObservationAsk, TrailLine
from teaching.record.skills import ask_to_be_observed, asks_on, open_ask, pair_ask, take_back_ask
from tests.bedside.ward import NIGHT
from tests.record.test_skills import at_night, refused, ward  # noqa: F401
from tests.skills import observe


def test_an_ask_is_closed_by_a_practice_and_may_be_taken_back(ward):  # noqa: F811
    basil, unit = ward.staff["basil"], ward.unit
    ask_to_be_observed(
        actor=basil, unit=unit, skill="change", paired_at=NIGHT + timedelta(hours=9), bed="A1"
    )
    assert open_ask(basil.clinician.pk, unit, "change").bed == "A1"
    observe(ward.staff["amber"], basil, unit)
    assert open_ask(basil.clinician.pk, unit, "change") is None
    assert "not asked" in refused(take_back_ask, actor=basil, unit=unit, skill="change")[0]
    past = NIGHT - timedelta(hours=1)
    assert "is past" in refused(ask_to_be_observed, actor=basil, unit=unit, skill="change", paired_at=past)[0]
    ask_to_be_observed(actor=basil, unit=unit, skill="change")
    take_back_ask(actor=basil, unit=unit, skill="change")
    states = list(ObservationAsk.objects.order_by("number").values_list("state", flat=True))
    assert states == ["paired", "seen", "asked", "withdrawn"]


def test_a_holder_pairs_the_ask_of_another_with_a_change_to_come(ward):  # noqa: F811
    basil, amber, unit = ward.staff["basil"], ward.staff["amber"], ward.unit
    pair = partial(pair_ask, nurse=basil.clinician, unit=unit, skill="change", bed="A1")
    soon = NIGHT + timedelta(hours=9)
    assert "does not ask any more" in refused(pair, actor=amber, paired_at=soon)[0]
    ask_to_be_observed(actor=basil, unit=unit, skill="change")
    assert "is past" in refused(pair, actor=amber, paired_at=NIGHT - timedelta(seconds=1))[0]
    assert "your own ask" in refused(pair, actor=basil, paired_at=soon)[0]
    assert "Only somebody signed off then" in refused(pair, actor=ward.staff["edda"], paired_at=soon)[0]
    lapsed = NIGHT + timedelta(days=201)
    assert "Only somebody signed off then" in refused(pair, actor=amber, paired_at=lapsed)[0]
    assert ObservationAsk.objects.count() == 1
    made = pair(actor=amber, paired_at=soon)
    assert (made.nurse, made.by, made.state, made.number) == (basil.clinician, amber.clinician, "paired", 2)
    line = TrailLine.objects.order_by("-pk").first()
    assert (line.verb, line.actor, line.unit) == ("pair_ask", str(amber.clinician.uid), str(unit.uid))
    assert str(made.uid) in line.object
    assert [each.paired_by for each in asks_on(unit)] == ["Amber Oakley"]


def test_the_nurse_asks_anew_or_takes_back_what_a_holder_paired(ward):  # noqa: F811
    basil, amber, unit = ward.staff["basil"], ward.staff["amber"], ward.unit
    soon = NIGHT + timedelta(hours=9)
    for again in (ask_to_be_observed, take_back_ask):
        ask_to_be_observed(actor=basil, unit=unit, skill="change")
        pair_ask(actor=amber, nurse=basil.clinician, unit=unit, skill="change", paired_at=soon, bed="A1")
        again(actor=basil, unit=unit, skill="change")
        assert [(each.state, each.bed, each.paired_by) for each in asks_on(unit)] in ([], [("asked", "", "")])
    assert open_ask(basil.clinician.pk, unit, "change") is None
