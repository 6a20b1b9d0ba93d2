"""Powder is a decision, tied to what was found in this event."""

from teaching.record.entries import FindingEntry
from teaching.rules.vocabulary import SKIN, SKIN_REGIONS

NOT_LOOKED = "No skin is written down for this event yet. Powder belongs on raw or wet skin only."
SOUND = "Skin was found the same as nearby: powder is not needed on it."


def judged(code: str, finding: FindingEntry | None) -> str:
    """What "all of this alone" comes to for a decision: rightly judged; on sound skin powder was not needed."""
    return "not_needed" if code == "powder" and finding and sound(finding) else "right"


def sound(finding: FindingEntry) -> bool:
    """Skin was looked at, none of it differs, and no powder is said to have been put anywhere."""
    return bool(finding.skin) and set(finding.skin.values()) == {"good"} and not finding.powder_where


def powder_hint(finding: FindingEntry | None) -> str:
    """What this event found, beside the decision. It names, and decides nothing."""
    seen = finding.skin if finding else {}
    if not seen:
        return NOT_LOOKED
    worse = "; ".join(f"{SKIN[what]} {SKIN_REGIONS[where]}" for where, what in seen.items() if what != "good")
    if not worse:
        return SOUND
    if "wet-raw" in seen.values():
        return f"Skin found: {worse}. A dusting there, the rest brushed off; none on sound skin."
    return f"Skin found: {worse}. Not raw or wet: powder does not mend it; ask the stoma nurse."
