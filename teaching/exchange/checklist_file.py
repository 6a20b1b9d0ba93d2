"""A checklist version as a file, read into facts. Its columns are told in docs/checklist.md."""

from pathlib import Path

from teaching.exchange.checklist_faults import faults
from teaching.exchange.checklist_rows import FLAGS, TEXTS
from teaching.exchange.wrong_file import WrongFile, load_json
from teaching.rules.checklist import conditions
from teaching.rules.facts import Checklist, Item

FIXTURE = Path(__file__).parents[2] / "fixtures" / "checklist-1.json"


def read_checklist(data: object, language: str = "en") -> Checklist:
    """The version in one language, rows in the order they are taught. Raises WrongFile with every fault."""
    found = faults(data)
    if not found and language not in data["languages"]:  # type: ignore[index]
        found = [f"languages: {language} is not among {', '.join(data['languages'])}."]  # type: ignore[index]
    if found:
        raise WrongFile(found)
    assert isinstance(data, dict)
    rows = sorted(data["rows"], key=lambda row: row["position"])
    return Checklist(data["code"], data["number"], tuple(item(row, language) for row in rows))


def load_checklist(path: str | Path = FIXTURE, language: str = "en") -> Checklist:
    """The version kept in a file; the product's own version 1 unless another is named."""
    return read_checklist(load_json(path), language)


def item(row: dict, language: str) -> Item:
    """One faultless row as a fact, its texts in one language ("" where a topic has none)."""
    texts = {name: row.get(name, {}).get(language, "") for name in TEXTS}
    flags = {name: row.get(name, False) for name in FLAGS}
    return Item(
        code=row["code"],
        procedure=row["procedure"],
        position=row["position"],
        phase=row.get("phase", ""),
        applies=conditions(row["applies"]),
        essential=conditions(row["essential"]),
        practice_share=row.get("practice_share", "none"),
        evidence_group=row.get("evidence_group", ""),
        lends_to=frozenset(row.get("lends_to", ())),
        reopened_by=frozenset(row.get("reopened_by", ())),
        continues=row.get("continues", ""),
        **texts,
        **flags,
    )
