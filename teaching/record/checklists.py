"""Publishing a checklist version, and reading a published one as the rules see it."""

import json
from collections.abc import Mapping
from functools import lru_cache
from hashlib import sha256
from typing import Any

from django.utils import timezone

from teaching.models import ChecklistRow, ChecklistVersion
from teaching.record.actor import Actor
from teaching.record.checking import Faults
from teaching.record.refusals import refuse
from teaching.record.writing import done, writing
from teaching.rules.checklist import conditions
from teaching.rules.facts import Checklist, Item
from teaching.rules.vocabulary import PROCEDURES

TEXTS = ("title", "good", "ask_back", "watch_for")
FLAGS = ("decision", "hard_minimum", "looking")


def publish_checklist(*, actor: Actor, content: Mapping[str, Any]) -> ChecklistVersion:
    """A version as its file has it. The same content again gives the version that stands; it is never edited.

    The file's own reader (`manage.py check_checklist`) explains more; here only what would not store is refused.
    """
    _check(content)
    digest = sha256(json.dumps(content, sort_keys=True, ensure_ascii=False).encode()).hexdigest()
    with writing():
        stands = ChecklistVersion.objects.filter(code=content["code"], number=content["number"]).first()
        if stands and stands.sha256 == digest:
            return stands
        if stands:
            refuse("number", f"Version {content['number']} is published and never changes; use the next number.")
        now = timezone.now()
        version = ChecklistVersion.objects.create(
            code=content["code"], number=content["number"], sha256=digest, content=dict(content),
            published_at=now, by=actor.clinician,
        )
        ChecklistRow.objects.bulk_create(
            ChecklistRow(
                version=version, by=actor.clinician, recorded_at=now,
                code=row["code"], procedure=row["procedure"], phase=row.get("phase", ""),
                position=row["position"], applies=row["applies"], essential=row["essential"],
                practice_share=row.get("practice_share", "none"), evidence_group=row.get("evidence_group", ""),
                lends_to=row.get("lends_to", []), reopened_by=row.get("reopened_by", []),
                continues=row.get("continues", ""), **{name: row.get(name, False) for name in FLAGS},
            )
            for row in content["rows"]
        )
        done(actor, "publish_checklist", version)
    return version


def _check(content: Mapping[str, Any]) -> None:
    faults = Faults()
    rows = content.get("rows") or []
    if not isinstance(content.get("code"), str) or not isinstance(content.get("number"), int) or not rows:
        refuse("content", "A checklist has a code, a number and rows; check the file with check_checklist first.")
    for row in rows:
        missing = {"code", "procedure", "position", "applies", "essential", "title"} - set(row)
        if missing:
            faults.add("rows", f"{row.get('code', 'A row')} lacks {', '.join(sorted(missing))}; add them.")
            continue
        faults.word("rows", row["procedure"], PROCEDURES)
        for name in ("applies", "essential"):
            try:
                conditions(row[name])
            except ValueError as trouble:
                faults.add("rows", f"{row['code']}.{name}: {trouble}")
    codes = [row.get("code") for row in rows]
    if len(set(codes)) < len(codes):
        faults.add("rows", "Two rows have the same code; give each its own.")
    faults.stop()


def checklist_of(version: ChecklistVersion, language: str = "en") -> Checklist:
    """The version as the rules see it, in one language. A published version never changes, so it is read once."""
    return _read(str(version.uid), language, version.pk)


@lru_cache(maxsize=32)
def _read(uid: str, language: str, key: int) -> Checklist:
    version = ChecklistVersion.objects.get(pk=key, uid=uid)
    texts = {row["code"]: row for row in version.content["rows"]}
    rows = ChecklistRow.objects.filter(version=version).order_by("position")
    return Checklist(version.code, version.number, tuple(_item(row, texts[row.code], language) for row in rows))


def _item(row: ChecklistRow, texts: Mapping[str, Any], language: str) -> Item:
    return Item(
        code=row.code, procedure=row.procedure, position=row.position, phase=row.phase,
        applies=conditions(row.applies), essential=conditions(row.essential),
        decision=row.decision, hard_minimum=row.hard_minimum, looking=row.looking,
        practice_share=row.practice_share, evidence_group=row.evidence_group,
        lends_to=frozenset(row.lends_to), reopened_by=frozenset(row.reopened_by), continues=row.continues,
        **{name: _said(texts.get(name, {}), language) for name in TEXTS},
    )


def _said(text: Mapping[str, str], language: str) -> str:
    return text.get(language) or next(iter(text.values()), "")


@lru_cache(maxsize=32)
def row_keys(uid: str) -> dict[str, int]:
    """Each row's code and its key in the database, for one published version."""
    return dict(ChecklistRow.objects.filter(version__uid=uid).values_list("code", "pk"))
