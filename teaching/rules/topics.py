"""When a topic is explained (I16): in own words, later than the telling, with the right person listening."""

from dataclasses import replace
from datetime import timedelta

from teaching.rules.checklist import Row
from teaching.rules.facts import Arrangement, Chart, Learner, Rating
from teaching.rules.reasons import Reason
from teaching.rules.scene import FIRST_CONTACT, Scene, arranged
from teaching.rules.standing import GAP, MISSING, Standing
from teaching.rules.vocabulary import OWN_LANGUAGE

TOLD, OWN_WORDS, NOT_YET = "told", "own_words", "not_yet"
TALK = (TOLD, OWN_WORDS, NOT_YET)
UNKNOWN = ("10", "88")
TRAINED, UNTRAINED = "trained", ("child", "adult")
ANOTHER_LANGUAGE = {"interpreter", "language"}


def needs_interpreter(chart: Chart, learner: Learner) -> bool:
    """Said so, another language, or a person to be taught in one. A helper's own language is told by their needs."""
    foreign = learner.kind == "person" and chart.language not in ("", OWN_LANGUAGE)
    return foreign or bool(ANOTHER_LANGUAGE & learner.needs)


def topic(scene: Scene, row: Row) -> Standing:
    """Where a learner stands in a topic. It is never out of date: a later "not yet" is what undoes it."""
    entries = scene.seen(row.code)
    talk = [entry for entry in entries if entry.answer in TALK]
    last = entries[-1] if entries else None
    base = Standing(scene.stoma.key, scene.learner.key, row, "not started", last=last, holds_until=scene.next_fact)
    if not talk:
        unknown = bool(entries) and all(entry.answer in UNKNOWN for entry in entries)
        return _with(base, "not started", MISSING if unknown else GAP, Reason("not-told"))
    undone = next((entry for entry in reversed(talk) if entry.answer == NOT_YET), None)
    since = [entry for entry in talk if undone is None or (entry.at > undone.at and entry.event != undone.event)]
    said = [entry for entry in since if entry.answer == OWN_WORDS]
    wanting: Reason | None = None
    for entry in reversed(said):
        found = _wanting(scene, talk, entry)
        if found is None:
            same_day = scene.chart.ward.date(entry.at) == scene.chart.ward.date(talk[0].at)
            reasons = (Reason("same-day"),) if same_day else ()
            return _with(base, "independent", "", *reasons, evidence=(talk[0], entry))
        wanting = wanting or found
    if wanting:
        return _with(base, "shown once", GAP, wanting)
    if undone is not None:
        explained = any(entry.answer == OWN_WORDS for entry in talk if entry.at < undone.at)
        return _with(base, "slipped" if explained else "learning", GAP, Reason("not-yet", at=scene.local(undone.at)))
    told = talk[0].at
    ask_from = scene.local(told + scene.policy.topic_wait)
    return _with(base, "learning", GAP, Reason("told", at=scene.local(told), since=ask_from))


def _wanting(scene: Scene, talk: list[Rating], said: Rating) -> Reason | None:
    """What keeps this saying from being an explanation; None where nothing does. The first entry is the telling.

    "Another nurse" is one who did not do some telling long enough before, so one more telling never takes it away.
    """
    told, wait = talk[0], scene.policy.topic_wait
    if said is told or said.at - told.at < wait:
        return Reason("too-soon", at=scene.local(said.at), since=scene.local(told.at + wait))
    if not _heard_rightly(scene, said.interpreter):
        return Reason("trained-interpreter")
    ward = scene.chart.ward
    if ward.date(said.at) != ward.date(told.at):
        return None
    others = (one for one in talk if said.at - one.at >= wait and one.witness.name != said.witness.name)
    if not any(others):
        return Reason("another-nurse")
    if not called_in_time(scene, arranged(scene.chart, FIRST_CONTACT, scene.now)):
        return Reason("contact-needed", hours=scene.policy.first_contact // timedelta(hours=1))
    return None


def _heard_rightly(scene: Scene, interpreter: str) -> bool:
    """Never through a child or the family, for anybody: whoever was interpreted for needed a trained one."""
    if interpreter == TRAINED:
        return True
    return interpreter not in UNTRAINED and not needs_interpreter(scene.chart, scene.learner)


def called_in_time(scene: Scene, call: Arrangement | None) -> bool:
    """Booked; and where both moments are known, from leaving to 72 h after it."""
    leaving = scene.chart.planned_at
    if call is None or call.due_at is None or leaving is None:
        return call is not None
    return leaving <= call.due_at <= leaving + scene.policy.first_contact


def _with(base: Standing, state: str, lack: str, *reasons: Reason, evidence: tuple[Rating, ...] = ()) -> Standing:
    held = state == "independent"
    return replace(base, state=state, evidence=evidence, second_floor=held, lack=lack, reasons=tuple(reasons))
