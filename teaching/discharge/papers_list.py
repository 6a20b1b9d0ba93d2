"""The papers kept of one person, newest first: what each is, who signed it, and whether anything changed since."""

from dataclasses import dataclass

from django.urls import reverse

from teaching.record.kept_papers import Stands, changed_since, kept_of
from teaching.rules.paper_kinds import PAPER_KINDS, READINESS

SIGNED, MADE = "Changed since signing.", "Something was written since this was made."


@dataclass(frozen=True, slots=True)
class KeptPaper:
    """`changed` in words, "" where nothing has changed since; `cover` the address of what has changed, or ""."""

    name: str
    said: str
    changed: str
    address: str
    cover: str


def papers_of(stay, now: Stands) -> list[KeptPaper]:
    """`now`: how the stay stands. One query."""
    return [_said(row, changed_since(row, now)) for row in kept_of(stay)]


def _said(row, moved: bool) -> KeptPaper:
    cover = reverse("changed-since", args=[row.uid]) if moved and row.kind == READINESS else ""
    changed = (SIGNED if row.signed_at else MADE) if moved else ""
    address = reverse("kept-paper", args=[row.uid])
    return KeptPaper(PAPER_KINDS.get(row.kind, row.kind), row.headline or "", changed, address, cover)
