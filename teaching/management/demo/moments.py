"""How each kind of moment of a story becomes a verb of the record."""

import uuid
from collections.abc import Callable
from typing import Any

from teaching.management.demo import story
from teaching.management.demo.lessons import taught
from teaching.management.demo.scene import Scene, finding, kit_entry
from teaching.record import cautions, drafts, sessions, stays, stomas
from teaching.record.after_home import record_after_home
from teaching.record.entries import CareEntry, RecheckEntry
from teaching.record.output import note_nothing_since


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


def silent(scene: Scene, each: story.Silent) -> None:
    note_nothing_since(actor=scene.actors[each.by], stoma=scene.stoma(each), since_at=scene.at(each.since))


def left(scene: Scene, each: story.Left) -> None:
    actor = scene.actors[each.by]
    stays.note_stay_event(actor=actor, stay=scene.stay, kind="left", left_to=each.to, at=scene.at(each.at))


def rang(scene: Scene, each: story.Rang) -> None:
    record_after_home(
        actor=scene.actors[each.by], stay=scene.stay, kind=each.kind, at=scene.at(each.at), told=each.told
    )


HAPPEN: dict[type, Callable[[Scene, Any], None]] = {
    story.Taught: taught,
    story.Cared: cared,
    story.Rechecked: rechecked,
    story.Refitted: refitted,
    story.Body: body,
    story.Output: output,
    story.Cautioned: cautioned,
    story.Begun: begun,
    story.Silent: silent,
    story.Left: left,
    story.Rang: rang,
}
