"""When guards go up and down by themselves: around every migrate, and the check for missing ones."""

from typing import Any

from django.apps import AppConfig
from django.conf import settings
from django.core import checks
from django.db import connections
from django.db.models.signals import post_migrate, pre_migrate

from teaching.models.grants import grant_web_role
from teaching.models.guards import Some, install_guards, lift_guards, missing_guards


def connect(app: AppConfig) -> None:
    """Called once by the app when it is ready."""
    pre_migrate.connect(before_migrate, sender=app)
    post_migrate.connect(after_migrate, sender=app)
    checks.register(guards_stand, checks.Tags.database)


def before_migrate(using: str, plan: Any = (), **kwargs: Any) -> None:
    """SQLite cannot rename a table while another table's trigger names one that is just being rebuilt.

    Only DELETE guards name other tables. The others stay, but for a table that is rebuilt: SQLite drops its
    own until the end of the run. Whoever fills rows that stand uses `backfill.py` on both engines.
    """
    if plan and connections[using].vendor == "sqlite":
        lift_guards(connections[using], Some(events=["DELETE"]))


def after_migrate(using: str, **kwargs: Any) -> None:
    install_guards(connections[using])
    if settings.DATABASE_WEB_USER and connections[using].vendor == "postgresql":
        grant_web_role(connections[using], settings.DATABASE_WEB_USER)


def guards_stand(app_configs: Any = None, databases: Any = None, **kwargs: Any) -> list[checks.CheckMessage]:
    """A warning, not an error: `migrate` runs this check first, and migrate is the cure."""
    return [
        checks.Warning(sentence, id="teaching.W001")
        for alias in databases or ()
        for sentence in missing_guards(connections[alias])
    ]
