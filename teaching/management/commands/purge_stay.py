"""manage.py purge_stay: two people, each by their own password, remove one stay. As the owner."""

from getpass import getpass

from django.core.exceptions import ValidationError
from django.core.management.base import BaseCommand, CommandError

from teaching.models import Stay, User
from teaching.record.actor import Actor
from teaching.record.purging import purge_stay
from teaching.record.refusals import Refused


class Command(BaseCommand):
    help = "Remove every row of one stay for good. Two people agree and each types their own password."

    def add_arguments(self, parser):
        parser.add_argument("stay", help="the stay's uid, as in its address")
        parser.add_argument("--asked-by", required=True, metavar="USERNAME")
        parser.add_argument("--agreed-by", required=True, metavar="USERNAME")
        parser.add_argument("--why", required=True)

    def handle(self, *args, **options):
        try:
            stay = Stay.objects.get(uid=options["stay"])
        except (Stay.DoesNotExist, ValidationError):
            raise CommandError("There is no such stay. Copy its uid from the address of its page.") from None
        asked, agreed = (self.known(options[name]) for name in ("asked_by", "agreed_by"))
        actor = Actor(asked.clinician, asked, roles=("command",))
        try:
            done = purge_stay(actor=actor, agreed_by=agreed.clinician, stay=stay, why=options["why"])
        except Refused as refused:
            raise CommandError(str(refused)) from None
        self.stdout.write(f"{done.rows} rows of stay {options['stay']} are removed.")

    def known(self, username):
        """The user of that name, proved by their password."""
        user = User.objects.filter(username=username, is_active=True).first()
        if not user or not user.check_password(getpass(f"Password of {username}: ")):
            raise CommandError(f"{username} could not be signed in. Nothing is removed.")
        return user
