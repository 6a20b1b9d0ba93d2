"""manage.py import_stay FILE --by USERNAME [--unit NAME]: a stay from another house, whole or not at all."""

from getpass import getpass

from django.core.management.base import BaseCommand, CommandError

from teaching.exchange.whole_file import load_whole
from teaching.exchange.wrong_file import WrongFile
from teaching.models import Unit, User
from teaching.record.actor import Actor
from teaching.record.refusals import Refused
from teaching.record.whole_in import take_in_stay


class Command(BaseCommand):
    help = "Take in the whole record of a stay that export_stay wrote. What is here already is refused."

    def add_arguments(self, parser):
        parser.add_argument("file", help="what export_stay printed")
        parser.add_argument("--by", required=True, metavar="USERNAME", help="who brings it in; asked for the password")
        parser.add_argument("--unit", help="the unit here that stands for a unit of the file that is not here")

    def handle(self, *args, file, **options):
        unit = self.unit(options["unit"]) if options["unit"] else None
        try:
            told, sha256 = load_whole(file)
            user = self.known(options["by"])
            actor = Actor(user.clinician, user, roles=("command",))
            stay = take_in_stay(actor=actor, told=told, file_sha256=sha256, unit=unit)
        except WrongFile as wrong:
            self.refuse([*wrong.faults])
        except Refused as refused:
            self.refuse([f"{fault.field or file}: {fault.sentence}" for fault in refused.faults])
        self.stdout.write(f"Stay {stay.uid} is here, on {stay.now.unit.name}. Who wrote what is marked as imported.")

    def refuse(self, faults):
        for fault in faults:
            self.stderr.write(fault)
        count = len(faults)
        raise CommandError(f"{count} {'fault' if count == 1 else 'faults'}; nothing was taken in.", returncode=2)

    def unit(self, name):
        found = Unit.objects.filter(name=name)
        if len(found) != 1:
            here = ", ".join(Unit.objects.order_by("name").values_list("name", flat=True))
            raise CommandError(f"--unit {name}: is not the name of one unit here. Here are: {here or 'none'}.")
        return found[0]

    def known(self, username):
        """The user of that name, proved by their password."""
        user = User.objects.filter(username=username, is_active=True).first()
        if not user or not user.check_password(getpass(f"Password of {username}: ")):
            raise CommandError(f"{username} could not be signed in. Nothing is taken in.")
        return user
