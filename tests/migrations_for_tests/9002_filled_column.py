"""A new column is filled the one way there is; then a table is rebuilt that other guards name."""

from django.db import migrations, models

from teaching.models.backfill import Backfill


def fill(apps, schema_editor):
    apps.get_model("teaching", "Rating").objects.update(only_in_tests="filled")


class Migration(migrations.Migration):
    dependencies = [("teaching", "9001_rebuilt_tables")]
    operations = [
        Backfill("only-in-tests", models=["Rating"], fill=fill),
        migrations.AlterField("purge", "why", models.CharField(max_length=302)),
    ]
