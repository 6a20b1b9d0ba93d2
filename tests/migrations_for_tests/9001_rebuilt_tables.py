"""SQLite makes these tables anew and drops their triggers; two of them stand in the triggers of others."""

from django.db import migrations, models

from tests.migrations_for_tests import NEWEST


class Migration(migrations.Migration):
    dependencies = [("teaching", NEWEST)]
    operations = [
        migrations.AlterField("rating", "note", models.CharField(max_length=310, blank=True)),
        migrations.AlterField("stay", "zone", models.CharField(max_length=61)),
        migrations.AlterField("purge", "why", models.CharField(max_length=301)),
        migrations.AddField("rating", "only_in_tests", models.CharField(max_length=20, null=True)),
    ]
