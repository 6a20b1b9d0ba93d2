"""What is true of one learner on one stoma at one moment, worked out once for all rows."""

from dataclasses import dataclass
from datetime import datetime

from teaching.rules.checklist import concerns, kit_at, lasts
from teaching.rules.facts import Arrangement, BodyEvent, Chart, Consent, Item, Kit, Learner, Rating, Stoma
from teaching.rules.lines import Policy
from teaching.rules.occasions import BY_DATE, by_registered
from teaching.rules.reopening import Ask, asks, from_nothing, meanwhile

FIRST_STOOL_CALL = "first-stool-call"
FIRST_CONTACT = "first-contact"
NO_STOOL_YET = "no-stool-yet"


@dataclass(frozen=True, slots=True)
class Scene:
    """`meanwhile` are states during which nothing is relied on; `begins_again` when the stoma was re-sited."""

    chart: Chart
    policy: Policy
    now: datetime
    stoma: Stoma
    learner: Learner
    kit: Kit | None
    asks: tuple[Ask, ...]
    states: tuple[BodyEvent, ...]
    meanwhile: tuple[BodyEvent, ...]
    begins_again: datetime | None
    no_stool_yet: bool
    stool_call_booked: bool
    rechecks: dict[str, tuple[datetime, ...]]
    agreed: bool
    next_fact: datetime | None

    def local(self, moment: datetime) -> datetime:
        return self.chart.ward.local(moment)

    def seen(self, code: str) -> tuple[Rating, ...]:
        """What was seen of a row up to now, oldest first."""
        row = self.chart.by_row.get((self.stoma.key, code, self.learner.key), ())
        return row if self.next_fact is None else tuple(rating for rating in row if rating.at <= self.now)

    def practice_may_stand(self, item: Item) -> bool:
        """I6: only for emptying rows, only while real stool has not come."""
        return self.no_stool_yet and item.code.startswith("em-")


def set_scene(chart: Chart, policy: Policy, now: datetime, stoma: str, learner: str) -> Scene:
    the_stoma, the_learner = chart.stoma(stoma), chart.learner(learner)
    rechecks: dict[str, list[datetime]] = {}
    for tap in chart.rechecks:
        if tap.procedure in BY_DATE or not by_registered(tap.witness):
            continue  # a change is shown, never only asked after; and who asks is a registered nurse
        if (tap.stoma, tap.learner) == (stoma, learner) and tap.at <= now:
            rechecks.setdefault(tap.procedure, []).append(tap.at)
    states = tuple(event for event in chart.body_events if concerns(event, stoma) and lasts(event, now))
    return Scene(
        chart=chart, policy=policy, now=now, stoma=the_stoma, learner=the_learner,
        kit=kit_at(chart, stoma, now),
        asks=asks(chart, the_stoma, the_learner, now),
        states=states,
        meanwhile=meanwhile(chart, the_stoma, the_learner, now),
        begins_again=from_nothing(chart, the_stoma, now),
        no_stool_yet=any(event.code == NO_STOOL_YET for event in states),
        stool_call_booked=arranged(chart, FIRST_STOOL_CALL, now) is not None,
        rechecks={procedure: tuple(sorted(taps)) for procedure, taps in rechecks.items()},
        agreed=has_agreed(chart, the_learner, now),
        next_fact=next((moment for moment in chart.moments if moment > now), None),
    )


def arranged(chart: Chart, code: str, now: datetime) -> Arrangement | None:
    """The newest word on an arrangement, if it is that it was made. At the same moment anything else wins."""
    said = [one for one in chart.arrangements if one.code == code and one.at <= now]
    newest = max(said, key=lambda one: (one.at, one.state != "made"), default=None)
    return newest if newest and newest.state == "made" else None


def has_agreed(chart: Chart, learner: Learner, now: datetime) -> bool:
    """The person always; a helper when the newest word of both was yes."""
    said = (newest_consent(chart, learner, whose, now) for whose in ("person", "helper"))
    return learner.kind == "person" or all(one is not None and one.yes for one in said)


def newest_consent(chart: Chart, learner: Learner, whose: str, now: datetime) -> Consent | None:
    """The newest word of the person to this helper, or of the helper; None: nobody has asked. No wins at one moment."""
    said = (one for one in chart.consents if one.learner == learner.key and one.whose == whose and one.at <= now)
    return max(said, key=lambda one: (one.at, not one.yes), default=None)
