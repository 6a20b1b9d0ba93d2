"""A stay that was purged comes back from its file as it was."""

import pytest
import time_machine

from teaching.management.demo.play import play
from teaching.models import Clinician, SignOff, Stay, StayNow
from teaching.record.figures import worked_out
from teaching.record.purging import purge_stay
from teaching.record.whole_in import take_in_stay
from tests.exchange.moving import AFTERNOON, LATER, exported, judged, same

pytestmark = pytest.mark.django_db  # each test in its own savepoint over the house


@pytest.fixture(scope="module")
def house(module_record):
    with time_machine.travel(AFTERNOON, tick=False):
        return play(AFTERNOON)


@pytest.mark.parametrize("family", ["Fernhollow", "Underhill", "Thornbury", "Meadowsweet"])
def test_after_a_purge_it_comes_back_whole(house, family):
    with time_machine.travel(LATER, tick=False):
        stay, actor = house.stays[family], house.actors["amber"]
        told, before = exported(stay), judged(stay)
        sign_offs = SignOff.objects.count()
        purge_stay(actor=actor, agreed_by=house.actors["linden"].clinician, stay=stay, why="To be brought back.")
        assert not Stay.objects.filter(uid=stay.uid).exists()
        back = take_in_stay(actor=actor, told=told, file_sha256="0" * 64)
        same(judged(back), before)
        assert not Clinician.objects.filter(source="imported").exists(), "those who work here stay who they are"
        assert SignOff.objects.count() == sign_offs
        kept = StayNow.objects.get(stay=back)
        assert kept.assessed == worked_out(back, LATER)["assessed"] and kept.revision == told["stay"]["revision"]
