"""Who teaches this shift, ticked at the huddle; each person's next planned change beside it for those who see them."""

from datetime import date, datetime

from django.contrib import messages
from django.http import Http404
from django.urls import reverse
from django.utils import timezone

from teaching.access.forms_in import answer_form
from teaching.access.guards import guard
from teaching.access.scope import may
from teaching.access.working import TEACHERS, working_on
from teaching.education.huddle_forms import TickForm, can_teach
from teaching.education.huddle_page import AskLine, HuddlePage, shift_address
from teaching.record.figures import board
from teaching.record.huddle_ticks import tick_huddle
from teaching.record.places import policy_for, ward_of
from teaching.record.skills import asks_on
from teaching.record.staff import SKILLS
from teaching.record.who_teaches import who_teaches_on
from teaching.rules.competence import in_force, is_valid
from teaching.rules.huddle import when
from teaching.rules.huddle_cover import holder

# What a holder of the skill may do with an ask: address, permission, words.
ACTS = (
    ("record-practice", "observe_practice", "Record a practice"),
    ("pair-ask", "pair_ask", "Pair it with a change"),
)


@guard("tick_huddle")
def who_teaches(request, unit):
    now, ward = timezone.now(), ward_of(unit)
    shift = _asked_for(request, ward, now)
    working = working_on(unit)
    people = {each.key: each for each in working if each.roles & TEACHERS}
    asks = [ask for ask in asks_on(unit) if ask.nurse_id in {each.key for each in working}]
    rows, policy = board(unit, now), policy_for(unit, now)
    teaching = who_teaches_on(
        unit, rows, {key: str(each.uid) for key, each in people.items()}, policy, ward, now,
        days=[shift[0]], also=[request.user.clinician_id, *(ask.nurse_id for ask in asks)],
    )  # fmt: skip
    known = teaching.known
    form = TickForm(
        request.POST or None,
        people=_choices(people, known, ward, shift, now),
        shift=shift,
        initial={"teach": [str(people[key].uid) for key in teaching.ticks.get(shift, ()) if key in people]},
    )
    sees = may(request.user, "see_shift", unit)
    told = _asks(request, unit, asks, known, now, ward, sees)
    page = HuddlePage(unit, shift, rows, teaching, policy, ward, now, sees, told)

    def store(form):
        chosen = set(form.cleaned_data["teach"])
        tick_huddle(
            actor=request.actor, unit=unit, day=form.cleaned_data["day"], shift=form.cleaned_data["shift"],
            may_teach={key: str(each.uid) in chosen for key, each in people.items()},
        )  # fmt: skip
        messages.success(request, f"Stored: who teaches {page.said}.")
        return shift_address(unit, *shift)

    return answer_form(request, form, "teaching/education/who_teaches.html", store, {"page": page, "unit": unit})


def _asked_for(request, ward, now: datetime) -> tuple[date, str]:
    """The shift in the address or the form, else this one. 404 for a shift that this unit does not have."""
    said = request.POST if request.method == "POST" else request.GET
    if "day" not in said:
        return ward.shift(now)
    try:
        day = date.fromisoformat(said["day"])
    except ValueError:
        raise Http404 from None
    if said.get("shift") not in {each.name for each in ward.shifts}:
        raise Http404
    return day, said["shift"]


def _choices(people, known, ward, shift, now: datetime) -> list[tuple[str, str]]:
    """By name. What they hold is judged now, or when a coming shift starts."""
    day, name = shift
    starts = next(each.starts for each in ward.shifts if each.name == name)
    at = max(now, datetime.combine(day, starts, tzinfo=ward.local(now).tzinfo))
    named = sorted(people.values(), key=lambda each: known[each.key].name.casefold())
    return [
        (str(each.uid), f"{known[each.key].name}, {can_teach(_held(known[each.key], each.key, at), SKILLS)}")
        for each in named
    ]


def _held(nurse, key: int, at: datetime) -> list[str]:
    spans = holder(str(key), nurse)
    return [code for code in SKILLS if code != "change" and spans.holds(code, at)]


def _asks(request, unit, asks, known, now: datetime, ward, sees: bool) -> list[AskLine]:
    """Who asks to be observed; bed and time only for those who may see the shift, acts only for a holder."""
    own = request.user.clinician_id
    offers = [(name, words) for name, permission, words in ACTS if may(request.user, permission, unit)]
    found = []
    for ask in asks:
        holds = is_valid(in_force(known[own].sign_offs, ask.skill, now), now) and ask.nurse_id != own
        acts = [(reverse(name, args=[unit.uid, ask.nurse.uid, ask.skill]), words) for name, words in offers if holds]
        said = f"asks to be observed: {SKILLS[ask.skill]}{_paired(ask, ward, now, sees)}"
        found.append(AskLine(known[ask.nurse_id].name, said, tuple(acts)))
    return sorted(found, key=lambda each: (each.name.casefold(), each.said))


def _paired(ask, ward, now: datetime, sees: bool) -> str:
    if not ask.paired_at or ask.paired_at < now:
        return ""
    if not sees:
        return ", at a due change"
    by = f", as {ask.paired_by} chose" if ask.paired_by else ""
    return f", at the change {when(ask.paired_at, ward, now)}, bed {ask.bed}{by}"
