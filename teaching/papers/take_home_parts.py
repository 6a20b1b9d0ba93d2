"""The parts of a sheet for home: each sentence that holds for these stomas, told with their own facts."""

from collections.abc import Container, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from types import MappingProxyType

from teaching.papers.take_home_comes import who_comes
from teaching.papers.take_home_facts import Told, of_stay, of_stoma
from teaching.papers.take_home_words import COMES, EMPTY, KIT, OF_EACH_STOMA, SENTENCES, TITLES
from teaching.rules.arrangements import SUPPLIES
from teaching.rules.checklist import conditions, holds, kit_at
from teaching.rules.facts import Chart, Kit, Stoma
from teaching.rules.in_place import MADE, newest
from teaching.rules.lines import Policy
from teaching.rules.vocabulary import CLOSURES, KIT_ITEMS, OPENINGS, OUTLETS, PIECES, SHAPES

Known = Sequence[tuple[Stoma, frozenset[str], Told]]


@dataclass(frozen=True, slots=True)
class Line:
    words: str
    strong: bool = False


@dataclass(frozen=True, slots=True)
class Part:
    key: str
    title: str
    lines: tuple[Line, ...]


def parts_of(
    chart: Chart, policy: Policy, now: datetime, slots: Mapping[str, str], leaving: datetime | None,
    keys: Container[str] = TITLES, instead: Mapping[str, str] = MappingProxyType({}),
) -> tuple[Part, ...]:
    """Those of `keys` that say something, in the order of TITLES; emptying and changing once for each stoma.

    `instead`: what a sentence says where this word of it is not known; without one it is absent.
    """
    stay = of_stay(chart, policy, now, slots)
    known: Known = [(stoma, *of_stoma(chart, stoma, policy, now, stay)) for stoma in chart.stomas]
    parts = []
    for key, title in TITLES.items():
        if key not in keys:
            continue
        if key in OF_EACH_STOMA:
            parts += [_part(key, _titled(chart, key, one[0], one[1]), [one], instead) for one in known]
        else:
            parts.append(_part(key, title, known, instead, _before(chart, key, now, leaving)))
    return tuple(part for part in parts if part.lines)


def _titled(chart: Chart, key: str, stoma: Stoma, present: frozenset[str]) -> str:
    title = "To swap the pouch" if key == EMPTY and "closed" in present else TITLES[key]
    return f"{title}: {_which(stoma)}" if len(chart.stomas) > 1 else title


def _which(stoma: Stoma) -> str:
    return f"{stoma.label} stoma"


def _part(
    key: str, title: str, known: Known, instead: Mapping[str, str], before: Iterable[Line] = ()
) -> Part:
    """The sentences of a part; one that holds for some of the stomas alone names them."""
    lines = list(before)
    for sentence in (one for one in SENTENCES if one.part == key):
        when = conditions(sentence.applies)
        said: dict[str, list[Stoma]] = {}
        for stoma, present, told in known:
            words = _filled(sentence.words, told, instead) if holds(when, present) else ""
            if words:
                said.setdefault(words, []).append(stoma)
        for words, stomas in said.items():
            whose = "" if len(stomas) == len(known) else f"{' and '.join(map(_which, stomas)).capitalize()}: "
            lines.append(Line(f"{whose}{words}", sentence.strong))
    return Part(key, title, tuple(lines))


def _filled(words: str, told: Mapping[str, str], instead: Mapping[str, str]) -> str:
    """The sentence with its facts; where one of them is not known, what is said instead of it, or ""."""
    try:
        return words.format(**told)
    except KeyError as missing:
        return instead.get(missing.args[0], "")


def _before(chart: Chart, key: str, now: datetime, leaving: datetime | None) -> Iterator[Line]:
    if key == COMES:
        yield from (Line(words) for words in who_comes(chart, now, leaving))
    if key == KIT:
        for stoma in chart.stomas:
            kit = kit_at(chart, stoma.key, now)
            whose = f"{_which(stoma).capitalize()}: " if len(chart.stomas) > 1 else ""
            if kit:
                yield Line(f"{whose}{_kit(kit)}")
        supplies = newest(chart, SUPPLIES, now)
        for name, before in (("codes", "Codes"), ("size", "Size"), ("supplier", "From")):
            arranged = supplies and (supplies.state == MADE or name != "supplier")
            if supplies and arranged and supplies.detail(name):
                yield Line(f"{before}: {supplies.detail(name)}.")


def _kit(kit: Kit) -> str:
    """Such as "Two-piece, flat, cut to fit, strip outlet. With: powder."."""
    outlet = OUTLETS[kit.outlet] if kit.outlet and kit.closure != "closed" else CLOSURES[kit.closure]
    said = f"{PIECES[kit.pieces].capitalize()}, {SHAPES[kit.shape]}, {OPENINGS[kit.opening]}, {outlet}."
    items = ", ".join(words for item, words in KIT_ITEMS.items() if item in kit.items)
    return f"{said} With: {items}." if items else said
