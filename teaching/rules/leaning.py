"""What a good result leans on, in sentences: which helpers for what, and what nursing care is for. No more than needed.

Of several helpers who would do alone each is named, with "or"; where it takes several together, with "and".
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import combinations

from teaching.rules.facts import Learner, Stoma
from teaching.rules.gaps import which
from teaching.rules.hands import Situation
from teaching.rules.home import PARTS, TOGETHER, bare_parts
from teaching.rules.reasons import Reason


def leans(situation: Situation, stoma: Stoma, by_helpers: Sequence[str], by_nursing: Sequence[str]) -> Iterator[Reason]:
    """Of one stoma: the parts that the person and helpers hold together, and those that need nursing care."""
    where = which(situation.chart, stoma)
    named: dict[str, list[str]] = {}
    for part in by_helpers:
        named.setdefault(_helpers_for(situation, stoma, part), []).append(PARTS[part])
    for name, parts in named.items():
        yield Reason("leans-helper", name=name, what=listed(parts), stoma=where)
    if by_nursing:
        yield Reason("leans-nursing", what=listed([PARTS[part] for part in by_nursing]), stoma=where)


def _helpers_for(situation: Situation, stoma: Stoma, part: str) -> str:
    """The fewest helpers with whom the part is covered, by name."""
    person = tuple(one for one in situation.learners if one.kind == "person")
    helpers = [one for one in situation.learners if one.kind == "helper"]
    for count in range(1, len(helpers) + 1):
        enough = [
            group for group in combinations(helpers, count)
            if part not in bare_parts(replace(situation, learners=(*person, *group)), stoma.key, TOGETHER)
        ]
        if enough:
            return " or ".join(listed([_name(one) for one in group]) for group in enough)
    return listed([_name(one) for one in helpers])


def _name(helper: Learner) -> str:
    return helper.name or helper.relation or "the helper"


def listed(words: Sequence[str]) -> str:
    """Such as "a full pouch, a leak and the first change"."""
    return " and ".join(part for part in (", ".join(words[:-1]), words[-1]) if part)
