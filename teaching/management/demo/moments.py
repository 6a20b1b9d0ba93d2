"""How each kind of moment of a story becomes a verb of the record."""

import uuid
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from decimal import Decimal
from typing import Any

from teaching.management.demo import story
from teaching.models import Learner, Stay, Stoma
from teaching.record import cautions, drafts, sessions, stomas
from teaching.record.actor import Actor
from teaching.record.entries import (
    CareEntry,
    FindingEntry,
    KitEntry,
    RatingEntry,
    RecheckEntry,
    SessionEntry,
)


@dataclass
class Scene:
    """One person's stay while their story is played: who acts, which stomas by side, who learns."""

    now: datetime
    actors: Mapping[str, Actor]
    stay: Stay
    person: Learner
    helper: Learner | None = None
    stomas: dict[str, Stoma] = field(default_factory=dict)

    def at(self, text: str) -> datetime:
        return story.moment(text, self.now)

    def stoma(self, each: story.Moment) -> Stoma:
        """The one named by its side, else the only one."""
        return self.stomas[each.stoma] if each.stoma else next(iter(self.stomas.values()))

    def told(self, each: story.Moment) -> dict[str, Any]:
        """Who, when and which stay: what most entries begin with."""
        return {"stay": self.stay, "stoma": self.stoma(each), "procedure": getattr(each, "procedure", "")}


def kit_entry(pouch: story.Pouch, since: datetime) -> KitEntry:
    return KitEntry(
        pieces=pouch.pieces, opening=pouch.opening, closure=pouch.closure, outlet=pouch.outlet,
        items=pouch.items, interval_hours=pouch.interval_hours, happened_at=since,
    )  # fmt: skip


def finding(seen: Mapping[str, Any]) -> FindingEntry | None:
    if not seen:
        return None
    return FindingEntry(
        **{name: Decimal(value) if name.endswith("_mm") else value for name, value in seen.items()}
    )


def taught(scene: Scene, each: story.Taught) -> None:
    learner = scene.helper if each.helper else scene.person
    assert learner is not None, "this story has no helper"
    levels = dict.fromkeys(story.ROWS[each.procedure], each.level) | dict(each.rows)
    ratings = tuple(
        RatingEntry(learner=learner, code=code, answer=level, practice=each.practice,
                    reason=each.reason if level < "06" else "")
        for code, level in levels.items()
    )  # fmt: skip
    began = scene.at(each.at)
    actor = scene.actors[each.by]
    account = sessions.record_session(
        actor=actor,
        entry=SessionEntry(
            **scene.told(each), began_at=began, ended_at=began + timedelta(minutes=each.minutes),
            ratings=ratings, place=each.place, language="en", finding=finding(each.finding),
            role="student" if "student" in actor.roles else "taught",
        ),
    )  # fmt: skip
    if each.cosigned_by:
        sessions.cosign(actor=scene.actors[each.cosigned_by], account=account)


def cared(scene: Scene, each: story.Cared) -> None:
    entry = CareEntry(**scene.told(each), at=scene.at(each.at), finding=finding(each.finding))
    sessions.record_care(actor=scene.actors[each.by], entry=entry)


def rechecked(scene: Scene, each: story.Rechecked) -> None:
    entry = RecheckEntry(**scene.told(each), learner=scene.person, at=scene.at(each.at))
    sessions.record_recheck(actor=scene.actors[each.by], entry=entry)


def refitted(scene: Scene, each: story.Refitted) -> None:
    entry = kit_entry(each.pouch, scene.at(each.at))
    stomas.fit_kit(actor=scene.actors[each.by], stoma=scene.stoma(each), entry=entry)


def body(scene: Scene, each: story.Body) -> None:
    stomas.note_body_event(
        actor=scene.actors[each.by], stay=scene.stay, code=each.code, change=each.change, at=scene.at(each.at)
    )


def output(scene: Scene, each: story.Output) -> None:
    sessions.record_output_total(
        actor=scene.actors[each.by], stoma=scene.stoma(each), until_at=scene.at(each.at), ml=each.ml
    )


def cautioned(scene: Scene, each: story.Cautioned) -> None:
    actor = scene.actors[each.by]
    caution = cautions.raise_caution(
        actor=actor, stay=scene.stay, sign=each.sign, at=scene.at(each.at), stoma=scene.stoma(each)
    )
    if each.told:
        cautions.tell_caution(
            actor=actor, caution=caution, whom=each.whom, at=scene.at(each.told), answer=each.answer,
            look_again_at=scene.at(each.look_again) if each.look_again else None,
        )  # fmt: skip
    if each.settled:
        cautions.settle_caution(actor=actor, caution=caution, at=scene.at(each.settled))


def begun(scene: Scene, each: story.Begun) -> None:
    actor = scene.actors[each.by]
    draft = drafts.begin_draft(actor=actor, **scene.told(each))
    for code, level in each.rows.items():
        drafts.tap(actor=actor, draft=draft, client_id=uuid.uuid4(), field=f"ratings.{code}", value=level)


HAPPEN: dict[type, Callable[[Scene, Any], None]] = {
    story.Taught: taught,
    story.Cared: cared,
    story.Rechecked: rechecked,
    story.Refitted: refitted,
    story.Body: body,
    story.Output: output,
    story.Cautioned: cautioned,
    story.Begun: begun,
}
