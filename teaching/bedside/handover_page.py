"""The handover on screen: the four parts to read aloud, and the short text for the hospital's own record."""

from django.urls import reverse

from teaching.bedside.band import band_of
from teaching.bedside.caution_page import cautions_of
from teaching.record.handing_over import Known


class HandoverPage:
    """`papers` are (address, words) of what may be printed from here; `marks` what `mark_sheet` must define."""

    def __init__(self, stay, known: Known, may=lambda permission: False):
        self.band = band_of(stay, known.chart)
        self.cautions = cautions_of(known.chart, known.now, may)
        self.handover = known.handover
        self.policy = known.policy.version
        self.print = reverse("handover-paper", args=[stay.uid])
        self.papers = [(reverse("transfer-form", args=[stay.uid]), "Transfer form for a care facility (PDF)")]

    @property
    def marks(self) -> set[tuple[str, bool]]:
        return {(line.mark, line.practice) for part in self.handover.parts for line in part.lines if line.mark}
