"""The three ways a table is kept, and the base every row of the record stands on.

Each concrete model says how it is kept; the database guards (`guards.py`) are installed by that word:
record       INSERT only, in the database itself; newest = highest number per parent
operational  may change, never evidence
derived      may be thrown away and worked out again from record rows
"""

import uuid

from django.db import models
from django.utils import timezone

RECORD = "record"
OPERATIONAL = "operational"
DERIVED = "derived"


class AppendOnlyError(Exception):
    """Somebody tried to change or delete a record row through the model; the database would refuse it too."""


class RecordQuerySet(models.QuerySet):
    def update(self, **values):
        raise AppendOnlyError(f"{self.model.__name__} rows are only ever added; add a newer row instead.")

    def delete(self):
        raise AppendOnlyError(f"{self.model.__name__} rows are never deleted; see record.purging for the one way out.")


class Record(models.Model):
    """A row that is written once. `by` is None only where the command line set up the house."""

    keeps = RECORD

    uid = models.UUIDField(default=uuid.uuid4, unique=True, editable=False)
    recorded_at = models.DateTimeField(default=timezone.now, editable=False)
    by = models.ForeignKey("teaching.Clinician", models.PROTECT, null=True, related_name="+")

    objects = RecordQuerySet.as_manager()

    class Meta:
        abstract = True

    def save(self, *args, **kwargs):
        if not self._state.adding:
            raise AppendOnlyError(f"{type(self).__name__} rows are only ever added; add a newer row instead.")
        super().save(*args, **kwargs)

    def delete(self, *args, **kwargs):
        raise AppendOnlyError(f"{type(self).__name__} rows are never deleted; see record.purging for the one way out.")


class ClinicalRecord(Record):
    """A record row about one stay, always signed by somebody."""

    stay = models.ForeignKey("teaching.Stay", models.PROTECT, related_name="+")
    by = models.ForeignKey("teaching.Clinician", models.PROTECT, related_name="+")

    class Meta:
        abstract = True


def number_field():
    """The row's place among its siblings, from 1: the highest is the one in force."""
    return models.PositiveIntegerField(default=1)


def choices(words):
    """Model choices from a vocabulary table of code -> words."""
    return list(words.items())


def one_of(field, codes, name, *, blank=False):
    """A CHECK that a stored code is a word of the vocabulary (or empty where that means 'not said')."""
    allowed = list(codes) + ([""] if blank else [])
    return models.CheckConstraint(condition=models.Q(**{f"{field}__in": allowed}), name=name)
