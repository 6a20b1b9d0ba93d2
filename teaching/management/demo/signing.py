"""Two readiness records of the demo, read and signed by the stoma nurse, so that there are kept papers to reprint."""

from collections.abc import Mapping
from dataclasses import replace

from django.utils import timezone

from teaching.management.demo.lessons import PROOF
from teaching.models import Stay
from teaching.papers.dated import dated
from teaching.papers.read_readiness import record_of
from teaching.papers.readiness_record import MEANING
from teaching.papers.readiness_sheets import readiness_pdf
from teaching.record.actor import Actor
from teaching.record.arrangements import make_arrangement
from teaching.record.kept_papers import keep_paper
from teaching.rules.paper_kinds import READINESS


def sign_readiness(actor: Actor, name: str, role: str, stay: Stay) -> None:
    """As it stands now, word for word: after what is arranged for home, which is written at the moment of loading."""
    now = timezone.now()
    chart, paper = record_of(stay, stay.now.unit, now)
    signed = paper.signed(name, role, dated(now, chart.ward))
    keep_paper(
        actor=replace(actor, proof=PROOF), stay=stay, kind=READINESS, meaning=MEANING, content=signed.plain,
        pdf=readiness_pdf(signed), revision=chart.revision, policy_version=paper.policy,
    )  # fmt: skip


def sign_records(sorrel: Actor, planner: Actor, stays: Mapping[str, Stay]) -> None:
    """One that stands as it was signed, and one since which something was written: its cover sheet says what."""
    for family in ("Fernhollow", "Underhill"):
        sign_readiness(sorrel, "Sorrel Vane", "stoma nurse", stays[family])
    make_arrangement(actor=planner, stay=stays["Underhill"], code="spare-kit", state="made")
