"""Papers that are kept: frozen content and the very bytes, stored together, signed or not. They never change.

A paper is drawn before the transaction; inside it the facts must still be the ones it was drawn from.
"""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from hashlib import sha256
from typing import Any

from django.db.models.fields.json import KT
from django.utils import timezone

from teaching.models import Paper, PaperFile, Stay
from teaching.record.actor import Actor
from teaching.record.checking import somebody
from teaching.record.proof import proved
from teaching.record.refusals import Fault, Refused
from teaching.record.trail import leave_line
from teaching.record.writing import Superseded, done, next_number, writing
from teaching.rules.assess import RULES_VERSION


class FactsMoved(Superseded):
    """Something was written about this stay after the paper was drawn (HTTP 409); nothing was stored."""

    def __init__(self) -> None:
        Refused.__init__(
            self,
            Fault("", "Something was written about this person since this was drawn. Read it again, then sign."),
        )


class Damaged(Exception):
    """A kept paper's bytes are not the ones that were stored."""


def keep_paper(
    *,
    actor: Actor,
    stay: Stay,
    kind: str,
    content: Mapping[str, Any],
    pdf: bytes,
    revision: int,
    policy_version: str,
    meaning: str = "",
) -> Paper:
    """Store a paper as it was printed. With `meaning` it is signed, which needs fresh proof of who signs.

    `revision` is the chart's when it was drawn. Raises FactsMoved where the stay has moved on since.
    """
    clinician = somebody(actor)
    proof = proved(actor) if meaning else ""
    told = json.dumps(content, sort_keys=True, ensure_ascii=False)
    with writing(stay) as locked:
        assert locked is not None
        if locked.revision != revision:
            raise FactsMoved
        now = timezone.now()
        paper = Paper.objects.create(
            stay=stay, by=clinician, kind=kind, number=next_number(Paper, stay=stay, kind=kind),
            content=json.loads(told), content_sha256=_sha256(told.encode()), revision=revision,
            policy_version=policy_version, code_version=f"rules {RULES_VERSION}", meaning=meaning, proof=proof,
            signed_by=clinician if meaning else None, signed_at=now if meaning else None,
        )  # fmt: skip
        PaperFile.objects.create(stay=stay, by=clinician, paper=paper, sha256=_sha256(pdf), bytes=pdf)
        done(actor, "sign_paper" if meaning else "keep_paper", paper, stay=stay, unit=locked.unit)
    return paper


def reprint(*, actor: Actor, paper: Paper) -> bytes:
    """The stored bytes, as they were; each printing leaves a line. Raises Damaged if they were touched."""
    somebody(actor)
    stored = PaperFile.objects.get(paper=paper)
    pdf = bytes(stored.bytes)
    with writing():
        leave_line(actor=actor, verb="reprint_paper", outcome="done", stay=paper.stay, object=paper)
    if _sha256(pdf) != stored.sha256:
        raise Damaged(f"The stored bytes of paper {paper.uid} are not the ones that were kept.")
    return pdf


def newest_paper(stay: Stay, kind: str) -> Paper | None:
    return Paper.objects.filter(stay=stay, kind=kind).select_related("signed_by").order_by("-number").first()


@dataclass(frozen=True, slots=True)
class Stands:
    """How a stay stands now, which a kept paper is held against: `result` as a paper says it."""

    revision: int
    policy_version: str
    result: str


def kept_of(stay: Stay) -> list[Any]:
    """The papers of a stay, newest first, without what else they say: uid, kind, what they were made from, whether
    signed, headline, result (None: this kind says none).
    """
    rows = Paper.objects.filter(stay=stay).order_by("-pk")
    rows = rows.annotate(headline=KT("content__headline"), result=KT("content__result"))
    names = ("uid", "kind", "revision", "policy_version", "signed_at", "headline", "result")
    return list(rows.values_list(*names, named=True))


def changed_since(kept: Any, now: Stands) -> bool:
    """Whether anything was written about the stay, the policy moved on, or the same facts judged now say otherwise.

    `kept` of `kept_of`. The policy and the result matter where the paper says a result.
    """
    if kept.revision != now.revision:
        return True
    return kept.result is not None and (kept.policy_version, kept.result) != (now.policy_version, now.result)


def _sha256(told: bytes) -> str:
    return sha256(told).hexdigest()
