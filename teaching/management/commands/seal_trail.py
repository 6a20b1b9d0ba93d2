"""manage.py seal_trail: load what waits in the spool, then seal every line not sealed yet. For a timer."""

from django.core.management.base import BaseCommand, CommandError

from teaching.models import TrailLine
from teaching.record import spool
from teaching.record.seals import seal_batch, sealed_to


class Command(BaseCommand):
    help = "Load waiting trail lines and seal every line of the trail that is not sealed yet."

    def handle(self, *args, **options):
        loaded = spool.load()
        if loaded:
            self.stdout.write(f"{loaded} waiting lines loaded.")
        seal = seal_batch()
        if seal:
            self.stdout.write(f"Seal {seal.number}: {seal.count} lines, {seal.first_id} to {seal.last_id}.")
        elif TrailLine.objects.filter(id__gt=sealed_to()).exists():
            raise CommandError("Somebody is writing just now. Run it again.")
        else:
            self.stdout.write("Every line is sealed.")
