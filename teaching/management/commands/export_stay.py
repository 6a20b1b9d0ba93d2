"""manage.py export_stay UID > stay.json: the whole record of one stay, to move it to another house."""

from uuid import UUID

from django.core.management.base import BaseCommand, CommandError

from teaching.exchange.whole_file import whole_text
from teaching.models import Stay
from teaching.record.actor import Actor
from teaching.record.whole_out import whole_record


class Command(BaseCommand):
    help = "Print the whole record of one stay as JSON (docs/whole-record.md). It names the person: keep it safe."

    def add_arguments(self, parser):
        parser.add_argument("stay", type=UUID, help="the stay's uid, as in its address")

    def handle(self, *args, stay, **options):
        found = Stay.objects.filter(uid=stay).first()
        if found is None:
            raise CommandError("There is no such stay. Copy its uid from the address of its page.")
        actor = Actor(clinician=None, roles=("command",))
        self.stdout.write(whole_text(whole_record(actor=actor, stay=found)), ending="")
