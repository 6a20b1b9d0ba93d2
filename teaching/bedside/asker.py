"""Who looks at a page of this room: what they may do here, and how they sign."""

from functools import cached_property

from teaching.access.scope import may
from teaching.access.signed_in import name_of
from teaching.record.sessions import grade_of
from teaching.rules.vocabulary import GRADES


class Asker:
    """Call it with a permission to ask whether it is held on the unit of this request."""

    def __init__(self, request):
        self.request = request
        self.clinician_id = request.user.clinician_id

    def __call__(self, permission: str) -> bool:
        return may(self.request.user, permission, self.request.unit)

    @cached_property
    def grade(self) -> str:
        return grade_of(self.request.actor)

    @property
    def signs_as(self) -> str:
        """Name and grade, as it is signed."""
        return f"{name_of(self.request.user)}, {GRADES[self.grade]}"
