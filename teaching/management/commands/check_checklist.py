"""manage.py check_checklist FILE: every fault of a checklist file, or a short table of what it holds."""

from collections import Counter

from django.core.management.base import BaseCommand, CommandError

from teaching.exchange.checklist_file import read_checklist
from teaching.exchange.wrong_file import WrongFile, load_json
from teaching.rules.vocabulary import PROCEDURES


class Command(BaseCommand):
    help = "Explains every fault of a checklist file (exit 1), or counts its rows (exit 0)."
    requires_system_checks = []  # it reads a file: neither settings nor database need to be right

    def add_arguments(self, parser):
        parser.add_argument("file", help="a checklist as JSON; docs/checklist.md tells its columns")

    def handle(self, *args, file, **options):
        try:
            data = load_json(file)
            versions = [read_checklist(data, language) for language in _languages(data)]
        except WrongFile as wrong:
            for fault in wrong.faults:
                self.stdout.write(fault)
            count = len(wrong.faults)
            raise CommandError(
                f"{count} {'fault' if count == 1 else 'faults'}; mend and check again."
            ) from None
        self.stdout.write("\n".join(summary(versions[0], data["languages"])))


def summary(checklist, languages):
    """The lines of the table: rows, essential and hard-minimum rows and decisions of each procedure."""
    yield f"{checklist.code} {checklist.number}, in {', '.join(languages)}: no faults"
    yield f"{'':24}{'rows':>6}{'essential':>11}{'minimum':>9}{'decisions':>11}"
    rows, essential, minimum, decisions = Counter(), Counter(), Counter(), Counter()
    for item in checklist.items:
        rows[item.procedure] += 1
        essential[item.procedure] += bool(item.essential)
        minimum[item.procedure] += item.hard_minimum
        decisions[item.procedure] += item.decision
    for code, name in PROCEDURES.items():
        yield f"{name:24}{rows[code]:6}{essential[code]:11}{minimum[code]:9}{decisions[code]:11}"
    yield f"{'all':24}{rows.total():6}{essential.total():11}{minimum.total():9}{decisions.total():11}"


def _languages(data):
    """The file's languages; one at least, so that a file without any is read and its fault told."""
    languages = data.get("languages") if isinstance(data, dict) else None
    return languages if isinstance(languages, list) and languages else ["en"]
