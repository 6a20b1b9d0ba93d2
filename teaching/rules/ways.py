"""Which sets of learners could manage at home, and when each could: R2 to R6 over moments to come, exactly.

A way is a choice of who empties, who does the night, who mends a leak and who changes. Each row of a way must be held
by all who are chosen for it, at one moment; a part by the hour is held whole by each of its set. Union over ways.
"""

from collections.abc import Iterable, Iterator, Mapping
from datetime import datetime
from itertools import product

from teaching.rules.changes import change_visits, change_window, look_visits
from teaching.rules.checklist import Row
from teaching.rules.cover import full_sets
from teaching.rules.hands import Situation
from teaching.rules.home import Lean, accepted_here, wanted_hours
from teaching.rules.looking import wanting_to_look
from teaching.rules.prospect import SET_OUT_FOR, Prospect, Timeline
from teaching.rules.talks import Talks
from teaching.rules.vocabulary import SET_UP_ONLY

Whose = frozenset[str]
NOBODY: Whose = frozenset()


class Ways:
    """One stoma over its prospect. `capped_until`: after an early leak, when the pouch now on will have held (R9)."""

    def __init__(
        self, situation: Situation, prospect: Prospect, capped_until: datetime | None = None
    ) -> None:
        self.situation, self.prospect, self.stoma = situation, prospect, prospect.stoma
        self.line: Timeline = prospect.line
        self.capped_until = capped_until
        self.learners = {one.key: one for one in situation.learners}
        self.talks = {key: Talks(prospect.scene(key), self.line, self._explained_by(key)) for key in self.learners}
        self.parts = situation.parts(self.stoma)
        self._codes = {part: tuple(one.code for one in rows) for part, rows in self.parts.items()}
        self._knows: dict[str, int] = {}
        self._found: dict[object, int] = {}

    def _explained_by(self, learner: str) -> frozenset[str]:
        rows = self.situation.rows.get((self.stoma, learner), {})
        return frozenset(one.code for part in ("know", "topics") for one in rows.get(part, ()) if one.held)

    def reachable(self, lean: Lean) -> int:
        """At which moments everything that is learned could be held, leaning on these alone; as bits."""
        there = self._there(lean)
        if not self.codes("pouch"):
            return 0
        nights = full_sets(there, wanted_hours(self.situation, self.stoma, "night"))
        leaks = full_sets(there, self.situation.span.full & ~(self.situation.service if lean.nursing else 0))
        found = 0
        for pouch, night, leak in product(full_sets(there, self.situation.span.full), nights, leaks):
            if not self.codes("change") and leak:
                continue
            for at_change in self._at_change(there, lean):
                found |= self._way(pouch, night, leak, at_change, lean)
                if found == self.line.always:
                    break
        return found and found & self._explained(lean) & self._worn(lean)

    def codes(self, part: str) -> tuple[str, ...]:
        return self._codes.get(part, ())

    def _there(self, lean: Lean) -> dict[str, int]:
        """Hours by learner; once more for those who need somebody to set out, at the hours somebody else is there."""
        found = {}
        for hand in self.situation.hands(self.stoma, lean.person, lean.helpers, best=False):
            found[hand.learner] = hand.hours
            if hand.set_out & hand.hours and self._ever_set_out(hand.learner):
                found[SET_OUT_FOR + hand.learner] = hand.hours & hand.set_out
        return found

    def _ever_set_out(self, learner: str) -> bool:
        return any(
            one.answer == SET_UP_ONLY
            for (stoma, _, whose), seen in self.prospect.chart.by_row.items() if (stoma, whose) == (self.stoma, learner)
            for one in seen
        )

    def _at_change(self, there: Mapping[str, int], lean: Lean) -> Iterator[Whose | None]:
        """Who is there together in some hour of the day before the change; None where a nurse comes for it."""
        if lean.nursing and change_visits(self.situation, self.stoma):
            yield None
            return
        window = change_window(self.situation, self.stoma)
        groups = {NOBODY: window} if window else {}  # who, and the hours at which exactly these are there
        for who, hours in there.items():
            groups = {
                each: bits for group, wanted in groups.items()
                for each, bits in ((group, wanted & ~hours), (group | {who}, wanted & hours)) if bits
            }
        yield from (group for group in groups if not any(group < other for other in groups))

    def _way(self, pouch: Whose, night: Whose, leak: Whose, at_change: Whose | None, lean: Lean) -> int:
        looked = at_change is None or (lean.nursing and bool(look_visits(self.situation, self.stoma)))
        key = (pouch, night, leak, at_change, looked, self.prospect.lost)
        if key not in self._found:
            self._found[key] = self._worked_out(pouch, night, leak, at_change, looked)
        return self._found[key]

    def _worked_out(self, pouch: Whose, night: Whose, leak: Whose, at_change: Whose | None, looked: bool) -> int:
        found = self.line.always
        for who in pouch | night | leak:
            found &= self.knows(who)
        for code in self.codes("night"):
            found &= self.prospect.held({code: night})
        if at_change is not None and not at_change and self.codes("change"):
            return 0
        if at_change is not None and not looked:
            for row in self.parts.get("look", ()):
                found &= self._looks(row.row, at_change)
        # Whoever mends leaks and is there for the change does it; else any one of those there, row by row.
        anyone = NOBODY if at_change is None or leak & at_change else at_change
        base = dict.fromkeys(self.codes("pouch"), pouch) | dict.fromkeys(self.codes("change"), leak)
        if not anyone:
            return found and found & self.prospect.held(base)
        for codes in self.prospect.competing(base):
            if not found:
                return 0
            found &= self._together(codes, base, anyone)
        return found

    def _together(self, codes: list[str], base: Mapping[str, Whose], anyone: Whose) -> int:
        """These rows by all who must hold them; each row of the change besides by any one who is there for it."""
        changed = [code for code in codes if code in self.codes("change")]
        found = 0
        for chosen in product(sorted(anyone), repeat=len(changed)):
            one = self.prospect.held(
                {code: base[code] for code in codes}
                | {code: base[code] | {who} for code, who in zip(changed, chosen, strict=True)}
            )
            for who in set(chosen):
                if self.learners[who.removeprefix(SET_OUT_FOR)].kind == "person":
                    one &= self.knows(who)
            found |= one
        return found

    def knows(self, who: str) -> int:
        """When this learner has explained all that must be known to be counted by the hour (R4)."""
        learner = who.removeprefix(SET_OUT_FOR)
        if learner not in self._knows:
            found = self.line.always
            for row in self.parts.get("know", ()):
                found &= self.talks[learner].explained(row.row)
            self._knows[learner] = found
        return self._knows[learner]

    def _looks(self, row: Row, group: Iterable[str]) -> int:
        """By whoever holds the row; or by a helper who sees and has agreed, once taught what to look for (I13)."""
        found = 0
        for who in group:
            found |= self.prospect.held({row.code: frozenset((who,))}) | self._may_look(who, row)
        return found

    def _may_look(self, who: str, row: Row) -> int:
        if who not in self.learners or self.learners[who].kind == "person":
            return 0
        wanting = {reason.code for reason in wanting_to_look(self.prospect.scene(who), row.item)}
        if wanting <= {"look-teach"}:
            return self.line.with_learner(who, self.stoma) if wanting else self.line.always
        return 0

    def _explained(self, lean: Lean) -> int:
        """R6: each topic by any of these, or by the nurse who visits."""
        span = self.situation.span
        if lean.nursing and any(one.at <= span.ends for one in accepted_here(self.situation, self.stoma)):
            return self.line.always
        found = self.line.always
        for row in self.parts.get("topics", ()):
            one = 0
            for key, learner in self.learners.items():
                if lean.helpers if learner.kind == "helper" else lean.person:
                    one |= self.talks[key].explained(row.row)
            found &= one
        return found

    def _worn(self, lean: Lean) -> int:
        if self.capped_until is None or (lean.nursing and change_visits(self.situation, self.stoma)):
            return self.line.always
        return self.line.since(self.capped_until)
