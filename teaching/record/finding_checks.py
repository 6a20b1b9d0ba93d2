"""Whether what was seen can be so: known words, possible lengths."""

from teaching.record.checking import Faults
from teaching.record.entries import FindingEntry
from teaching.rules import vocabulary as words
from teaching.rules.fit import POWDER_FOR

WORDS = {
    "colour": words.COLOURS,
    "wet": words.WETNESS,
    "edge": words.EDGES,
    "stands": words.STANDS,
    "noticed_by": words.NOTICED_BY,
    "bleeding": words.BLEEDING,
    "wear_end": words.WEAR_ENDS,
    "leak_track": words.SKIN_REGIONS,
}
POWDER = {**words.SKIN_REGIONS, **POWDER_FOR}
# The lengths a stoma and its opening can have, mm: what the tables hold.
LENGTHS = {
    "width_mm": (8, 120),
    "height_mm": (8, 120),
    "opening_width_mm": (8, 150),
    "opening_height_mm": (8, 150),
    "rod_length_mm": (0, 300),
    "stent_length_mm": (0, 500),
}


def check_finding(faults: Faults, finding: FindingEntry) -> None:
    for name, known in WORDS.items():
        faults.word(f"finding.{name}", getattr(finding, name), known, blank=True)
    for name, (low, high) in LENGTHS.items():
        faults.between(f"finding.{name}", getattr(finding, name), low, high, "mm")
    faults.between("finding.stents", finding.stents, 0, 4, "stents")
    for region, seen in finding.skin.items():
        faults.word("finding.skin", region, words.SKIN_REGIONS)
        faults.word("finding.skin", seen, words.SKIN)
    if finding.leak_track and finding.wear_end != "leak":
        faults.add("finding.leak_track", "A track belongs to a leak. Say that the pouch leaked, or leave it out.")
    for where in finding.powder_where.split():
        faults.word("finding.powder_where", where, POWDER)
