"""Clinicians, the roles they hold on a unit, their sign-offs to teach, and the accounts they sign in with."""

from django.contrib.auth.models import AbstractBaseUser, BaseUserManager
from django.db import models

from teaching.models.append_only import OPERATIONAL, Record, choices, number_field, one_of
from teaching.rules import vocabulary as words

SKILLS = {"change": "do a change", "teach-bowel": "teach, bowel stoma", "teach-urostomy": "teach, urostomy"}


class Clinician(Record):
    """Somebody who writes or is written about as staff, with or without a sign-in here."""

    registration = models.CharField(max_length=40, blank=True)
    source = models.CharField(max_length=10, default="local", choices=[("local", "local"), ("imported", "imported")])

    class Meta:
        constraints = [one_of("source", ("local", "imported"), "clinician_source_known")]


class ClinicianDetails(Record):
    clinician = models.ForeignKey(Clinician, models.PROTECT, related_name="details")
    number = number_field()
    name = models.CharField(max_length=120)
    grade = models.CharField(max_length=20, choices=choices(words.GRADES))

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["clinician", "number"], name="clinician_details_number"),
            one_of("grade", words.GRADES, "clinician_grade_known"),
        ]


class Membership(Record):
    """A role granted or revoked on a unit; unit None is the whole hospital (stoma nurse)."""

    clinician = models.ForeignKey(Clinician, models.PROTECT, related_name="memberships")
    unit = models.ForeignKey("teaching.Unit", models.PROTECT, null=True, related_name="memberships")
    role = models.CharField(max_length=20, choices=choices(words.ROLES))
    action = models.CharField(max_length=10, choices=[("grant", "grant"), ("revoke", "revoke")])
    number = number_field()

    class Meta:
        constraints = [
            models.UniqueConstraint(
                fields=["clinician", "unit", "role", "number"],
                name="membership_number",
                condition=models.Q(unit__isnull=False),
            ),
            models.UniqueConstraint(
                fields=["clinician", "role", "number"],
                name="membership_number_hospital",
                condition=models.Q(unit__isnull=True),
            ),
            one_of("role", words.ROLES, "membership_role_known"),
            one_of("action", ("grant", "revoke"), "membership_action_known"),
            models.CheckConstraint(
                name="membership_scope_fits_role",
                condition=models.Q(role__in=words.HOSPITAL_ROLES, unit__isnull=True)
                | (~models.Q(role__in=words.HOSPITAL_ROLES) & models.Q(unit__isnull=False)),
            ),
        ]


class SignOff(Record):
    """A skill granted or withdrawn. `valid_until` is stored, so a later change of policy never rewrites the past.

    Its basis is the practice that completed what was required, or an outside `certificate`.
    """

    nurse = models.ForeignKey(Clinician, models.PROTECT, related_name="sign_offs")
    skill = models.CharField(max_length=20, choices=choices(SKILLS))
    number = number_field()
    assessor = models.ForeignKey(Clinician, models.PROTECT, related_name="+")
    practice = models.ForeignKey("teaching.Practice", models.PROTECT, null=True, related_name="+")
    skill_version = models.ForeignKey("teaching.SkillVersion", models.PROTECT, null=True, related_name="+")
    certificate = models.CharField(max_length=200, blank=True)
    valid_from = models.DateTimeField()
    valid_until = models.DateTimeField()
    kind = models.CharField(max_length=10, choices=[("granted", "granted"), ("withdrawn", "withdrawn")])
    reason = models.CharField(max_length=200, blank=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["nurse", "skill", "number"], name="sign_off_number"),
            one_of("skill", SKILLS, "sign_off_skill_known"),
            one_of("kind", ("granted", "withdrawn"), "sign_off_kind_known"),
            models.CheckConstraint(condition=~models.Q(nurse=models.F("assessor")), name="sign_off_never_for_oneself"),
            models.CheckConstraint(
                condition=models.Q(valid_until__gte=models.F("valid_from")), name="sign_off_ends_after_it_starts"
            ),
        ]


class UserManager(BaseUserManager):
    def create_user(self, username, password=None, **fields):
        user = self.model(username=self.model.normalize_username(username), **fields)
        user.set_password(password)
        user.save(using=self._db)
        return user


class User(AbstractBaseUser):
    """A sign-in. What it may do follows from the clinician's memberships alone."""

    keeps = OPERATIONAL

    username = models.CharField(max_length=60, unique=True)
    clinician = models.OneToOneField(Clinician, models.PROTECT, related_name="user")
    is_active = models.BooleanField(default=True)
    must_change_password = models.BooleanField(default=False)
    sessions_ended = models.PositiveIntegerField(default=0)

    USERNAME_FIELD = "username"
    objects = UserManager()

    def _get_session_auth_hash(self, secret=None):
        # Counting up ends every session of this user at once, on every device.
        return f"{super()._get_session_auth_hash(secret=secret)}-{self.sessions_ended}"
