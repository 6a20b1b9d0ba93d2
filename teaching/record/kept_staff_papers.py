"""Papers about a unit's staff that are kept: frozen content and the very bytes, stored together. They never change.

A paper is drawn before the transaction; inside it the facts must still say the same.
"""

import json
from collections.abc import Callable, Mapping
from hashlib import sha256
from typing import Any

from teaching.models import Clinician, StaffPaper, Unit
from teaching.record.actor import Actor
from teaching.record.checking import somebody
from teaching.record.kept_papers import Damaged
from teaching.record.trail import leave_line
from teaching.record.writing import Superseded, done, next_number, one_at_a_time, writing
from teaching.rules.assess import RULES_VERSION

MOVED = "Something was written about these skills after this was drawn. Keep it again to draw it anew."
Content = Mapping[str, Any]


def keep_staff_paper(
    *,
    actor: Actor,
    unit: Unit,
    kind: str,
    content: Content,
    pdf: bytes,
    still: Callable[[], Content],
    nurse: Clinician | None = None,
) -> StaffPaper:
    """Store a paper as it was printed, of a unit or one of its nurses.

    `still` reads the facts once more, for the same moment. Raises Superseded where they say something else by now.
    """
    keeper, told = somebody(actor), _told(content)
    with writing():
        one_at_a_time("staff paper", str(unit.uid), kind)
        if _told(still()) != told:
            raise Superseded(MOVED)
        made = StaffPaper.objects.create(
            unit=unit, nurse=nurse, kind=kind, by=keeper, number=next_number(StaffPaper, unit=unit, kind=kind),
            content=json.loads(told), content_sha256=_sha256(told.encode()), code_version=f"rules {RULES_VERSION}",
            sha256=_sha256(pdf), bytes=pdf,
        )  # fmt: skip
        done(actor, "keep_staff_paper", made, unit=unit)
    return made


def reprint_staff_paper(*, actor: Actor, paper: StaffPaper) -> bytes:
    """The stored bytes, as they were; each printing leaves a line. Raises Damaged if they were touched."""
    somebody(actor)
    pdf = bytes(paper.bytes)
    with writing():
        leave_line(actor=actor, verb="reprint_staff_paper", outcome="done", unit=paper.unit, object=paper)
    if _sha256(pdf) != paper.sha256:
        raise Damaged(f"The stored bytes of staff paper {paper.uid} are not the ones that were kept.")
    return pdf


def staff_papers_of(unit: Unit, kind: str) -> list[Any]:
    """The unit's papers of a kind, newest first, without their bytes: uid, number, headline. One query."""
    rows = StaffPaper.objects.filter(unit=unit, kind=kind).order_by("-number")
    return list(rows.values_list("uid", "number", "content__headline", named=True))


def _told(content: Content) -> str:
    return json.dumps(content, sort_keys=True, ensure_ascii=False)


def _sha256(told: bytes) -> str:
    return sha256(told).hexdigest()
