"""manage.py open_unit: a unit and its first lead, who sets up everything else in the browser."""

import json
from pathlib import Path

from django.core.management.base import BaseCommand, CommandError
from django.db import transaction

from teaching.management.shipped_skills import publish_shipped_skills
from teaching.record import checklists, places, staff
from teaching.record.actor import Actor
from teaching.record.refusals import Refused
from teaching.rules.vocabulary import GRADES

CHECKLIST = Path(__file__).resolve().parents[3] / "fixtures" / "checklist-1.json"
DAY_AND_NIGHT = ("day 07:30 19:30", "night 19:30 07:30")


class Command(BaseCommand):
    help = "Open a unit and register its first lead. The lead's first password is shown once."

    def add_arguments(self, parser):
        parser.add_argument("name", help="the unit's name")
        parser.add_argument("--zone", required=True, help="its time zone, such as Europe/London; never changes")
        parser.add_argument("--lead", required=True, help="the first lead's name, as on the badge")
        parser.add_argument("--username", required=True, help="what the lead writes to sign in")
        parser.add_argument("--grade", required=True, help=f"the lead's grade, one of: {', '.join(GRADES)}")
        parser.add_argument(
            "--shift", action="append", metavar="'NAME START END'",
            help=f"one for each shift, in the order they start ({', '.join(DAY_AND_NIGHT)})",
        )

    def handle(self, *args, **options):
        actor = Actor(clinician=None, roles=("command",))
        shifts = [self.shift(said) for said in options["shift"] or DAY_AND_NIGHT]
        try:
            with transaction.atomic():
                version = checklists.publish_checklist(actor=actor, content=json.loads(CHECKLIST.read_text()))
                publish_shipped_skills(actor)
                unit = places.open_unit(
                    actor=actor, name=options["name"], zone=options["zone"], shifts=shifts, checklist=version
                )
                lead = staff.register_clinician(actor=actor, name=options["lead"], grade=options["grade"])
                staff.grant_role(actor=actor, clinician=lead, role="lead", unit=unit)
                user, password = staff.open_account(actor=actor, clinician=lead, username=options["username"])
        except Refused as refused:
            raise CommandError(str(refused)) from None
        self.stdout.write(f"{unit.name} is open. {options['lead']} signs in as {user.username}.")
        self.stdout.write(f"First password, shown once: {password}")

    @staticmethod
    def shift(said: str) -> dict[str, str]:
        parts = said.rsplit(maxsplit=2)
        if len(parts) != 3:
            raise CommandError(f"{said!r} is not a shift. Write its name, start and end, such as 'day 07:30 19:30'.")
        return dict(zip(("name", "starts", "ends"), parts, strict=True))
