"""B: the operation as far as the record holds it, needs, helpers, what is worn since when and how it was."""

from datetime import datetime

from teaching.rules.assess import TOLD_OF, Assessment
from teaching.rules.cautions import wear_ends
from teaching.rules.checklist import kit_at, lasts
from teaching.rules.due import NextChange
from teaching.rules.facts import BodyEvent, Chart, Learner, Stoma
from teaching.rules.handover.helper_hours import hours_there
from teaching.rules.handover.parts import Line, Who
from teaching.rules.huddle import spoken_date, when
from teaching.rules.reasons import words
from teaching.rules.spoken import hours, kit_words, learner_name
from teaching.rules.vocabulary import BODY_EVENTS, NEEDS, WEAR_ENDS


def background(chart: Chart, assessment: Assessment, now: datetime, who: Who) -> tuple[Line, ...]:
    lines = [Line(_operation(chart, now), "Operation"), Line(_needs(chart, who), "Needs")]
    helpers = [each for each in chart.learners if each.kind == "helper"]
    lines += [Line(_helper(chart, each, now), "Helper") for each in helpers] or [Line("none is named", "Helper")]
    for change in assessment.changes:
        stoma = chart.stoma(change.stoma)
        lines.append(Line(worn(chart, stoma, now), f"Wears{_which(chart, stoma)}"))
        lines.append(Line(_pouch(chart, change, now), f"Pouch{_which(chart, stoma)}"))
    return tuple(lines)


def _which(chart: Chart, stoma: Stoma) -> str:
    return f", {stoma.label}" if len(chart.stomas) > 1 else ""


def _operation(chart: Chart, now: datetime) -> str:
    if chart.surgery_at is None:
        said = "its day is not recorded"
    else:
        planned = "planned for " if chart.surgery_at > now else ""
        said = f"{planned}{spoken_date(chart.ward.date(chart.surgery_at))}"
    said += "; taught before it" if chart.taught_before else ""
    # those told of in the situation are not told twice
    states = [event for event in chart.body_events if lasts(event, now) and event.code not in TOLD_OF]
    return "; ".join([said, *(_state(chart, event, now) for event in sorted(states, key=lambda one: one.began))])


def _state(chart: Chart, event: BodyEvent, now: datetime) -> str:
    where = f" ({chart.stoma(event.stoma).label})" if event.stoma and len(chart.stomas) > 1 else ""
    return f"{BODY_EVENTS[event.code]}{where} since {when(event.began, chart.ward, now)}"


def _needs(chart: Chart, who: Who) -> str:
    language = f"teach in {who.language}" if who.language else "language not known"
    own = [NEEDS[code] for each in chart.learners if each.kind == "person" for code in NEEDS if code in each.needs]
    return "; ".join([language, *(own or ["no other need written down"])])


def _helper(chart: Chart, helper: Learner, now: datetime) -> str:
    needs = [NEEDS[code] for code in NEEDS if code in helper.needs]
    return "; ".join([learner_name(helper, ""), _yes(chart, helper, now), hours_there(helper, chart.ward, now), *needs])


def _yes(chart: Chart, helper: Learner, now: datetime) -> str:
    """Both answers with their days: such as "the person said yes Mon 10:00, the helper said yes Mon 14:00"."""
    said = []
    for whose, named in (("person", "the person"), ("helper", "the helper")):
        words = [one for one in chart.consents if (one.learner, one.whose) == (helper.key, whose) and one.at <= now]
        if not words:
            said.append(f"{named} was not asked yet")
            continue
        newest = max(words, key=lambda one: (one.at, not one.yes))
        said.append(f"{named} said {'yes' if newest.yes else 'no'} {when(newest.at, chart.ward, now)}")
    return ", ".join(said)


def worn(chart: Chart, stoma: Stoma, now: datetime) -> str:
    kit = kit_at(chart, stoma.key, now)
    if kit is None:
        return "no pouch is written down yet"
    said = [kit_words(kit)]
    if kit.pre_cut_mm:
        said.append(f"pre-cut at {kit.pre_cut_mm:g} mm")
    sized = [
        one for one in chart.findings if one.stoma == stoma.key and one.at <= now and one.width_mm and one.height_mm
    ]
    if not sized:
        return "; ".join([*said, "size of the stoma not known"])
    one = max(sized, key=lambda finding: finding.at)
    said.append(f"stoma {one.width_mm:g} by {one.height_mm:g} mm, measured {when(one.at, chart.ward, now)}")
    if one.opening_width_mm and one.opening_height_mm:
        said.append(f"opening {one.opening_width_mm:g} by {one.opening_height_mm:g} mm")
    return "; ".join(said)


def _pouch(chart: Chart, change: NextChange, now: datetime) -> str:
    if change.last is None:
        return "on since: not known, no change is recorded; so when the next is due is not known"
    said = [f"on since {when(change.last, chart.ward, now)} ({hours(now - change.last)})"]
    ends = [end for at, end in wear_ends(chart, change.stoma, now) if at <= change.last]
    if ends:
        said.append(f"the one before ended: {WEAR_ENDS[ends[-1]]}")
    if change.due:
        said.append(f"{'was due' if change.due < now else 'due'} {when(change.due, chart.ward, now)}")
    elif change.unknown:
        said.append(words(change.unknown).rstrip(".").lower())
    return "; ".join(said)
