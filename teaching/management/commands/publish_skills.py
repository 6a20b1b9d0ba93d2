"""manage.py publish_skills [FILE] [--check]: the nurses' skills of a file, or every fault of it."""

from django.core.management.base import BaseCommand, CommandError
from django.db import transaction

from teaching.exchange.wrong_file import WrongFile, load_json
from teaching.management.shipped_skills import SHIPPED
from teaching.record.actor import Actor
from teaching.record.refusals import Refused
from teaching.record.skills import publish_skills, skill_of


class Command(BaseCommand):
    help = "Publish the nurses' skills of a file. A published version never changes; a change is the next number."

    def add_arguments(self, parser):
        parser.add_argument("file", nargs="?", default=str(SHIPPED), help="skills as JSON (fixtures/skills-1.json)")
        parser.add_argument("--check", action="store_true", help="only look it over; nothing is stored")

    def handle(self, *args, file, check, **options):
        try:
            with transaction.atomic():
                made = publish_skills(actor=Actor(clinician=None, roles=("command",)), content=load_json(file))
                told = [skill_of(version) for version in made]
                transaction.set_rollback(check)
        except (Refused, WrongFile) as fault:
            raise CommandError(f"Nothing was published: {fault}") from None
        for skill in told:
            self.stdout.write(
                f"{skill.title}, version {skill.version}: {len(skill.rows)} rows, {skill.practices} practices, "
                f"the last {skill.at_five} at 5"
            )
        self.stdout.write("No faults; nothing was stored." if check else "In force from now on.")
