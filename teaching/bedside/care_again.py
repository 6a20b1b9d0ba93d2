"""Care given, told anew: the form as it was signed. What this form does not ask for is kept as it was."""

from dataclasses import asdict, replace

from teaching.bedside.care_form import CHANGED, DID, LEAKED, CareForm
from teaching.bedside.times import exactly
from teaching.record.entries import CareEntry, FindingEntry


def has_form(event) -> bool:
    """Whether a page of this room can correct it: night care brought in from elsewhere has none."""
    return event.kind != "care" or event.procedure in ("change", "meeting", *DID)


class CareAgain(CareForm):
    def __init__(self, data, *, account, chart):
        self.account, self.finding = account, getattr(account, "finding", None)
        ended = self.finding.wear_end if self.finding else ""
        changed = LEAKED if ended == "leak" else CHANGED
        said = {
            "which": str(account.event.stoma.uid),
            "what": changed if account.event.procedure == "change" else DID.get(account.event.procedure, ""),
            "leak_track": self.finding.leak_track if self.finding else "",
            "at": account.began_at,
        }
        super().__init__(data, initial=said, stay=account.stay, chart=chart, now=account.began_at)

    def entry(self, client_skew_s=None) -> CareEntry:
        entry = super().entry(client_skew_s)
        entry = replace(entry, at=exactly(entry.at, self.account.began_at))
        if self.finding is None:
            return entry
        kept = {name: getattr(self.finding, name) for name in asdict(FindingEntry())}
        said = {"wear_end": self._ended(kept["wear_end"]), "leak_track": ""}
        if said["wear_end"] == "leak":
            said["leak_track"] = self.cleaned_data["leak_track"]
        return replace(entry, finding=FindingEntry(**kept | said))

    def _ended(self, before: str) -> str:
        """How the pouch before ended: "itch" or "need" is not asked here and stays where it was no leak."""
        what = self.cleaned_data["what"]
        if what == CHANGED:
            return before if before not in ("", "leak") else "planned"
        return "leak" if what == LEAKED else ""
