"""What a migration must not do: change what was written, past the guards."""

from django.db import migrations


def change(apps, schema_editor):
    apps.get_model("teaching", "Rating").objects.update(note="rewritten")


class Migration(migrations.Migration):
    dependencies = [("teaching", "9002_filled_column")]
    operations = [migrations.RunPython(change, migrations.RunPython.noop)]
