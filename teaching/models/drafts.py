"""Work in hand: sessions begun and not signed, and the keys that make a form safe to send twice. Never evidence."""

import uuid

from django.conf import settings
from django.db import models
from django.utils import timezone

from teaching.models.append_only import OPERATIONAL


class Draft(models.Model):
    """A session begun. `state` is open, signed, dropped; `event_uid` becomes the event's uid at signing."""

    keeps = OPERATIONAL

    uid = models.UUIDField(default=uuid.uuid4, unique=True, editable=False)
    stay = models.ForeignKey("teaching.Stay", models.CASCADE, related_name="drafts")
    stoma = models.ForeignKey("teaching.Stoma", models.CASCADE, related_name="+")
    procedure = models.CharField(max_length=20)
    owner = models.ForeignKey("teaching.Clinician", models.PROTECT, related_name="drafts")
    event_uid = models.UUIDField(default=uuid.uuid4, unique=True)
    state = models.CharField(max_length=10, default="open")
    begun_at = models.DateTimeField(default=timezone.now)

    class Meta:
        indexes = [models.Index(fields=["stay", "state"], name="draft_stay")]


class DraftTap(models.Model):
    """One tap: a field, its new value, and the tap it was based on (None: nothing there before)."""

    keeps = OPERATIONAL

    draft = models.ForeignKey(Draft, models.CASCADE, related_name="taps")
    client_id = models.UUIDField()
    user = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    field = models.CharField(max_length=80)
    value = models.JSONField()
    base = models.UUIDField(null=True)
    at = models.DateTimeField(default=timezone.now)

    class Meta:
        constraints = [models.UniqueConstraint(fields=["draft", "client_id"], name="draft_tap_once")]


class TakeOver(models.Model):
    """Somebody goes on with a session that another began. Each signs only what they saw themselves."""

    keeps = OPERATIONAL

    draft = models.ForeignKey(Draft, models.CASCADE, related_name="take_overs")
    left_by = models.ForeignKey("teaching.Clinician", models.PROTECT, related_name="+")
    taken_by = models.ForeignKey("teaching.Clinician", models.PROTECT, related_name="+")
    at = models.DateTimeField(default=timezone.now)


class RequestKey(models.Model):
    """A form sent and answered: the same key again gets the same answer, another body is refused."""

    keeps = OPERATIONAL

    user = models.ForeignKey(settings.AUTH_USER_MODEL, models.CASCADE, related_name="+")
    key = models.UUIDField()
    route = models.CharField(max_length=120)
    body_sha256 = models.CharField(max_length=64)
    answer = models.CharField(max_length=300)
    at = models.DateTimeField(default=timezone.now)

    class Meta:
        constraints = [models.UniqueConstraint(fields=["user", "key"], name="request_key_once")]
