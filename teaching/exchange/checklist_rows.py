"""The faults that one row of a checklist file can have by itself."""

import re
from collections.abc import Collection

from teaching.exchange.wrong_file import did_you_mean
from teaching.rules.checklist import FEATURES, REOPENERS, conditions
from teaching.rules.vocabulary import PHASES, PROCEDURES

SHARES = ("all", "one of two", "none")
TEXTS = ("title", "good", "ask_back", "watch_for")
NEEDED_TEXTS = {"topics": ("title", "ask_back")}
FLAGS = ("decision", "hard_minimum", "looking")
COLUMNS = (
    *("code", "procedure", "phase", "position", *TEXTS, "sources", "applies", "essential", *FLAGS),
    *("practice_share", "evidence_group", "lends_to", "reopened_by", "continues"),
)
SOURCE_CLASSES = {
    "P": "published",
    "M": "from memory",
    "C": "common practice",
    "D": "worked out from a published value",
}


def row_faults(row: dict, languages: list) -> list[str]:
    """Every fault of one row by itself, each beginning with its column."""
    found = [f"{key}: is not a column; {did_you_mean(key, COLUMNS)}" for key in row if key not in COLUMNS]
    if not is_code(row.get("code")):
        found.append("code: must be a short name in small letters and hyphens, such as em-close.")
    procedure = row.get("procedure")
    if not is_known(procedure, PROCEDURES):
        found.append(f"procedure: {procedure!r} is unknown; {did_you_mean(procedure, PROCEDURES)}")
    found += _phase_faults(row.get("phase"), procedure)
    if not is_count(row.get("position")):
        found.append("position: must be a whole number from 1 up; it sets the order of teaching.")
    needed = NEEDED_TEXTS.get(str(procedure), TEXTS)
    for name in TEXTS:
        if name in needed or name in row:
            found += text_faults(name, row.get(name), languages)
    found += _source_faults(row.get("sources", {}), row)
    for name in ("applies", "essential"):
        found += _condition_faults(name, row.get(name))
    if row.get("applies") == "none":
        found.append("applies: none means that nobody ever meets this row; leave the row out.")
    found += [
        f"{name}: must be true or false." for name in FLAGS if not isinstance(row.get(name, False), bool)
    ]
    return found + _meaning_faults(row) + _link_faults(row)


def _meaning_faults(row: dict) -> list[str]:
    found = []
    procedure, essential = row.get("procedure"), row.get("essential")
    if row.get("hard_minimum") and essential == "none":
        found.append(
            "hard_minimum: a row of the hard minimum must be essential; set essential, or drop the mark."
        )
    if procedure in ("meeting", "topics") and row.get("decision"):
        found.append(f"decision: {procedure} rows are not rated, so none can be a decision; set it to false.")
    if procedure == "meeting" and essential != "none":
        found.append("essential: meeting the stoma is never asked as a must; set it to none.")
    if procedure != "topics" and row.get("practice_share") not in SHARES:
        found.append(
            f"practice_share: {row.get('practice_share')!r} is unknown; "
            f"{did_you_mean(row.get('practice_share'), SHARES)}"
        )
    if procedure == "topics":
        found += [
            f"{name}: a topic is explained in words and has none; leave it out."
            for name in ("practice_share", "evidence_group", "lends_to", "reopened_by", "looking")
            if row.get(name)
        ]
    if row.get("looking") and row.get("practice_share") in ("all", "one of two"):
        found.append("practice_share: nobody can look at their own skin on a model; a looking row has none.")
    return found


def _link_faults(row: dict) -> list[str]:
    found = []
    for name in ("lends_to", "reopened_by"):
        words = row.get(name, [])
        if not isinstance(words, list) or not all(isinstance(word, str) for word in words):
            found.append(f"{name}: must be a list of words.")
        elif name == "reopened_by":
            found += [
                f"reopened_by: {word} is not an event; {did_you_mean(word, REOPENERS)}"
                for word in words
                if word not in REOPENERS
            ]
    for name in ("evidence_group", "continues"):
        if name in row and not is_code(row[name]):
            found.append(
                f"{name}: must be a short name in small letters and hyphens; leave it out when there is none."
            )
    if row.get("continues") and row.get("continues") == row.get("code"):
        found.append(
            "continues: a row cannot continue itself; name the earlier version's row, or leave it out."
        )
    return found


def _phase_faults(phase: object, procedure: object) -> list[str]:
    if procedure == "change":
        return (
            [] if is_known(phase, PHASES) else [f"phase: {phase!r} is unknown; {did_you_mean(phase, PHASES)}"]
        )
    return [] if phase is None else ["phase: only a pouch change has phases; leave it out."]


def text_faults(name: str, texts: object, languages: list) -> list[str]:
    if not isinstance(texts, dict):
        return [f'{name}: must be texts by language, such as {{"en": "..."}}.']
    missing = [one for one in languages if not isinstance(texts.get(one), str) or not texts[one].strip()]
    found = [f"{name}.{one}: the text is missing; write it." for one in missing]
    return found + [
        f"{name}.{one}: is not among the file's languages; add it there or leave it out."
        for one in texts
        if one not in languages
    ]


def _source_faults(sources: object, row: dict) -> list[str]:
    if not isinstance(sources, dict):
        return ['sources: must name a text column and its class, such as {"good": "P: who published it"}.']
    found = [
        f"sources.{name}: is not a text of this row; {did_you_mean(name, TEXTS)}"
        for name in sources
        if name not in TEXTS or name not in row
    ]
    return found + [
        f"sources.{name}: must begin with P, M, C or D, then a colon and who says so."
        for name, words in sources.items()
        if not isinstance(words, str) or words.split(":")[0] not in SOURCE_CLASSES
    ]


def _condition_faults(name: str, text: object) -> list[str]:
    if not isinstance(text, str) or not text.strip():
        return [f'{name}: must say when, such as "all", "none" or "drainable or urostomy".']
    try:
        words = {word for alternative in conditions(text) for word in alternative}
    except ValueError as trouble:
        return [f"{name}: {trouble}"]
    return [
        f"{name}: {word} is not a feature; {did_you_mean(word, sorted(FEATURES))}"
        for word in sorted(words)
        if word not in FEATURES
    ]


def is_known(value: object, known: Collection[str]) -> bool:
    return isinstance(value, str) and value in known


def is_code(value: object) -> bool:
    return isinstance(value, str) and bool(re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", value))


def is_count(value: object) -> bool:
    return isinstance(value, int) and not isinstance(value, bool) and value >= 1
