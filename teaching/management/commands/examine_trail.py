"""manage.py examine_trail: every fault of the trail, one a line; exit 1 where there is any."""

from django.core.management.base import BaseCommand, CommandError

from teaching.models import Seal, TrailLine
from teaching.record.examining import examine
from teaching.record.seals import sealed_to


class Command(BaseCommand):
    help = "Check every line and every seal of the trail; exit 1 if any is not as it was written."

    def handle(self, *args, **options):
        faults = examine()
        for fault in faults:
            self.stdout.write(fault)
        lines, seals = TrailLine.objects.count(), Seal.objects.count()
        waiting = TrailLine.objects.filter(id__gt=sealed_to()).count()
        said = f"{lines} lines, {seals} seals, {waiting} lines not sealed yet."
        if faults:
            raise CommandError(f"{len(faults)} faults. {said}")
        self.stdout.write(f"The trail holds: {said}")
