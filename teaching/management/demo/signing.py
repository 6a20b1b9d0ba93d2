"""One readiness record of the demo, read and signed by the stoma nurse, so that there is a kept paper to reprint."""

from dataclasses import replace
from datetime import datetime

from teaching.management.demo.lessons import PROOF
from teaching.models import Stay
from teaching.papers.dated import dated
from teaching.papers.read_readiness import record_of
from teaching.papers.readiness_record import MEANING
from teaching.papers.readiness_sheets import readiness_pdf
from teaching.record.actor import Actor
from teaching.record.kept_papers import keep_paper
from teaching.rules.paper_kinds import READINESS


def sign_readiness(actor: Actor, name: str, role: str, stay: Stay, now: datetime) -> None:
    """As it stands at `now`, word for word."""
    chart, paper = record_of(stay, stay.now.unit, now)
    signed = paper.signed(name, role, dated(now, chart.ward))
    keep_paper(
        actor=replace(actor, proof=PROOF), stay=stay, kind=READINESS, meaning=MEANING, content=signed.plain,
        pdf=readiness_pdf(signed), revision=chart.revision, policy_version=paper.policy,
    )  # fmt: skip
