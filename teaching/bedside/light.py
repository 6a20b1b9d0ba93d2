"""The reader's choice of day or night, kept on this device alone."""

from django.conf import settings
from django.http import HttpResponseRedirect
from django.utils.http import url_has_allowed_host_and_scheme
from django.views.decorators.http import require_POST

from teaching.templatetags.light import CHOICES, COOKIE

A_YEAR = 365 * 24 * 3600


@require_POST
def light(request):
    back = request.POST.get("back", "/")
    if not url_has_allowed_host_and_scheme(back, allowed_hosts=None):
        back = "/"
    answer = HttpResponseRedirect(back)
    choice = request.POST.get("light", "")
    if choice in CHOICES:
        kept = {"max_age": A_YEAR, "secure": settings.HTTPS, "httponly": True, "samesite": "Lax"}
        answer.set_cookie(COOKIE, choice, **kept)
    return answer
