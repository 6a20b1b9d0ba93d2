"""R: what to teach next, who is there at the next change, when to look again, whom to call and for what."""

from collections import Counter
from datetime import datetime

from teaching.rules.assess import Assessment
from teaching.rules.checklist import conditions, features, holds, kit_at, states_at
from teaching.rules.cover import Span, hours_of, hours_said
from teaching.rules.due import NextChange, named
from teaching.rules.facts import Appointment, Chart, Learner, Visit
from teaching.rules.handover.parts import Beside, Line
from teaching.rules.huddle import CALL_NOW, when
from teaching.rules.lines import Policy
from teaching.rules.reasons import words
from teaching.rules.scene import has_agreed
from teaching.rules.spoken import learner_name, rung
from teaching.rules.standing import Standing
from teaching.rules.vocabulary import PROCEDURES

OVER = ("cancelled", "missed", "held", "refused")


def asked(
    chart: Chart, assessment: Assessment, policy: Policy, now: datetime, person: str, beside: Beside
) -> tuple[Line, ...]:
    lines = _aims(chart, assessment, person) or [Line(_no_aim(assessment), "Teach")]
    lines += [Line(sentence, "Plan") for sentence in beside.plan]
    lines += [Line(_change(chart, change, now), "Next change") for change in assessment.changes]
    booked = [one for one in chart.appointments if one.at >= now and one.state not in OVER]
    lines += [Line(_appointment(chart, one, now, person), "Booked") for one in sorted(booked, key=lambda one: one.at)]
    if not booked:
        lines.append(Line("no time for teaching is booked", "Booked"))
    lines += [
        Line(f"{when(one.look_again_at, chart.ward, now)}: {one.words}", "Look again")
        for one in assessment.cautions
        if one.look_again_at
    ]
    visits = sorted((one for one in chart.visits if one.at >= now and one.state == "made"), key=lambda one: one.at)
    lines += [Line(_visit(chart, one, now), "After leaving") for one in visits]
    lines.append(Line(_ring(beside), "Call"))
    lines.append(Line(call_now_signs(chart, policy, now), "Call now if", brief=False))
    return tuple(lines)


def _aims(chart: Chart, assessment: Assessment, person: str) -> list[Line]:
    """What to teach next with the words to ask back. Steps of one name in two procedures say which."""
    named_alike = Counter(aim.row.item.title for aim in assessment.aims)
    return [
        Line(
            _aim(chart, aim, person, named_alike[aim.row.item.title] > 1),
            "Teach",
            more=f"Ask back: {aim.row.item.ask_back}" if aim.row.item.ask_back else "",
        )
        for aim in assessment.aims
    ]


def _aim(chart: Chart, aim: Standing, person: str, say_which: bool) -> str:
    learner = chart.learner(aim.learner)
    told = [PROCEDURES[aim.row.item.procedure].lower()] if say_which else []
    told += [chart.stoma(aim.stoma).label] if len(chart.stomas) > 1 else []
    told += [learner_name(learner, person)] if learner.kind == "helper" else []
    title = f"{aim.row.item.title} ({'; '.join(told)})" if told else aim.row.item.title
    return f"{title}. {words(aim.reasons[0])}" if aim.reasons else title


def _no_aim(assessment: Assessment) -> str:
    if assessment.waits:
        return words(assessment.waits)
    wanting = any(one.row.essential and not one.held for one in assessment.standings)
    if not assessment.standings:
        return "nothing is asked of anybody with what is written down now"
    return "nothing while this lasts" if wanting else "nothing more: every step asked for here is held now"


def _change(chart: Chart, change: NextChange, now: datetime) -> str:
    which = f"{named(chart, chart.stoma(change.stoma))}, " if len(chart.stomas) > 1 else ""
    if change.due is None:
        return f"{which}when it is due is not known"
    if change.due < now:
        return f"{which}was due {when(change.due, chart.ward, now)}"
    there = [learner_name(each, "") for each in chart.learners if _there(chart, each, change.due, now)]
    hours = f"; by their hours {' and '.join(there)} can be there" if there else ""
    return f"{which}due {when(change.due, chart.ward, now)}{hours}"


def _there(chart: Chart, helper: Learner, at: datetime, now: datetime) -> bool:
    """A helper who has agreed and whose hours hold that whole hour."""
    if helper.kind != "helper" or not has_agreed(chart, helper, now) or not hours_said(helper):
        return False
    hour = at.replace(minute=0, second=0, microsecond=0)
    return bool(hours_of(chart, helper, Span(hour, hour, 1)))


def _appointment(chart: Chart, one: Appointment, now: datetime, person: str) -> str:
    what = PROCEDURES.get(one.procedure, one.procedure).lower()
    there = [learner_name(each, person) for each in chart.learners if each.key in one.learners]
    said = [f"{when(one.at, chart.ward, now)}, {what}{' as practice' if one.practice else ''}"]
    said.append(f"with {' and '.join(there)}" if there else "who is to learn is not written down")
    said.append(f"teacher {one.teacher}" if one.teacher else "no teacher named")
    if one.teacher and not one.may_teach:
        said.append("who may not teach this yet" if one.may_teach is False else "whether they may teach is not known")
    said += ["interpreter booked"] if one.interpreter else []
    said += [f"aim: {one.aim}"] if one.aim else []
    return "; ".join(said)


def _visit(chart: Chart, one: Visit, now: datetime) -> str:
    what = "to change the pouch" if one.for_change else "to look"
    by = f", accepted by {one.accepted_by}" if one.accepted_by else ""
    return f"{one.service or 'a nurse'} comes {when(one.at, chart.ward, now)} {what}{by}"


def _ring(beside: Beside) -> str:
    said = [f"{label} {number}{f' ({hours})' if hours else ''}" for label, number, hours in rung(beside.phones)]
    return "; ".join(said) or "no number is written down for this unit"


def call_now_signs(chart: Chart, policy: Policy, now: datetime) -> str:
    """The unit's call-now signs that fit one of these stomas."""
    present = [features(one, kit_at(chart, one.key, now), states_at(chart, one.key, now)) for one in chart.stomas]
    fitting = [
        policy.words(sign)
        for sign in policy.signs
        if sign.list == CALL_NOW and any(holds(conditions(sign.applies), words) for words in present)
    ]
    return "; ".join(fitting) or "no stoma is written down yet"
