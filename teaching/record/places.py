"""Units, how each one works, and the hospital's own thresholds."""

import re
from collections.abc import Mapping, Sequence
from datetime import datetime, time
from functools import cache
from typing import Any
from zoneinfo import available_timezones

from django.db.models import F
from django.utils import timezone

from teaching.models import ChecklistVersion, PolicyVersion, StayNow, Unit, UnitSetting
from teaching.record.actor import Actor
from teaching.record.checking import Faults
from teaching.record.prepared import read_all
from teaching.record.refusals import refuse
from teaching.record.unit_words import check_may_fill, check_words
from teaching.record.writing import done, next_number, writing
from teaching.rules.policy import DEFAULT, Policy, PolicyRefused
from teaching.rules.ward import Shift, Ward

zones = cache(available_timezones)  # read from the disk once
CLOCK = re.compile(r"([01]\d|2[0-3]):[0-5]\d")
SETTINGS = ("shifts", "leave_hour", "checklist", "languages", "phrases", "phones", "slots")
POLICY = ("unit_id", "effective_from", "number", "overrides")


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
    if zone not in zones():
        faults.add("zone", f"{zone!r} is not a time zone; write one such as Europe/London.")
    _check_settings(faults, shifts=shifts, leave_hour=leave_hour)
    check_words(faults, {"languages": languages, "phrases": phrases or {}, "phones": phones})
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
    """New settings from now on; what is not named stays. The stays on the unit are worked out again.

    `languages` are codes; `phrases` {language: [{"english", "words"}]}; `phones` [{"label", "number", "hours"}];
    `slots` {code of vocabulary.SLOTS: a whole number as text, or words}.
    """
    faults = Faults()
    for name in settings:
        faults.word(name, name, SETTINGS)
    _check_settings(faults, **{name: settings[name] for name in ("shifts", "leave_hour") if name in settings})
    check_words(faults, settings)
    if "slots" in settings:
        check_may_fill(faults, actor)
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
    for name, sentence in _policy_faults(unit, overrides, starts):
        faults.add(name, sentence)
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


def every_unit() -> list[Unit]:
    """All units of the house, by name: somebody may be moved to any of them."""
    return list(Unit.objects.order_by("name"))


def own_overrides(unit: Unit) -> dict[str, Any]:
    """The unit's own values now in force, by name; what the hospital set for everybody is not among them."""
    rows = PolicyVersion.objects.filter(unit=unit, effective_from__lte=timezone.now())
    newest = rows.order_by("effective_from", "number").last()
    return dict(newest.overrides) if newest else {}


def policy_for(unit: Unit | None, at: datetime) -> Policy:
    """The thresholds in force on a unit at a moment: the code's, then the hospital's, then the unit's own."""
    rows = [row for row in read_all(PolicyVersion, POLICY) if row.effective_from <= at]
    rows.sort(key=lambda row: (row.effective_from, row.number))
    return _combined({row.unit_id: row.overrides for row in rows}, unit.pk if unit else None)


def _combined(newest: Mapping[int | None, Any], key: int | None) -> Policy:
    """The defaults, the hospital's overrides over them, a unit's over those. Raises PolicyRefused."""
    policy = DEFAULT
    for each in dict.fromkeys((None, key)):
        if newest.get(each):
            policy = policy.with_overrides(newest[each])
    return policy


def _policy_faults(unit: Unit | None, overrides: Mapping[str, object], starts: datetime) -> list[tuple[str, str]]:
    """What makes no sense in these values, alone or beside other values in force from then on.

    The hospital's and a unit's values are read together at every later moment, so a clash is found before it is
    stored: once stored it would stop every page of that unit.
    """
    own = unit.pk if unit else None
    stored = PolicyVersion.objects.order_by("number").values_list("effective_from", "unit_id", "overrides")
    rows: list[tuple[datetime, int | None, Any]] = [*stored, (starts, own, overrides)]
    rows.sort(key=lambda row: row[0])
    found: list[tuple[str, str]] = []
    for moment in sorted({row[0] for row in rows if row[0] >= starts}):
        newest = {key: told for since, key, told in rows if since <= moment}
        for key in [own] if unit else sorted(newest, key=lambda key: key or 0):
            try:
                _combined(newest, key)
            except PolicyRefused as trouble:
                if key == own:
                    return [(name, f"{name} {sentence}") for name, sentence in trouble.faults]
                whose = f"With the own values of {Unit.objects.get(pk=key or 0).name}"
                found += [(name, f"{whose}: {name} {sentence}") for name, sentence in trouble.faults]
        if found:
            break
    return found


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
    settings = UnitSetting.objects.filter(unit=unit).select_related("checklist").defer("checklist__content")
    newest = settings.order_by("-number").first()
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
