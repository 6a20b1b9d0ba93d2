"""The one door in (verbs, keyword-only, one transaction, a trail line) and the one door out (charts)."""
