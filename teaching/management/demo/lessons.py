"""A lesson of a story as a signed session: its rows by the checklist, who rated beside, what was put right."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import timedelta

from teaching.management.demo import story
from teaching.management.demo.scene import Scene, finding
from teaching.models import Learner
from teaching.record import beside, corrections, sessions
from teaching.record.charts import chart_for
from teaching.record.entries import RatingEntry, SessionEntry
from teaching.rules.checklist import applicable
from teaching.rules.vocabulary import LEVEL_CODES, NOT_RATED_CODES, UNAIDED

PROOF = "password given within 15 minutes"


def taught(scene: Scene, each: story.Taught) -> None:
    learner = scene.helper if each.helper else scene.person
    assert learner is not None, "this story has no helper"
    began, actor = scene.at(each.at), scene.actors[each.by]
    answers = dict(_answers(scene, each))
    entry = SessionEntry(
        **scene.told(each), began_at=began, ended_at=began + timedelta(minutes=each.minutes),
        ratings=_ratings(learner, each, answers), place=each.place, language=scene.language,
        interpreter=each.interpreter, ended_how=each.ended_how, finding=finding(each.finding),
        role="student" if "student" in actor.roles else "taught",
    )  # fmt: skip
    account = sessions.record_session(actor=actor, entry=entry)
    if each.cosigned_by:
        sessions.cosign(actor=scene.actors[each.cosigned_by], account=account)
    if each.beside:
        second = replace(entry, finding=None, ratings=_ratings(learner, each, answers | each.beside_rows))
        beside.rate_beside(actor=scene.actors[each.beside], event=account.event, entry=second)
    if each.corrected:
        right = replace(entry, ratings=_ratings(learner, each, answers | each.corrected))
        corrections.correct_account(actor=replace(actor, proof=PROOF), account=account, entry=right, reason=each.why)


def _ratings(learner: Learner, each: story.Taught, answers: Mapping[str, str]) -> tuple[RatingEntry, ...]:
    return tuple(
        RatingEntry(
            learner=learner, code=code, answer=answer, practice=each.practice, reported=each.reported,
            reason=each.reason if answer in LEVEL_CODES and answer < UNAIDED else "",
        )
        for code, answer in answers.items()
    )  # fmt: skip


def _answers(scene: Scene, each: story.Taught) -> Iterator[tuple[str, str]]:
    """Row by row. A decision was judged rightly where the story says nothing else; one that is only a prompt is
    answered where everything was alone."""
    if each.procedure in story.ROWS:
        yield from (dict.fromkeys(story.ROWS[each.procedure], each.level) | dict(each.rows)).items()
        return
    for row in applicable(chart_for(scene.stay), str(scene.stoma(each).uid), scene.at(each.at)):
        if row.rated and row.item.procedure == each.procedure:
            said = each.rows.get(row.code) or each.rows.get(row.item.phase) or each.level
            if not said:
                continue  # not reached, so not rated
            if row.code in each.rows or not row.item.decision or said in NOT_RATED_CODES:
                yield row.code, said
            elif said == UNAIDED or row.essential:
                yield row.code, "right"
