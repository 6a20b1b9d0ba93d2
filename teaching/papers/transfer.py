"""The transfer form for a care facility: kit, how it goes on, who does what, the next change, numbers, cautions.

It travels, so it says dates and never "tomorrow".
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from teaching.papers.dated import caution_said, dated, day, short
from teaching.papers.take_home_facts import made
from teaching.rules.arrangements import FACILITY, SUPPLIES
from teaching.rules.assess import Assessment
from teaching.rules.checklist import applicable, kit_at
from teaching.rules.due import NextChange
from teaching.rules.facts import Arrangement, Chart, Learner, Stoma
from teaching.rules.fit import Size, mm, sizes
from teaching.rules.handover.asked import call_now_signs
from teaching.rules.handover.parts import Beside, Who
from teaching.rules.huddle import CALL_NOW, HuddleCaution
from teaching.rules.in_place import newest
from teaching.rules.items import Item
from teaching.rules.policy import Policy
from teaching.rules.reasons import Counted
from teaching.rules.scene import has_agreed
from teaching.rules.showings import LOWER
from teaching.rules.spoken import kit_words, learner_name, rung, stoma_name
from teaching.rules.standing import Standing
from teaching.rules.vocabulary import GOES_TO, NOT_RATED_CODES, PROCEDURES
from teaching.rules.worn import Pouch, pouches

PUTTING_ON = ("fit-protect", "put-on")


@dataclass(frozen=True, slots=True)
class Does:
    """One learner in one step: words, and the mark of the newest answer, "" where nothing was seen."""

    words: str
    mark: str = ""
    practice: bool = False


@dataclass(frozen=True, slots=True)
class StepDone:
    title: str
    by: tuple[Does, ...]


@dataclass(frozen=True, slots=True)
class ProcedureDone:
    title: str
    steps: tuple[StepDone, ...]


@dataclass(frozen=True, slots=True)
class StomaOnForm:
    """`learners` head the columns of `procedures`. `putting_on` are the steps in order, from what is worn.

    `sizes` and `pouches`, oldest first, are drawn.
    """

    name: str
    formed: str
    kit: str
    change: str
    sizes: tuple[Size, ...]
    pouches: tuple[Pouch, ...]
    putting_on: tuple[Item, ...]
    learners: tuple[str, ...]
    procedures: tuple[ProcedureDone, ...]


@dataclass(frozen=True, slots=True)
class TransferForm:
    """`goes_to` and `taken_over_by`: the facility and the nurse there who accepted, `codes` of each item; "" leaves
    a line to write on. `supplies`: what else is arranged of the kit that goes along.
    """

    who: Who
    at: str
    now: datetime
    leaving: str
    goes_to: str
    taken_over_by: str
    supplies: tuple[tuple[str, str], ...]
    codes: str
    cautions: tuple[HuddleCaution, ...]
    stomas: tuple[StomaOnForm, ...]
    call_now: str
    phones: tuple[tuple[str, str, str], ...]
    standing: tuple[str, ...]
    unit: str
    printed_by: str
    policy: str

    @property
    def foot(self) -> str:
        return (
            f"{self.who.name}, {self.who.number}. Transfer form, {self.unit}. Printed {self.at} by "
            f"{self.printed_by}. Policy version {self.policy}. Supports, never replaces, a clinician's decision."
        )


def transfer_content(
    *,
    chart: Chart,
    assessment: Assessment,
    policy: Policy,
    now: datetime,
    who: Who,
    beside: Beside,
    unit: str,
    printed_by: str,
) -> TransferForm:
    """The form as it stands at `now` (UTC). What the record does not hold is said as not known, or left to write."""
    return TransferForm(
        who=who,
        at=dated(now, chart.ward),
        now=now,
        leaving=_leaving(chart, now),
        goes_to=_detail(made(chart, FACILITY, now), "name"),
        taken_over_by=_detail(made(chart, FACILITY, now), "accepted_by"),
        supplies=tuple(_supplies(chart, now)),
        codes=_detail(newest(chart, SUPPLIES, now), "codes"),
        cautions=tuple(
            HuddleCaution(*caution_said(each, chart.ward, now), each.list == CALL_NOW) for each in assessment.cautions
        ),
        stomas=tuple(_on_form(chart, assessment, change, now, who) for change in assessment.changes),
        call_now=call_now_signs(chart, policy, now),
        phones=rung(beside.phones),
        standing=tuple(_not_final(chart, beside)),
        unit=unit,
        printed_by=printed_by,
        policy=policy.version,
    )


def _detail(said: Arrangement | None, name: str) -> str:
    return str(said.detail(name) or "") if said else ""


def _supplies(chart: Chart, now: datetime) -> Iterator[tuple[str, str]]:
    """Name and words: size as ordered, for how many days, the first delivery, and from whom."""
    said, along = newest(chart, SUPPLIES, now), made(chart, SUPPLIES, now)
    if size := _detail(said, "size"):
        yield "Size", size
    if days := _detail(along, "days"):
        yield "Goes along", f"kit for {days} days"
    if along and along.due_at:
        yield "First delivery", dated(along.due_at, chart.ward)
    if supplier := _detail(said, "supplier"):
        yield "From", supplier


def _leaving(chart: Chart, now: datetime) -> str:
    if chart.planned_at is None:
        return "no day planned"
    said = f"{dated(chart.planned_at, chart.ward)}, {GOES_TO[chart.goes_to]} (planned)"
    return f"was planned {said}" if chart.planned_at < now else said


def _not_final(chart: Chart, beside: Beside) -> Iterator[str]:
    """What of it is not final: a draft, an entry that was amended."""
    for one in beside.begun:
        yield f"Draft: begun {short(one.at, chart.ward)} by {one.by}, not signed. It is not counted here."
    if beside.amended_at:
        yield f"Amended: an entry was last corrected or taken back {short(beside.amended_at, chart.ward)}."


def _on_form(chart: Chart, assessment: Assessment, change: NextChange, now: datetime, who: Who) -> StomaOnForm:
    stoma = chart.stoma(change.stoma)
    learners = [each for each in chart.learners if has_agreed(chart, each, now)]
    learners.sort(key=lambda each: (each.kind != "person", each.name))
    own = [one for one in assessment.standings if one.stoma == stoma.key and not one.row.item.topic]
    return StomaOnForm(
        name=stoma_name(stoma),
        formed=_formed(chart, stoma, now),
        kit=_worn(chart, stoma, now),
        change=_change(chart, change, stoma, now),
        sizes=sizes(chart, stoma.key, now),
        pouches=pouches(chart, stoma.key, now),
        putting_on=_putting_on(chart, stoma, now),
        learners=tuple(learner_name(each, who.name) for each in learners),
        procedures=tuple(_done(own, procedure, learners) for procedure in _procedures(own)),
    )


def _formed(chart: Chart, stoma: Stoma, now: datetime) -> str:
    if stoma.formed_at is None:
        return "surgery not recorded"
    on = day(chart.ward.date(stoma.formed_at))
    return f"surgery planned for {on}" if stoma.formed_at > now else f"made on {on}"


def _worn(chart: Chart, stoma: Stoma, now: datetime) -> str:
    kit, known = kit_at(chart, stoma.key, now), sizes(chart, stoma.key, now)
    if kit is None:
        return "no pouch is written down yet"
    said = [kit_words(kit)]
    if kit.pre_cut_mm:
        said.append(f"pre-cut at {mm(kit.pre_cut_mm)} mm")
    both = [one for one in known if one.width_mm and one.height_mm]
    if not both:
        return "; ".join([*said, "size of the stoma not known"])
    size = both[-1]
    said.append(f"stoma {size.width_mm:g} by {size.height_mm:g} mm, measured {short(size.at, chart.ward)}")
    if size.opening_width_mm and size.opening_height_mm:
        said.append(f"opening {mm(size.opening_width_mm)} by {mm(size.opening_height_mm)} mm")
    return "; ".join(said)


def _change(chart: Chart, change: NextChange, stoma: Stoma, now: datetime) -> str:
    kit = kit_at(chart, stoma.key, now)
    every = f"every {Counted(kit.interval_hours):hour}" if kit and kit.interval_hours else "how often is not known"
    if change.last is None:
        return f"no change is recorded, so when the next is due is not known; {every}"
    on = f"on since {short(change.last, chart.ward)}"
    if change.due is None:
        return f"{on}; when the next is due is not known; {every}"
    return f"{on}; next {'was due' if change.due < now else 'due'} {short(change.due, chart.ward)}; {every}"


def _putting_on(chart: Chart, stoma: Stoma, now: datetime) -> tuple[Item, ...]:
    """The steps of fitting and putting on that this kit has. Without a kit nobody can say how it goes on."""
    if kit_at(chart, stoma.key, now) is None:
        return ()
    return tuple(row.item for row in applicable(chart, stoma, now) if row.item.phase in PUTTING_ON)


def _procedures(own: list[Standing]) -> list[str]:
    return list(dict.fromkeys(one.row.item.procedure for one in own))


def _done(own: list[Standing], procedure: str, learners: list[Learner]) -> ProcedureDone:
    rows = [one for one in own if one.row.item.procedure == procedure]
    found = {(one.code, one.learner): one for one in rows}
    titles = dict.fromkeys((one.code, one.row.item.title) for one in rows)
    return ProcedureDone(
        PROCEDURES[procedure],
        tuple(
            StepDone(title, tuple(_does(found.get((code, each.key))) for each in learners)) for code, title in titles
        ),
    )


def _does(one: Standing | None) -> Does:
    """Held is alone, whatever lent it. Anything else says what was last seen, and that it is not held."""
    if one is None:
        return Does("not asked of them")
    last = one.last
    if one.held:
        mark = last or one.evidence[-1]
        return Does("alone", mark.answer, mark.practice)
    if last is None:
        return Does("may look in the person's place" if one.may_look else "not shown yet")
    if last.answer in NOT_RATED_CODES:
        return Does("not rated", last.answer)
    if last.answer in LOWER:
        return Does("needs help" if last.answer != "wrong" else "judged wrongly", last.answer, last.practice)
    return Does("alone, to be shown again" if one.state == "show again" else "alone once", last.answer, last.practice)
