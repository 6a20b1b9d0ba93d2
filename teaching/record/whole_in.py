"""A whole record taken in from another house, or back into this one: all of it or nothing.

Rows keep their uids, their times and who wrote them. Whoever is not known here is made a clinician marked as
imported, who has no sign-in and holds no role. Each row that stands by itself gets an ImportOrigin: the file, the
author, the grade. How sign-offs come along is told in docs/whole-record.md.
"""

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from django.db import IntegrityError
from django.db.models import Model

from teaching.models import (
    Account,
    ChecklistRow,
    Clinician,
    ClinicianDetails,
    Finding,
    ImportOrigin,
    Person,
    PersonDetails,
    Rating,
    SignOff,
    Stay,
    StayDetails,
    StayEvent,
    StayNow,
    Unit,
)
from teaching.record.accounts import content, sha256_of
from teaching.record.actor import Actor
from teaching.record.checking import Faults, somebody
from teaching.record.checklists import publish_checklist
from teaching.record.figures import refresh
from teaching.record.refusals import refuse
from teaching.record.stays import ENDED
from teaching.record.whole_checks import NOT_AMONG, check_rows, check_shape, check_sign_offs, is_evidence, made
from teaching.record.whole_tables import tables
from teaching.record.writing import done, one_at_a_time, writing

Named = dict[tuple[type[Model], str], Any]
AS_EXPORTED = "take the file as it was exported."
TWICE = "A row with this uid is here already; nothing is imported twice."
ELSEWHERE = "Signed off elsewhere; came with an imported record"


def take_in_stay(*, actor: Actor, told: Mapping[str, Any], file_sha256: str, unit: Unit | None = None) -> Stay:
    """Store a whole record as exported. `unit` stands for each unit of the file that is not here.

    Raises Refused with every fault found, each with its place in the file; then nothing is stored.
    """
    somebody(actor)
    faults = Faults()
    check_shape(faults, told)
    check_rows(faults, told)
    faults.stop()
    check_sign_offs(faults, told)
    faults.stop()
    try:
        with writing():
            return TakingIn(actor, told, file_sha256, unit).store()
    except IntegrityError as clash:
        refuse("", f"A rule of the record refuses it ({clash}); take the file as it was exported.")


class TakingIn:
    """One file on its way in; `named` holds every row that others may name, by model and uid."""

    def __init__(self, actor: Actor, told: Mapping[str, Any], file_sha256: str, unit: Unit | None) -> None:
        self.actor, self.told, self.sha256, self.unit = actor, told, file_sha256, unit
        self.named: Named = {}
        self.faults = Faults()

    def store(self) -> Stay:
        self._refuse_what_is_here()
        self._places()
        self._clinicians()
        self._sign_offs()
        self.faults.stop()
        for name, each in self.told["checklists"].items():
            self._checklist(name, each)
        self.faults.stop()
        head = self.told["stay"]
        stay = Stay.objects.create(
            uid=head["uid"], zone=head["zone"], person=self._person(), by=self._clinician(head.get("by")),
            recorded_at=datetime.fromisoformat(head["recorded_at"]),
        )
        self.named[Stay, str(stay.uid)] = stay
        for name, model in tables().items():
            self._table(stay, name, model)
        self._prove_what_was_signed()
        self._origins(stay)
        self._now(stay)
        done(self.actor, "import_stay", stay, stay=stay, unit=stay.now.unit)
        return stay

    def _refuse_what_is_here(self) -> None:
        uid = self.told["stay"]["uid"]
        if Stay.objects.filter(uid=uid).exists():
            refuse("stay.uid", "This stay is here already. Nothing is imported twice; open that one.")
        for name, model in tables().items():
            if model is PersonDetails:
                continue
            uids = [row["uid"] for row in self.told[name]]
            here = {str(each) for each in model._default_manager.filter(uid__in=uids).values_list("uid", flat=True)}
            for index, each in enumerate(uids):
                if each in here:
                    self.faults.add(f"{name}[{index}].uid", TWICE)
        for index, row in enumerate(self.told["stay_details"]):
            taken = StayDetails.objects.filter(number=1, authority=row["authority"], visit_number=row["visit_number"])
            if row["number"] == 1 and row["visit_number"] and taken.exists():
                sentence = "A stay with this visit number is here; open that one."
                self.faults.add(f"stay_details[{index}].visit_number", sentence)
        self.faults.stop()

    def _places(self) -> None:
        """A unit that is here stays itself; one that is not is stood for by the unit the record comes to."""
        uids = [each["uid"] for each in self.told["units"]]
        here = {str(unit.uid): unit for unit in Unit.objects.filter(uid__in=uids)}
        for index, each in enumerate(self.told["units"]):
            place = here.get(each["uid"]) or self.unit
            if place is None:
                sentence = f"{each['name']} is not a unit of this house; say with --unit which one stands for it."
                self.faults.add(f"units[{index}]", sentence)
            self.named[Unit, each["uid"]] = place
        last = max(self.told["stay_event"], key=lambda row: row["number"])["unit"]
        if self.unit and last in here and here[last] != self.unit:
            sentence = f"The stay is on {here[last].name}, which is here; leave --unit out, and move it afterwards."
            self.faults.add("unit", sentence)
        self.faults.stop()

    def _clinicians(self) -> None:
        for each in self.told["clinicians"]:
            known = Clinician.objects.filter(uid=each["uid"]).first()
            if known is None:
                known = Clinician.objects.create(
                    uid=each["uid"], registration=each["registration"], source="imported", by=self.actor.clinician
                )
                ClinicianDetails.objects.create(
                    clinician=known, name=each["name"], grade=each["grade"], by=self.actor.clinician
                )
            self.named[Clinician, each["uid"]] = known

    def _clinician(self, uid: str | None) -> Clinician | None:
        if uid is not None and (Clinician, uid) not in self.named:
            refuse("stay.by", NOT_AMONG)
        return self.named[Clinician, uid] if uid else None

    def _sign_offs(self) -> None:
        """Only for somebody who has no sign-in here: a file gives nobody of this house a skill they do not hold."""
        for index, each in enumerate(self.told["sign_offs"]):
            nurse, at = self.named[Clinician, each["nurse"]], f"sign_offs[{index}]"
            start, end = (datetime.fromisoformat(each[key]) for key in ("valid_from", "valid_until"))
            known = SignOff.objects.filter(uid=each["uid"]).first()
            if known is None and nurse.source != "imported":
                who = next(one["name"] for one in self.told["clinicians"] if one["uid"] == each["nurse"])
                self.faults.add(at, f"{who} works here and holds no such sign-off; a file cannot give it.")
            elif known is None:
                number = SignOff.objects.filter(nurse=nurse, skill=each["skill"]).count() + 1
                known = SignOff.objects.create(
                    uid=each["uid"], nurse=nurse, assessor=self.named[Clinician, each["assessor"]], number=number,
                    skill=each["skill"], kind=each["kind"], certificate=each["certificate"] or ELSEWHERE,
                    valid_from=start, valid_until=end, by=self.actor.clinician,
                )
            elif (known.nurse, known.skill, known.kind, known.valid_from, known.valid_until) != (
                nurse, each["skill"], each["kind"], start, end,
            ):  # fmt: skip
                self.faults.add(at, f"differs from the sign-off of this uid that is here; {AS_EXPORTED}")
            self.named[SignOff, each["uid"]] = known

    def _checklist(self, name: str, each: Mapping[str, Any]) -> None:
        """The version that stands here, or published now from the file: no unit works by it until it is named."""
        if sha256_of(dict(each["content"])) != each["sha256"]:
            self.faults.add(f"checklists.{name}.sha256", f"does not match the content; {AS_EXPORTED}")
            return
        version = publish_checklist(actor=self.actor, content=each["content"])
        if str(version) != name:
            self.faults.add(f"checklists.{name}", f"holds {version}; {AS_EXPORTED}")
        self.named[type(version), name] = version
        for row in ChecklistRow.objects.filter(version=version):
            self.named[ChecklistRow, f"{name} {row.code}"] = row

    def _person(self) -> Person:
        """Somebody known here by authority and number is not made twice; a running stay of theirs is in the way."""
        newest = max(self.told["person_details"], key=lambda row: row["number"])
        one_at_a_time("person", newest["authority"], newest["mrn"])
        known = PersonDetails.objects.filter(authority=newest["authority"], mrn=newest["mrn"])
        same = known.order_by("-number").first()
        uid = Person.objects.filter(uid=self.told["person"]["uid"]).first()
        person = same.person if same else uid
        if same and (str(same.born) != newest["born"] or (uid and uid != same.person)):
            refuse("person_details", "This number is somebody else's here, or the birth date differs; check both.")
        if uid and not same:
            refuse("person.uid", "This person has another number here; check both before anything is brought in.")
        if person is None:
            return Person.objects.create(uid=self.told["person"]["uid"], by=self.actor.clinician)
        self.named[Person, "known"] = person
        running = StayNow.objects.filter(stay__person=person).exclude(state__in=ENDED)
        if running.exists() and self._state() not in ENDED:
            refuse("person", "This person has a stay here that has not ended; end that one, or go on with it.")
        return person

    def _state(self) -> str:
        """What the newest event makes of the stay; a move changes only where it is."""
        told = sorted(self.told["stay_event"], key=lambda row: row["number"])
        return next((row["kind"] for row in reversed(told) if row["kind"] != "moved"), "opened")

    def _table(self, stay: Stay, name: str, model: type[Model]) -> None:
        if model is PersonDetails and (Person, "known") in self.named:
            return
        for row in self.told[name]:
            thing = made(model, row, self.named)
            if model is PersonDetails:
                thing.person = stay.person
            else:
                thing.stay = stay
            if isinstance(thing, Rating):
                thing.row = self._row_of(thing)
            thing.save(force_insert=True)
            self.named[model, row["uid"]] = thing

    def _row_of(self, rating: Rating) -> ChecklistRow:
        version = rating.account.event.checklist
        row = self.named.get((ChecklistRow, f"{version} {rating.code}"))
        if row is None:
            refuse("rating", f"{rating.code} is not a row of {version or 'any checklist'}; {AS_EXPORTED}")
        return row

    def _prove_what_was_signed(self) -> None:
        """Each account says exactly what its signature was bound to."""
        ratings: dict[int, list[Rating]] = {}
        for (model, _), each in self.named.items():
            if model is Rating:
                ratings.setdefault(each.account_id, []).append(each)
        findings = {each.account_id: each for (model, _), each in self.named.items() if model is Finding}
        for index, row in enumerate(self.told["account"]):
            account = self.named[Account, row["uid"]]
            said = content(account, ratings.get(account.pk, []), findings.get(account.pk))
            if sha256_of(said) != row["content_sha256"]:
                sentence = f"What was signed is not what stands here; {AS_EXPORTED}"
                self.faults.add(f"account[{index}].content_sha256", sentence)
        self.faults.stop()

    def _origins(self, stay: Stay) -> None:
        """Who wrote each thing, and in which file it came; what was imported before keeps its first origin."""
        earlier = {str(row["object_uid"]) for row in self.told["import_origin"]}
        places = {each["uid"]: each["name"] for each in self.told["units"]}
        authors = {each["uid"]: each for each in self.told["clinicians"]}
        found = []
        for name, model in tables().items():
            if not is_evidence(model) or model in (ImportOrigin, PersonDetails):
                continue
            for row in self.told[name]:
                if row["uid"] not in earlier:
                    author = authors.get(row.get("rater") or row["by"], {})
                    place = f" ({places[row['unit']]})" if model is StayEvent else ""
                    found.append(self._origin(stay, name, row["uid"], author, place))
        head = self.told["stay"]
        if head["uid"] not in earlier:
            found.append(self._origin(stay, "stay", head["uid"], authors.get(head.get("by") or "", {}), ""))
        ImportOrigin.objects.bulk_create(found)

    def _origin(self, stay: Stay, kind: str, uid: str, author: Mapping[str, str], place: str) -> ImportOrigin:
        return ImportOrigin(
            stay=stay, by=self.actor.clinician, object_uid=uid, object_kind=kind, file_sha256=self.sha256,
            author=f"{author.get('name', '')}{place}"[:120], author_grade=author.get("grade", ""),
        )

    def _now(self, stay: Stay) -> None:
        """The derived row, as every verb leaves it; the revision goes on from where it was."""
        last = max(self.told["stay_event"], key=lambda row: row["number"])
        person = PersonDetails.objects.filter(person=stay.person).order_by("-number")[0]
        StayNow.objects.create(
            stay=stay, unit=self.named[Unit, last["unit"]], state=self._state(), bed=last["bed"], born=person.born,
            name=f"{person.given_names} {person.family_name}", mrn=person.mrn, revision=self.told["stay"]["revision"],
        )
        refresh(stay, moved_on=False)
