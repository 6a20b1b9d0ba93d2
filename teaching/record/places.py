"""Units, how each one works, and the hospital's own thresholds."""

import re
from collections.abc import Mapping, Sequence
from datetime import datetime, time
from typing import Any
from zoneinfo import available_timezones

from django.db.models import F
from django.utils import timezone

from teaching.models import ChecklistVersion, PolicyVersion, StayNow, Unit, UnitSetting
from teaching.record.actor import Actor
from teaching.record.checking import Faults
from teaching.record.refusals import refuse
from teaching.record.writing import done, next_number, writing
from teaching.rules.policy import DEFAULT, Policy, PolicyRefused
from teaching.rules.ward import Shift, Ward

CLOCK = re.compile(r"([01]\d|2[0-3]):[0-5]\d")
SETTINGS = ("shifts", "leave_hour", "checklist", "languages", "phrases", "phones")


def open_unit(
    *,
    actor: Actor,
    name: str,
    zone: str,
    shifts: Sequence[Mapping[str, str]],
    checklist: ChecklistVersion,
    leave_hour: int = 12,
    languages: Sequence[str] = ("en",),
    phrases: Mapping[str, Any] | None = None,
    phones: Sequence[Mapping[str, str]] = (),
) -> Unit:
    """A unit and its first settings. `shifts` is [{name, starts "07:30", ends "19:30"}]."""
    faults = Faults()
    faults.text("name", name, 120, "The unit's name")
    if zone not in available_timezones():
        faults.add("zone", f"{zone!r} is not a time zone; write one such as Europe/London.")
    _check_settings(faults, shifts=shifts, leave_hour=leave_hour)
    faults.stop()
    with writing():
        unit = Unit.objects.create(name=name.strip(), zone=zone, by=actor.clinician)
        UnitSetting.objects.create(
            unit=unit,
            shifts=[dict(each) for each in shifts],
            leave_hour=leave_hour,
            checklist=checklist,
            languages=list(languages),
            phrases=dict(phrases or {}),
            phones=[dict(each) for each in phones],
            by=actor.clinician,
        )
        done(actor, "open_unit", unit)
    return unit


def change_unit(*, actor: Actor, unit: Unit, **settings: Any) -> UnitSetting:
    """New settings from now on; what is not named stays. The stays on the unit are worked out again."""
    faults = Faults()
    for name in settings:
        faults.word(name, name, SETTINGS)
    _check_settings(faults, **{name: settings[name] for name in ("shifts", "leave_hour") if name in settings})
    faults.stop()
    with writing():
        before = UnitSetting.objects.filter(unit=unit).order_by("-number")[0]
        kept = {name: getattr(before, name) for name in SETTINGS} | settings
        made = UnitSetting.objects.create(unit=unit, number=before.number + 1, by=actor.clinician, **kept)
        StayNow.objects.filter(unit=unit).update(revision=F("revision") + 1)
        done(actor, "change_unit", unit)
    return made


def set_policy(
    *,
    actor: Actor,
    unit: Unit | None,
    overrides: Mapping[str, object],
    why: str,
    effective_from: datetime | None = None,
) -> PolicyVersion:
    """The hospital's (unit None) or one unit's own values, whole: what is not named goes back to the default."""
    faults = Faults()
    faults.text("why", why, 2000, "Why these values are set")
    now = timezone.now()
    starts = effective_from or now
    try:
        if unit is None:
            DEFAULT.with_overrides(overrides)
        else:
            policy_for(None, starts).with_overrides(overrides)
    except PolicyRefused as trouble:
        for name, sentence in trouble.faults:
            faults.add(name, f"{name} {sentence}")
    faults.stop()
    with writing():
        made = PolicyVersion.objects.create(
            unit=unit,
            number=next_number(PolicyVersion, unit=unit),
            overrides=dict(overrides),
            why=why.strip(),
            effective_from=starts,
            by=actor.clinician,
        )
        stays = StayNow.objects.all() if unit is None else StayNow.objects.filter(unit=unit)
        stays.update(revision=F("revision") + 1)
        done(actor, "set_policy", made)
    return made


def policy_for(unit: Unit | None, at: datetime) -> Policy:
    """The thresholds in force on a unit at a moment: the code's, then the hospital's, then the unit's own."""
    rows = PolicyVersion.objects.filter(effective_from__lte=at).order_by("effective_from", "number")
    newest: dict[int | None, Any] = dict(rows.values_list("unit_id", "overrides"))
    policy = DEFAULT
    for key in (None, unit.pk if unit else None):
        if newest.get(key):
            policy = policy.with_overrides(newest.pop(key))
    return policy


def _check_settings(
    faults: Faults, *, shifts: Sequence[Mapping[str, str]] | None = None, leave_hour: Any = None
) -> None:
    if shifts is not None:
        if not shifts:
            faults.add("shifts", "Name at least one shift with its start and end.")
        for shift in shifts:
            clocks = (shift.get("starts", ""), shift.get("ends", ""))
            if not shift.get("name") or not all(CLOCK.fullmatch(clock) for clock in clocks):
                faults.add("shifts", "Each shift needs a name, a start and an end such as 07:30.")
        names = [shift.get("name") for shift in shifts]
        if len(set(names)) < len(names):
            faults.add("shifts", "Two shifts have the same name; give each its own.")
    if leave_hour is not None and not (isinstance(leave_hour, int) and 0 <= leave_hour <= 23):
        faults.add("leave_hour", "The usual hour of leaving is a whole hour from 0 to 23.")


def settings_of(unit: Unit) -> UnitSetting:
    """The settings in force now."""
    newest = UnitSetting.objects.filter(unit=unit).select_related("checklist").order_by("-number").first()
    if newest is None:
        refuse("unit", "This unit has no settings yet; ask the unit lead to open it.")
    return newest


def ward_of(unit: Unit) -> Ward:
    """The unit's own clock: its zone, its shifts, the usual hour of leaving."""
    setting = settings_of(unit)
    shifts = tuple(
        Shift(each["name"], time.fromisoformat(each["starts"]), time.fromisoformat(each["ends"]))
        for each in setting.shifts
    )
    return Ward(unit.zone, shifts, setting.leave_hour)
