"""Who is learning: named helpers, their yes (and its taking back), their hours, and what makes learning harder."""

from collections.abc import Mapping, Sequence
from datetime import UTC, datetime

from django.utils import timezone

from teaching.models import Learner, LearnerConsent, LearnerHours, LearnerNeed, Stay
from teaching.record.actor import Actor
from teaching.record.checking import Faults, somebody
from teaching.record.entries import LearnerEntry
from teaching.record.figures import refresh
from teaching.record.refusals import refuse
from teaching.record.writing import done, next_number, writing
from teaching.rules.vocabulary import CONSENT_WHOSE, NEEDS

HOURS_IN_A_WEEK = 168


def add_learner(*, actor: Actor, stay: Stay, entry: LearnerEntry) -> Learner:
    """A named helper, with each yes that was already given and the hours they can be there."""
    clinician = somebody(actor)
    now = timezone.now()
    faults = Faults()
    faults.text("name", entry.name, 120, "The helper's name")
    faults.text("relation", entry.relation, 60)
    said = {"person": entry.person_said_yes_at, "helper": entry.helper_said_yes_at}
    for whose, at in said.items():
        faults.moment(f"{whose}_said_yes_at", at, now, needed=False)
    _check_hours(faults, entry.week, entry.minutes_away)
    faults.stop()
    with writing(stay) as locked:
        assert locked is not None
        name = entry.name.strip()
        if Learner.objects.filter(stay=stay, kind="helper", name__iexact=name).exists():
            refuse("name", f"{name} is already a helper of this person; go on with them.")
        learner = Learner.objects.create(
            stay=stay, kind="helper", name=name, relation=entry.relation.strip(), by=clinician
        )
        given = [(whose, at) for whose, at in said.items() if at is not None]
        for number, (whose, at) in enumerate(given, 1):
            LearnerConsent.objects.create(
                stay=stay, learner=learner, number=number, whose=whose, yes=True, at=at, by=clinician
            )
        if entry.week or entry.lives_in or entry.minutes_away is not None:
            LearnerHours.objects.create(
                stay=stay, learner=learner, week=entry.week or "0" * HOURS_IN_A_WEEK,
                lives_in=entry.lives_in, minutes_away=entry.minutes_away, by=clinician,
            )
        refresh(stay)
        done(actor, "add_learner", learner, stay=stay, unit=locked.unit)
    return learner


def record_consent(*, actor: Actor, learner: Learner, whose: str, yes: bool, at: datetime) -> LearnerConsent:
    """A yes, or a yes taken back: the person's to this helper, or the helper's own."""
    clinician = somebody(actor)
    faults = Faults()
    faults.word("whose", whose, CONSENT_WHOSE)
    faults.moment("at", at, timezone.now())
    if learner.kind != "helper":
        faults.add("learner", "Only a helper is asked for; the person needs nobody's yes.")
    faults.stop()
    with writing(learner.stay) as locked:
        assert locked is not None
        made = LearnerConsent.objects.create(
            stay_id=learner.stay_id, learner=learner, number=next_number(LearnerConsent, learner=learner),
            whose=whose, yes=yes, at=at, by=clinician,
        )
        refresh(learner.stay)
        done(actor, "record_consent", made, stay=learner.stay, unit=locked.unit)
    return made


def record_need(
    *, actor: Actor, learner: Learner, code: str, words: str = "", present: bool = True
) -> LearnerNeed:
    """What makes learning harder for this learner; `present` False takes it back."""
    clinician = somebody(actor)
    faults = Faults()
    faults.word("code", code, NEEDS)
    faults.text("words", words, 200)
    faults.stop()
    with writing(learner.stay) as locked:
        assert locked is not None
        made = LearnerNeed.objects.create(
            stay_id=learner.stay_id, learner=learner, number=next_number(LearnerNeed, learner=learner),
            code=code, words=words.strip(), present=present, by=clinician,
        )
        refresh(learner.stay)
        done(actor, "record_need", made, stay=learner.stay, unit=locked.unit)
    return made


def record_hours(
    *,
    actor: Actor,
    learner: Learner,
    week: str,
    exceptions: Sequence[Mapping[str, object]] = (),
    lives_in: bool = False,
    minutes_away: int | None = None,
) -> LearnerHours:
    """When a helper is there: 168 characters 0 or 1, an hour each, from Monday 00:00 on the ward's clock.

    `exceptions` are {"from", "to", "there"}: aware moments (or their ISO text), and whether there then.
    """
    clinician = somebody(actor)
    faults = Faults()
    if not week:
        faults.add("week", "Say at which hours of the week the helper is there.")
    _check_hours(faults, week, minutes_away)
    if learner.kind != "helper":
        faults.add("learner", "Only a helper has hours; the person is always there.")
    spans = _exceptions(faults, exceptions)
    faults.stop()
    with writing(learner.stay) as locked:
        assert locked is not None
        made = LearnerHours.objects.create(
            stay_id=learner.stay_id, learner=learner, number=next_number(LearnerHours, learner=learner),
            week=week, exceptions=spans, lives_in=lives_in,
            minutes_away=minutes_away, by=clinician,
        )
        refresh(learner.stay)
        done(actor, "record_hours", made, stay=learner.stay, unit=locked.unit)
    return made


def _check_hours(faults: Faults, week: str, minutes_away: int | None) -> None:
    if week and (len(week) != HOURS_IN_A_WEEK or set(week) - {"0", "1"}):
        faults.add("week", "The week is 168 hours from Monday 00:00, each 0 or 1.")
    faults.between("minutes_away", minutes_away, 0, 32767, "minutes")


def _exceptions(faults: Faults, told: Sequence[Mapping[str, object]]) -> list[dict[str, object]]:
    """As they are kept: ISO text in UTC. A span ends after it begins, and says whether they are there."""
    kept: list[dict[str, object]] = []
    for each in told:
        try:
            start, end = (_moment(each.get(name)) for name in ("from", "to"))
        except (TypeError, ValueError):
            faults.add("exceptions", "Each exception needs two times with their zone, from and to.")
            continue
        if end <= start:
            faults.add("exceptions", "An exception ends before it starts; correct one of its two times.")
        if not isinstance(each.get("there"), bool):
            faults.add("exceptions", "Say of each exception whether they are there or not.")
        kept.append({"from": start.isoformat(), "to": end.isoformat(), "there": each.get("there")})
    return kept


def _moment(told: object) -> datetime:
    moment = told if isinstance(told, datetime) else datetime.fromisoformat(str(told))
    if moment.tzinfo is None:
        raise ValueError("no zone")
    return moment.astimezone(UTC)
