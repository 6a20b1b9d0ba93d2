"""For whatever watches over the house: does it run, and may it be used."""

import logging

from django.db import Error, connection
from django.db.migrations.executor import MigrationExecutor
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.views.decorators.http import require_safe

from teaching.models.guards import missing_guards

log = logging.getLogger(__name__)


@require_safe
def healthy(request: HttpRequest) -> HttpResponse:
    """The program runs; nothing else is asked."""
    return HttpResponse("healthy\n", content_type="text/plain; charset=utf-8")


@require_safe
def ready(request: HttpRequest) -> JsonResponse:
    """200 when the database answers, every migration is applied, every guard stands; else 503. No details."""
    found = {"database": False, "migrations": False, "guards": False}
    try:
        executor = MigrationExecutor(connection)
        found["database"] = True
        found["migrations"] = not executor.migration_plan(executor.loader.graph.leaf_nodes())
        missing = missing_guards(connection)
        found["guards"] = not missing
        for sentence in missing:
            log.error("%s", sentence)
    except Error:
        log.exception("The database does not answer.")
    return JsonResponse(found, status=200 if all(found.values()) else 503)
