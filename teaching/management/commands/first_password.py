"""manage.py first_password: for somebody whose units have no lead in common, or who leads one alone."""

from axes.utils import reset
from django.core.management.base import BaseCommand, CommandError

from teaching.models import User
from teaching.record.actor import Actor
from teaching.record.refusals import Refused
from teaching.record.staff import give_first_password


class Command(BaseCommand):
    help = "Give a new first password. The old one stops working at once; the new one is shown once."

    def add_arguments(self, parser):
        parser.add_argument("username")

    def handle(self, *args, **options):
        user = User.objects.filter(username=options["username"]).first()
        if user is None:
            raise CommandError(f"Nobody signs in as {options['username']}. Check the spelling.")
        try:
            password = give_first_password(actor=Actor(clinician=None, roles=("command",)), user=user)
        except Refused as refused:
            raise CommandError(str(refused)) from None
        reset(username=user.username)
        self.stdout.write(f"First password of {user.username}, shown once: {password}")
