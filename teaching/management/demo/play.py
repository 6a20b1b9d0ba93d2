"""Plays the cast and the stories into an empty record, by its own verbs and nothing else."""

import json
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta
from pathlib import Path

from django.db import transaction

from teaching.management.demo.cast import (
    CAST,
    HERON,
    LEAVE_HOUR,
    PHONES,
    PHRASES,
    SHIFTS,
    SLOTS,
    UNITS,
    ZONE,
    Worker,
)
from teaching.management.demo.going_home import arrange_home
from teaching.management.demo.later_stories import LATER_STORIES
from teaching.management.demo.moments import HAPPEN
from teaching.management.demo.more_stories import MORE_STORIES
from teaching.management.demo.passphrases import passphrase
from teaching.management.demo.past import finished_stays
from teaching.management.demo.practising import practise
from teaching.management.demo.scene import Scene, kit_entry
from teaching.management.demo.signing import sign_records
from teaching.management.demo.stories import STORIES
from teaching.management.demo.story import Helper, Story, moment
from teaching.models import Learner, Stay, Unit
from teaching.record import checklists, learners, places, staff, stays, stomas
from teaching.record.actor import Actor
from teaching.record.entries import LearnerEntry, StayEntry, StomaEntry

CHECKLIST = Path(__file__).resolve().parents[3] / "fixtures" / "checklist-1.json"
EVERYONE = (*STORIES, *MORE_STORIES, *LATER_STORIES)
HOUSE = Actor(clinician=None)  # the command line setting up: nobody is signed in yet
TWO_YEARS = timedelta(days=730)
ADMITTED_BEFORE_SURGERY = timedelta(hours=3)


@dataclass
class Demo:
    """The invented hospital as it stands so far. `passphrases` by username, in the order of the cast."""

    now: datetime
    units: dict[str, Unit] = field(default_factory=dict)
    actors: dict[str, Actor] = field(default_factory=dict)
    passphrases: dict[str, str] = field(default_factory=dict)
    stays: dict[str, Stay] = field(default_factory=dict)


@transaction.atomic
def play(now: datetime, progress: Callable[[str], None] = lambda words: None) -> Demo:
    """The whole demo or, where a verb refuses, nothing of it. `now` must not be after the server's clock."""
    demo = Demo(now)
    content = json.loads(CHECKLIST.read_text(encoding="utf-8"))
    version = checklists.publish_checklist(actor=HOUSE, content=content)
    for name in UNITS:
        demo.units[name] = places.open_unit(
            actor=HOUSE, name=name, zone=ZONE, shifts=SHIFTS, leave_hour=LEAVE_HOUR, checklist=version,
            phones=PHONES,
        )  # fmt: skip
    for worker in CAST:
        progress(f"{worker.name}, {worker.can}")
        hire(demo, worker)
    sign_off(demo)
    set_up(demo)
    practise(demo)
    for number, story in enumerate(EVERYONE, 1):
        progress(f"{story.given} {story.family}: {story.shows}")
        live(demo, story, number)
    sign_records(demo.actors["sorrel"], demo.actors["piers"], demo.stays)
    progress("people who left long ago, for the unit's own figures")
    finished_stays(demo.units[HERON], [demo.actors[name] for name in ("amber", "sorrel", "basil")], now)
    return demo


def hire(demo: Demo, worker: Worker) -> None:
    """Somebody of the staff with their role, and a sign-in whose first password is changed at once."""
    clinician = staff.register_clinician(actor=HOUSE, name=worker.name, grade=worker.grade)
    unit = demo.units[worker.unit] if worker.unit else None
    staff.grant_role(actor=HOUSE, clinician=clinician, role=worker.role, unit=unit)
    user, _ = staff.open_account(actor=HOUSE, clinician=clinician, username=worker.username)
    actor = Actor(clinician=clinician, user=user, roles=(worker.role,))
    demo.passphrases[worker.username] = passphrase()
    staff.change_password(actor=actor, user=user, password=demo.passphrases[worker.username])
    demo.actors[worker.username] = actor


def sign_off(demo: Demo) -> None:
    """The unit lead accepts what was signed off elsewhere, by name."""
    lead = demo.actors["linden"]
    for worker in CAST:
        for skill in worker.teaches:
            staff.accept_certificate(
                actor=lead, nurse=demo.actors[worker.username].clinician, skill=skill,
                unit=demo.units[HERON], certificate="Made-up college, seen by the unit lead",
                valid_from=demo.now - TWO_YEARS / 4, valid_until=demo.now + TWO_YEARS / 4,
            )  # fmt: skip


def set_up(demo: Demo) -> None:
    """The unit lead fills in what only a unit can say, and two languages to teach in."""
    places.change_unit(
        actor=demo.actors["linden"], unit=demo.units[HERON], slots=SLOTS, phrases=PHRASES,
        languages=("en", *PHRASES),
    )  # fmt: skip


def live(demo: Demo, story: Story, number: int) -> None:
    """One person: admitted, operated on, fitted, and then what happened, oldest first."""
    nurses = [each.username for each in CAST if (each.role, each.unit) == ("ward-nurse", story.unit)]
    nurse = demo.actors[nurses[0]]
    surgery = moment(story.surgery, demo.now)
    leaves = moment(story.leaves, demo.now) if story.leaves else None
    admitted = surgery - ADMITTED_BEFORE_SURGERY
    stay = stays.open_stay(
        actor=nurse,
        entry=StayEntry(
            unit=demo.units[story.unit], authority="Made-up hospital", mrn=f"000-{number:03}",
            family_name=story.family, given_names=story.given, born=date.fromisoformat(story.born),
            language=story.language,
            bed=story.bed, surgery_at=surgery, opened_at=admitted, planned_at=leaves,
        ),
    )  # fmt: skip
    scene = Scene(
        demo.now, demo.actors, stay, Learner.objects.get(stay=stay, kind="person"), language=story.language
    )  # fmt: skip
    for stoma in story.stomas:
        made = stomas.add_stoma(
            actor=nurse, stay=stay,
            entry=StomaEntry(
                kind=stoma.kind, construction=stoma.construction, side=stoma.side, label=stoma.side,
                formed_at=surgery,
            ),
        )  # fmt: skip
        stomas.fit_kit(actor=nurse, stoma=made, entry=kit_entry(stoma.pouch, surgery))
        scene.stomas[stoma.side] = made
    for code in story.needs:
        learners.record_need(actor=nurse, learner=scene.person, code=code)
    if story.helper:
        scene.helper = helped_by(scene, nurse, story.helper)
    if story.goes_to != "home":
        stays.plan_home(actor=demo.actors["piers"], stay=stay, at=leaves, goes_to=story.goes_to)
    for each in sorted(story.moments, key=lambda each: moment(each.at, demo.now)):
        HAPPEN[type(each)](scene, each)
    arrange_home(scene, demo.actors["piers"], nurse, story)
    demo.stays[story.family] = stay


def helped_by(scene: Scene, nurse: Actor, helper: Helper) -> Learner:
    """A named helper with both yeses and, where somebody has asked, the hours of each day."""
    agreed = scene.at(helper.agreed)
    entry = LearnerEntry(
        name=helper.name, relation=helper.relation, lives_in=helper.lives_in,
        person_said_yes_at=agreed, helper_said_yes_at=agreed,
    )  # fmt: skip
    made = learners.add_learner(actor=nurse, stay=scene.stay, entry=entry)
    if helper.there:
        since, until = helper.there
        week = "".join("1" if since <= hour < until else "0" for hour in range(24)) * 7
        learners.record_hours(actor=nurse, learner=made, week=week, lives_in=helper.lives_in)
    return made
