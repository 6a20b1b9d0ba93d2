"""The handover on paper: one page a person, and a whole shift in one file with its index. Facts in, content out."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from teaching.rules.handover.parts import Handover
from teaching.rules.handover.sbar import clock
from teaching.rules.huddle import spoken_date
from teaching.rules.ward import Ward

HOLDS = (
    "Says what was recorded up to then; supports, never replaces, a clinician's decision. Shred after use."
)


@dataclass(frozen=True, slots=True)
class HandoverPaper:
    """Everything the paper says. `whole_shift`: an index of bed, name and page stands before the people."""

    unit: str
    shift: str
    people: tuple[Handover, ...]
    whole_shift: bool
    printed_by: str
    printed_at: str
    policy: str

    @property
    def count(self) -> str:
        return "1 person" if len(self.people) == 1 else f"{len(self.people)} people"

    @property
    def call_now(self) -> int:
        return sum(1 for each in self.people if each.call_now)

    @property
    def holds(self) -> str:
        return HOLDS

    @property
    def made(self) -> str:
        return f"Printed {self.printed_at} by {self.printed_by}. Policy version {self.policy}."

    @property
    def title(self) -> str:
        """Names nobody: it stands in the window's title and in the file."""
        if self.whole_shift:
            return f"Handover, {self.unit}, {self.shift}"
        return f"Handover of one person, {self.unit}, {self.printed_at}"


def handover_content(
    *,
    unit: str,
    ward: Ward,
    people: Iterable[Handover],
    now: datetime,
    printed_by: str,
    policy: str,
    whole_shift: bool = False,
) -> HandoverPaper:
    """The paper as it stands at `now` (UTC), people in the order they are given."""
    day, shift = ward.shift(now)
    return HandoverPaper(
        unit=unit,
        shift=f"{spoken_date(day)}, {shift} shift",
        people=tuple(people),
        whole_shift=whole_shift,
        printed_by=printed_by,
        printed_at=clock(ward, now),
        policy=policy,
    )
