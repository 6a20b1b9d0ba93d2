"""The handover beside the same page already written; and a whole shift of thirty."""

from io import BytesIO
from time import perf_counter, thread_time

import pikepdf
import pytest
import time_machine
from django.test import Client
from django.urls import reverse

from teaching.bedside.handover_page import HandoverPage
from teaching.papers import handover_sheets
from teaching.record.handing_over import known_of
from tests.bedside.ward import NIGHT, build_ward
from tests.benchmarks import handover_twin
from tests.benchmarks.measuring import in_turns, say, slowness
from tests.papers.reading import words
from tests.record.conftest import file_database  # noqa: F401

THIRTY = 30
RATIO, SECONDS = 1.5, 4  # of the issue
SCREEN = 3  # as for the shift page: read live from the record, beside no work at all


@pytest.fixture
def thirty_people(file_database):  # noqa: F811
    """Each with five emptyings behind them and a helper who learns too, leaving in two days."""
    with time_machine.travel(NIGHT, tick=True):
        ward = build_ward()
        for number in range(THIRTY):
            stay = ward.stay("Given", f"Family{number}", f"{'ABCDEF'[number // 5]}{number % 5 + 1}")
            stoma, helper = ward.stoma(stay), ward.helper(stay)
            for hours_ago, level in ((70, "03"), (52, "04"), (40, "06"), (20, "04"), (9, "06")):
                ward.teach(stay, stoma, hours_ago, level)
            ward.teach(stay, stoma, 5, ["06", "04", None, "03", "06"], learner=helper)
        ward.one = stay
        yield ward


@pytest.fixture
def client(thirty_people, settings):
    settings.ROOT_URLCONF = "tests.benchmarks.handover_twin"
    found = Client()
    found.force_login(thirty_people.user("amber"))
    handover_twin.CONSTANT |= {"unit": thirty_people.unit, "stay": thirty_people.one}
    return found


def beside(client, name, twin, of, rounds):
    addresses = reverse(name, args=[of.uid]), reverse(twin)
    return in_turns(*(lambda address=each: client.get(address) for each in addresses), rounds)


@pytest.mark.benchmark
def test_the_printed_handover_takes_at_most_one_and_a_half_times_an_equal_static_page(
    thirty_people, client, monkeypatch
):
    """The twin turns the very same HTML into a PDF."""
    stay, written = thirty_people.one, []
    usual = handover_sheets.render_to_string
    monkeypatch.setattr(
        handover_sheets, "render_to_string", lambda *args: written.append(usual(*args)) or written[-1]
    )
    ours_once = client.get(reverse("handover-paper", args=[stay.uid])).content
    monkeypatch.undo()
    assert len(written) == 1
    handover_twin.CONSTANT["html"] = written[0]
    assert words(client.get(reverse("paper-twin")).content) == words(ours_once)
    ours, floor = beside(client, "handover-paper", "paper-twin", stay, 20)
    say(f"handover of one person, PDF: {ours:.1f} ms, the same page static {floor:.1f} ms, "
        f"ratio {ours / floor:.2f} (at most {RATIO})")  # fmt: skip
    assert ours / floor <= RATIO


@pytest.mark.benchmark
def test_the_handover_on_screen_beside_its_twin(thirty_people, client):
    """Read live from the record, in twenty queries, and judged by the rules."""
    stay = thirty_people.one
    handover_twin.CONSTANT["page"] = HandoverPage(stay, known_of(stay, NIGHT), lambda permission: True)
    ours, floor = beside(client, "handover", "page-twin", stay, 40)
    say(f"handover of one person, screen: {ours:.1f} ms, twin {floor:.1f} ms, ratio {ours / floor:.2f}")
    assert ours / floor <= SCREEN


@pytest.mark.benchmark
def test_a_shift_of_thirty_is_printed_within_four_seconds(thirty_people, client):
    """The bound is on processor seconds, so that a busy machine does not fail it; on an idle one they are the same.

    The least of five counts: what else runs there can only add ("How to time", Python's own timeit page). Each is
    divided by how slow the machine was just before and after it.
    """
    address, taken, waited = reverse("shift-handover", args=[thirty_people.unit.uid]), [], []
    client.get(address)
    for _ in range(5):
        before, began, worked = slowness(), perf_counter(), thread_time()
        answer = client.get(address)
        seconds = thread_time() - worked
        waited.append(perf_counter() - began)
        taken.append((seconds / ((before + slowness()) / 2), seconds))
    with pikepdf.open(BytesIO(answer.content)) as printed:
        assert len(printed.pages) == THIRTY + 1
    least, seconds = min(taken)
    say(f"handover of a shift of {THIRTY} people, PDF with index: {seconds:.2f} s of processor time "
        f"(at most {SECONDS}, machine {seconds / least:.2f} times as slow), {min(waited):.2f} s waited")  # fmt: skip
    assert least < SECONDS
