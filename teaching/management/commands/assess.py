"""manage.py assess --stay ID | --file FILE: what the rules conclude of one stay, with their reasons."""

import json
from datetime import UTC, datetime
from uuid import UUID

from django.core.management.base import BaseCommand, CommandError
from django.utils import timezone

from teaching.exchange.assessment import as_json, as_text
from teaching.exchange.stay_file import StayFile, load_stay
from teaching.exchange.wrong_file import WrongFile
from teaching.rules.assess import assess


class Command(BaseCommand):
    help = "Prints what the record of one stay shows, by the rules, with reasons. A wrong file is refused whole."
    requires_system_checks = []  # with a file it needs neither settings nor a database

    def add_arguments(self, parser):
        which = parser.add_mutually_exclusive_group(required=True)
        which.add_argument("--stay", type=UUID, help="the uid of a stay in the database")
        which.add_argument("--file", help="a stay as JSON; docs/stay-file.md tells its keys")
        parser.add_argument("--at", help='when to judge it, such as "2026-05-14 08:00" on the ward\'s clock')
        parser.add_argument("--json", action="store_true", help="print JSON instead of text")

    def handle(self, *args, stay, file, at, **options):
        try:
            told = load_stay(file, at) if file else _recorded(stay, at)
        except WrongFile as wrong:
            for fault in wrong.faults:
                self.stderr.write(fault)
            count = len(wrong.faults)
            raise CommandError(
                f"{count} {'fault' if count == 1 else 'faults'}; nothing was worked out.", returncode=2
            ) from None
        found = assess(told.chart, told.policy, told.at)
        if options["json"]:
            self.stdout.write(json.dumps(as_json(told.chart, found), indent=2))
        else:
            self.stdout.write("\n".join(as_text(told.chart, found)))


def _recorded(uid: UUID, at: str | None) -> StayFile:
    """A stay in the database, as known at a moment; without one, now."""
    from teaching.models import Stay
    from teaching.record.charts import chart_for
    from teaching.record.places import policy_for

    stay = Stay.objects.filter(uid=uid).select_related("now__unit").first()
    if stay is None:
        raise CommandError(f"--stay {uid}: there is no such stay; the address of its page ends with its uid.")
    now = timezone.now()
    moment = _moment(at, stay.zone) if at else now
    if moment > now:
        raise CommandError(f"--at {at}: this time is still to come; give one that has been.")
    try:
        chart = chart_for(stay, as_known_at=moment if at else None)
    except LookupError:
        raise CommandError(f"--at {at}: nothing was on record of this stay by then; give a later time.") from None
    return StayFile(chart, moment, policy_for(stay.now.unit, moment))


def _moment(text: str, zone: str) -> datetime:
    from teaching.exchange.stay_times import Clock

    try:
        return Clock(zone).moment(text).astimezone(UTC)
    except ValueError as trouble:
        raise CommandError(f"--at: {trouble}") from None
