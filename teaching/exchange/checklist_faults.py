"""Every fault of a checklist file: its head, each row, and rows read beside each other."""

from itertools import pairwise

from teaching.exchange.checklist_rows import is_code, is_count, is_known, row_faults, text_faults
from teaching.exchange.wrong_file import did_you_mean
from teaching.rules.vocabulary import PHASES

FORMAT = "ostomy-teach checklist"
KEYS = ("format", "code", "number", "languages", "title", "about", "rows")


def faults(data: object) -> list[str]:
    """Every fault of a checklist file, in the order of the file; empty when there is none."""
    if not isinstance(data, dict):
        return ["file: must be one JSON object with format, code, number, languages, title and rows."]
    found = _head_faults(data)
    rows = data.get("rows")
    if not isinstance(rows, list) or not rows:
        return [*found, "rows: must be a list with at least one row."]
    languages = data.get("languages")
    languages = languages if isinstance(languages, list) else []
    for index, row in enumerate(rows):
        if not isinstance(row, dict):
            found.append(f"rows[{index}]: must be an object, one for each row.")
            continue
        code = row.get("code")
        path = f"rows[{index}] ({code})" if isinstance(code, str) else f"rows[{index}]"
        found += [f"{path}.{fault}" for fault in row_faults(row, languages)]
    return found + _faults_between([row for row in rows if isinstance(row, dict)])


def _head_faults(data: dict) -> list[str]:
    found = [
        f"{key}: is not a key of a checklist; {did_you_mean(key, KEYS)}" for key in data if key not in KEYS
    ]
    if data.get("format") != FORMAT:
        found.append(f'format: must be "{FORMAT}".')
    if not is_code(data.get("code")):
        found.append("code: must be a short name in small letters and hyphens, such as stoma-care.")
    if not is_count(data.get("number")):
        found.append("number: must be a whole number from 1 up; the next version has the next number.")
    languages = data.get("languages")
    if (
        not isinstance(languages, list)
        or not languages
        or not all(isinstance(one, str) and one for one in languages)
    ):
        return [*found, 'languages: must list at least one language code, such as ["en"].']
    if len(set(languages)) < len(languages):
        found.append("languages: names a language twice; keep one.")
    return found + text_faults("title", data.get("title"), languages)


def _faults_between(rows: list[dict]) -> list[str]:
    """Faults that show only when rows are read beside each other."""
    found = []
    codes = [row["code"] for row in rows if isinstance(row.get("code"), str)]
    found += [
        f"rows ({code}): the code stands {codes.count(code)} times; every row has its own."
        for code in sorted(set(codes))
        if codes.count(code) > 1
    ]
    places: dict[int, list[str]] = {}
    for row in rows:
        if is_count(row.get("position")):
            places.setdefault(row["position"], []).append(str(row.get("code")))
    found += [
        f"rows ({', '.join(names)}): all stand at position {place}; give each its own."
        for place, names in places.items()
        if len(names) > 1
    ]
    groups = [row["evidence_group"] for row in rows if isinstance(row.get("evidence_group"), str)]
    for row in rows:
        path = f"rows ({row.get('code')})"
        told = row.get("lends_to")
        lends: list = told if isinstance(told, list) else []
        found += [
            f"{path}.lends_to: {code} is not a row of this file; {did_you_mean(code, codes)}"
            for code in lends
            if code not in codes
        ]
        if isinstance(row.get("code"), str) and row["code"] in lends:
            found.append(f"{path}.lends_to: a row cannot lend to itself; leave it out.")
        if row.get("evidence_group") and groups.count(row["evidence_group"]) == 1:
            found.append(
                f"{path}.evidence_group: {row['evidence_group']} has no other row; name it there too."
            )
        if row.get("continues") in codes and row.get("continues") != row.get("code"):
            found.append(
                f"{path}.continues: {row['continues']} still stands in this file; a row that goes on under a "
                "new code leaves this version."
            )
    return found + _order_faults(rows)


def _order_faults(rows: list[dict]) -> list[str]:
    placed = [row for row in rows if is_known(row.get("phase"), PHASES) and is_count(row.get("position"))]
    placed.sort(key=lambda row: row["position"])
    order = list(PHASES)
    return [
        f"rows ({later.get('code')}).phase: {later['phase']} comes after {earlier['phase']} "
        f"({earlier.get('code')}) has begun; move its position before it."
        for earlier, later in pairwise(placed)
        if order.index(later["phase"]) < order.index(earlier["phase"])
    ]
