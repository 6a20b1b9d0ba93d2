"""Size, opening, wear and output of one person, each stoma by itself: sentences, drawings, and a table behind each."""

from dataclasses import dataclass, replace
from datetime import datetime

from django.urls import reverse

from teaching.bedside.band import stoma_name
from teaching.bedside.state_form import DOES, steps_from
from teaching.rules.cautions import fluid_plan_wanted, newest_total
from teaching.rules.checklist import kit_at, states_at
from teaching.rules.facts import Chart, Stoma
from teaching.rules.fit import Size, early_look, interval_said, opening_said, remeasure, sizes, worn_long
from teaching.rules.huddle import when
from teaching.rules.policy import Policy
from teaching.rules.reasons import words
from teaching.rules.spoken import hours
from teaching.rules.vocabulary import SKIN_REGIONS, WEAR_ENDS
from teaching.rules.worn import Pouch, pouches

Link = tuple[str, str]


@dataclass(frozen=True, slots=True)
class StomaFit:
    """`said` are sentences; the rows are (when, ...) in words, newest first."""

    title: str
    said: tuple[str, ...]
    sizes: tuple[Size, ...]
    size_rows: tuple[tuple[str, ...], ...]
    pouches: tuple[Pouch, ...]
    wear_rows: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True)
class FitPart:
    stomas: tuple[StomaFit, ...]
    links: tuple[Link, ...]
    now: datetime


def fit_part(stay, chart: Chart, policy: Policy, now: datetime, asker) -> FitPart:
    return FitPart(
        tuple(_of(chart, stoma, policy, now) for stoma in chart.stomas), tuple(_links(stay, chart, asker)), now
    )


def _links(stay, chart: Chart, asker) -> list[Link]:
    found = []
    if asker("log_care") and chart.stomas:
        found.append((reverse("output-total", args=[stay.uid]), "24-hour output from the fluid chart"))
        found.append((reverse("nothing-since", args=[stay.uid]), "Nothing out, or has it worked?"))
    if asker("record_emptying"):
        changed = "Something has changed: delirium, rod out, an operation, first stool"
        found.append((reverse("body-event", args=[stay.uid]), changed))
    if asker("open_stay"):
        steps = steps_from(chart.state)
        found += [(reverse("teaching-state", args=[stay.uid, kind]), DOES[kind][0]) for kind in steps]
    return found


def _of(chart: Chart, stoma: Stoma, policy: Policy, now: datetime) -> StomaFit:
    measured, worn = sizes(chart, stoma.key, now), pouches(chart, stoma.key, now)
    kit, states = kit_at(chart, stoma.key, now), states_at(chart, stoma.key, now)
    edges = [one for one in chart.findings if one.stoma == stoma.key and one.edge and one.at <= now]
    edge = max(edges, key=lambda one: one.at).edge if edges else ""
    reasons = (
        early_look(replace(chart, stomas=(stoma,)), now, policy),
        opening_said(measured[-1] if measured else None, kit, states, edge, policy),
        remeasure(chart, stoma, now, policy).reason,
        interval_said(kit, policy),
        worn_long(chart, worn[-1].on if worn else None, now, policy),
    )
    said = (*(words(reason) for reason in reasons if reason), *_output(chart, stoma, policy, now))
    return StomaFit(
        stoma_name(stoma).capitalize(), said, measured,
        tuple(_size_row(chart, one, now) for one in reversed(measured)),
        worn, tuple(_wear_row(chart, one, now) for one in reversed(worn)),
    )  # fmt: skip


def _output(chart: Chart, stoma: Stoma, policy: Policy, now: datetime) -> list[str]:
    total = newest_total(chart, stoma, now)
    said = []
    if total:
        said.append(f"Output, 24 hours to {when(total.until, chart.ward, now)}: {total.ml} mL, from the fluid chart.")
    for nothing in chart.nothing:
        if nothing.stoma == stoma.key:
            asked = when(nothing.at, chart.ward, now)
            said.append(
                f"Nothing out since {when(nothing.since, chart.ward, now)} (asked {asked})." if nothing.since
                else f"It has worked (asked {asked})."
            )  # fmt: skip
    high = fluid_plan_wanted(chart, policy, now)
    if high and high.stoma == stoma.key:
        at = when(high.until, chart.ward, now)
        said.append(f"Output reached {high.ml} mL ({at}): a fluid plan is asked for, and none is made yet.")
    return said


def _size_row(chart: Chart, size: Size, now: datetime) -> tuple[str, ...]:
    lengths = (size.width_mm, size.height_mm, size.opening_width_mm, size.opening_height_mm)
    return (when(size.at, chart.ward, now), *("-" if one is None else f"{one:g}" for one in lengths))


def _wear_row(chart: Chart, pouch: Pouch, now: datetime) -> tuple[str, ...]:
    worn = hours((pouch.off or now) - pouch.on)
    ended = "still on" if pouch.off is None else WEAR_ENDS.get(pouch.ended, "not said")
    track = f", {SKIN_REGIONS[pouch.track]}" if pouch.track else ""
    return when(pouch.on, chart.ward, now), worn, ended + track
