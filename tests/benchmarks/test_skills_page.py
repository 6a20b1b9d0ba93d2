"""Nurses by skill for 120 nurses and 3 skills, four practices of each, beside its twin with constant data."""

from datetime import timedelta

import pytest
import time_machine
from django.test import Client
from django.urls import reverse

from teaching.models import Practice, SignOff, SkillVersion
from teaching.record.staff import grant_role, register_clinician
from tests.bedside.ward import HOUSE, NIGHT, build_ward
from tests.benchmarks import twin
from tests.benchmarks.measuring import in_turns, say
from tests.record.conftest import file_database  # noqa: F401
from tests.skills import publish

NURSES = 120


@pytest.fixture
def many_nurses(file_database):  # noqa: F811
    """A third signed off, a third practising, a third lapsed; everybody observed four times in each skill."""
    with time_machine.travel(NIGHT, tick=True):
        ward = build_ward()
        publish(HOUSE)
        versions = list(SkillVersion.objects.all())
        amber = ward.staff["amber"].clinician
        for number in range(NURSES - 4):  # Amber, Basil, Ashby and Edda stand in the grid already
            clinician = register_clinician(actor=HOUSE, name=f"Given Family{number}", grade="registered")
            grant_role(actor=HOUSE, clinician=clinician, role="ward-nurse", unit=ward.unit)
            for version in versions:
                levels = dict.fromkeys([row["code"] for row in version.content["rows"]], "5")
                Practice.objects.bulk_create(
                    Practice(
                        nurse=clinician, assessor=amber, by=amber, skill_version=version, unit=ward.unit, number=n + 1,
                        setting="person", levels=levels, at=NIGHT - timedelta(days=30 * n + 1),
                    )
                    for n in range(4)
                )
                if number % 3:
                    until = NIGHT + timedelta(days=100 if number % 3 == 1 else -10)
                    SignOff.objects.create(
                        nurse=clinician, assessor=amber, by=amber, skill=version.skill, number=1, kind="granted",
                        valid_from=NIGHT - timedelta(days=60), valid_until=until, certificate="Made-up college",
                    )
        yield ward


@pytest.mark.benchmark
def test_the_grid_takes_at_most_three_times_its_twin(many_nurses, settings):
    settings.ROOT_URLCONF = "tests.benchmarks.twin"
    unit, client = many_nurses.unit, Client()
    client.force_login(many_nurses.user("edda"))
    grid = reverse("nurses-by-skill", args=[unit.uid])
    page = client.get(grid).context["page"]
    twin.CONSTANT |= {"unit": unit, "page": page, "template": "teaching/education/nurses_by_skill.html"}
    addresses = grid, reverse("twin")
    pages = [client.get(address).content for address in addresses]
    assert [page.count(b'<th scope="row"') for page in pages] == [NURSES, NURSES]
    assert pages[0].count(b"state-word") == pages[1].count(b"state-word") == NURSES * 3 - 2
    ours, floor = in_turns(*(lambda address=each: client.get(address) for each in addresses), rounds=30)
    say(f"nurses by skill, {NURSES} nurses: {ours:.1f} ms, twin {floor:.1f} ms, ratio {ours / floor:.2f} (at most 3)")
    assert ours / floor <= 3
