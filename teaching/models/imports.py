"""Where an imported row came from."""

from django.db import models

from teaching.models.append_only import ClinicalRecord


class ImportOrigin(ClinicalRecord):
    """One imported object (by its uid): the file it came in, and who wrote it there."""

    object_uid = models.UUIDField()
    object_kind = models.CharField(max_length=30)
    file_sha256 = models.CharField(max_length=64)
    author = models.CharField(max_length=120, blank=True)
    author_grade = models.CharField(max_length=20, blank=True)

    class Meta:
        constraints = [models.UniqueConstraint(fields=["object_uid"], name="import_origin_once")]
