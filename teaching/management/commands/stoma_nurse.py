"""manage.py stoma_nurse: somebody who works in the whole hospital, so no unit's lead could make them one."""

from django.core.management.base import BaseCommand, CommandError
from django.db import transaction

from teaching.models import User
from teaching.record import staff
from teaching.record.actor import Actor
from teaching.record.refusals import Refused


class Command(BaseCommand):
    help = "Register a stoma nurse, or give or take back the role of one who signs in already."

    def add_arguments(self, parser):
        parser.add_argument("username", help="what they write to sign in")
        parser.add_argument("--name", help="to register somebody new: the name, as on the badge")
        parser.add_argument("--take-back", action="store_true", help="take the role back; the sign-in stays")

    def handle(self, *args, **options):
        actor = Actor(clinician=None, roles=("command",))
        try:
            with transaction.atomic():
                self.stdout.write(self.done(actor, **options))
        except Refused as refused:
            raise CommandError(str(refused)) from None

    def done(self, actor, *, username, name, take_back, **_) -> str:
        if name and not take_back:
            clinician = staff.register_clinician(actor=actor, name=name, grade="stoma-nurse")
            staff.grant_role(actor=actor, clinician=clinician, role="stoma-nurse")
            _, password = staff.open_account(actor=actor, clinician=clinician, username=username)
            return f"{name} signs in as {username}.\nFirst password, shown once: {password}"
        user = User.objects.filter(username=username).first()
        if user is None:
            raise CommandError(f"Nobody signs in as {username}. Add --name to register somebody new.")
        act = staff.revoke_role if take_back else staff.grant_role
        act(actor=actor, clinician=user.clinician, role="stoma-nurse")
        return f"{username} {'is no stoma nurse any more' if take_back else 'is a stoma nurse'}."
