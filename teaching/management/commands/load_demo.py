"""manage.py load_demo [--now ISO]: the invented hospital, into an empty record; prints the sign-ins once."""

from datetime import datetime

from django.core.management.base import BaseCommand, CommandError
from django.utils import timezone

from teaching.management.demo.cast import CAST
from teaching.management.demo.play import play
from teaching.models import Unit, User
from teaching.record.refusals import Refused


class Command(BaseCommand):
    help = "Fill an empty record with an invented hospital, and print who may sign in. Never on a real ward."

    def add_arguments(self, parser):
        parser.add_argument("--now", type=moment, help="the demo's today: 2026-05-13T14:00+01:00")

    def handle(self, *args, **options):
        if Unit.objects.exists() or User.objects.exists():
            raise CommandError("Nothing was loaded: this record holds units or people. Use an empty one.")
        now = options["now"] or timezone.now()
        if now > timezone.now():
            raise CommandError("Nothing was loaded: --now is in the future. Give a moment that is past.")
        try:
            demo = play(now, progress=self.say)
        except Refused as refused:
            raise CommandError(f"Nothing was loaded: {refused}") from None
        self.stdout.write("\n".join(table(demo.passphrases)))

    def say(self, words: str) -> None:
        self.stderr.write(f"  {words}")


def moment(text: str) -> datetime:
    """An aware moment. Raises ValueError, which argparse turns into its own sentence."""
    read = datetime.fromisoformat(text)
    if read.tzinfo is None:
        raise ValueError("no zone")
    return read


def table(passphrases: dict[str, str]):
    """The lines of the sign-in table."""
    yield "The hospital, its wards, staff and patients are made up. Sign in as:"
    yield ""
    width = max(len(words) for words in passphrases.values())
    yield f"  {'name':8}  {'passphrase':{width}}  who"
    for worker in CAST:
        yield f"  {worker.username:8}  {passphrases[worker.username]:{width}}  {worker.name}, {worker.can}"
