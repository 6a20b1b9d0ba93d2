"""One person's handover, put together from its four parts."""

from datetime import datetime

from teaching.rules.assess import Assessment
from teaching.rules.facts import Chart
from teaching.rules.handover.asked import asked
from teaching.rules.handover.background import background
from teaching.rules.handover.parts import Beside, Handover, Part, Who
from teaching.rules.handover.shown import shown
from teaching.rules.handover.situation import situation
from teaching.rules.huddle import caution_line, spoken_date, stoma_words, when
from teaching.rules.lines import Policy
from teaching.rules.ward import Ward

NOTHING_BESIDE = Beside()


def handover(
    chart: Chart, assessment: Assessment, policy: Policy, now: datetime, who: Who, beside: Beside = NOTHING_BESIDE
) -> Handover:
    """The handover as it stands at `now` (UTC); `assessment` is of that same moment."""
    return Handover(
        who=who,
        stomas=stoma_words(chart.stomas, chart.ward, now) if chart.stomas else "no stoma written down yet",
        at=clock(chart.ward, now),
        cautions=tuple(caution_line(each, chart.ward, now) for each in assessment.cautions),
        parts=(
            Part("S", "Situation", situation(chart, assessment, now, beside)),
            Part("B", "Background", background(chart, assessment, now, who)),
            Part("A", "What was shown", shown(chart, assessment, now, who.name)),
            Part("R", "What is asked", asked(chart, assessment, policy, now, who.name, beside)),
        ),
        standing=_standing(chart, now, beside),
    )


def clock(ward: Ward, now: datetime) -> str:
    """Such as "Wed 13 May 2026 13:40"."""
    here = ward.local(now)
    return f"{spoken_date(here.date())} {here.year} {here:%H:%M}"


def _standing(chart: Chart, now: datetime, beside: Beside) -> tuple[str, ...]:
    said = [
        f"Draft: begun {when(each.at, chart.ward, now)} by {each.by}, not signed. It is not counted here."
        for each in beside.begun
    ]
    if beside.amended_at:
        said.append(f"Amended: an entry was last corrected or taken back {when(beside.amended_at, chart.ward, now)}.")
    return tuple(said)
