"""manage.py rebuild_figures: every stay's derived row worked out again from the record; --check only compares."""

from django.core.management.base import BaseCommand, CommandError
from django.utils import timezone

from teaching.models import Stay, StayNow
from teaching.record.figures import refresh, worked_out
from teaching.record.writing import writing


class Command(BaseCommand):
    help = "Works out the derived row of every stay again. With --check it changes nothing and exits 1 on a difference."

    def add_arguments(self, parser):
        parser.add_argument("--check", action="store_true", help="only compare what stands with what the record says")

    def handle(self, *args, check, **options):
        differing = 0
        stays = Stay.objects.select_related("now").order_by("pk")
        for number, stay in enumerate(stays, 1):
            names = differences(stay)
            differing += bool(names)
            if names:
                self.stdout.write(f"{number} of {len(stays)}: stay {stay.uid}: {', '.join(names)}")
            if names and not check:
                with writing(stay):
                    refresh(stay, moved_on=False)
        self.stdout.write(f"{len(stays)} stays, {differing} that differed{'' if check else ' and were made anew'}.")
        if check and differing:
            raise CommandError("Run it without --check to make them anew.")


def differences(stay: Stay) -> list[str]:
    """The columns in which the derived row is not what the record says. One whose time is up is only stale."""
    now = timezone.now()
    kept: StayNow = stay.now
    found = [name for name, value in worked_out(stay, now).items() if getattr(kept, name) != value]
    holds = kept.assessed_revision == kept.revision and (kept.holds_until is None or now < kept.holds_until)
    return found if holds else [name for name in found if name in ("unit", "state", "bed", "name", "born", "mrn")]
