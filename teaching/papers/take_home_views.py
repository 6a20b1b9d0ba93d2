"""The sheet to take home and the size page: made from what stands now, kept as it was given."""

from django.contrib import messages
from django.http import HttpResponseRedirect
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_safe

from teaching.access.forms_in import answer_form
from teaching.access.guards import guard
from teaching.access.scope import may
from teaching.access.signed_in import name_of
from teaching.papers.dated import dated
from teaching.papers.forms import TakeHomeForm
from teaching.papers.read_take_home import home_of, who_fills_slots
from teaching.papers.size_page import no_size_page, size_page
from teaching.papers.size_page_sheets import size_page_pdf
from teaching.papers.take_home import take_home
from teaching.papers.take_home_page import TakeHomePage
from teaching.papers.take_home_sheets import take_home_pdf
from teaching.papers.views import inline
from teaching.record.kept_papers import keep_paper
from teaching.record.refusals import Fault, Refused
from teaching.rules.paper_kinds import TAKE_HOME


@guard("print_for_home")
def take_home_sheet(request, stay):
    now, unit = timezone.now(), request.unit
    home = home_of(stay, unit, now)
    page = TakeHomePage(stay, unit, home, now, who_fills_slots(unit), may(request.user, "manage_unit", unit))
    form = TakeHomeForm(request.POST or None)
    drawn = _drawn(request, home, form.cleaned_data["size"], now) if form.is_valid() and not page.holes else None

    def store(form):
        if drawn is None:
            raise Refused(*(Fault("", hole.words) for hole in page.holes))
        keep_paper(actor=request.actor, stay=stay, kind=TAKE_HOME, **drawn)
        messages.success(request, "Kept: take-home sheet. Print it below.")
        return reverse("readiness", args=[stay.uid])

    return answer_form(request, form, "teaching/papers/take_home_page.html", store, {"page": page, "stay": stay})


def _drawn(request, home, size, now):
    known = home.known
    paper = take_home(
        known.chart, known.assessment, home.readiness, known.policy, now, person=home.person, slots=home.slots,
        phones=home.phones, size=size, made_by=name_of(request.user),
    )  # fmt: skip
    return {
        "content": paper.plain, "pdf": take_home_pdf(paper), "revision": known.chart.revision,
        "policy_version": paper.policy,
    }  # fmt: skip


@guard("print_for_home")
@require_safe
def size_page_sheet(request, stoma):
    """Never kept: the stoma shrinks, and an old one printed again would fit no more."""
    now, stay = timezone.now(), stoma.stay
    home = home_of(stay, request.unit, now)
    chart, policy = home.chart, home.policy
    mine = chart.stoma(str(stoma.uid))
    if no_size_page(chart, mine, policy, now):
        return HttpResponseRedirect(reverse("take-home", args=[stay.uid]))
    paper = size_page(
        chart, mine, policy, now, person=home.person, made_by=name_of(request.user), made_at=dated(now, chart.ward)
    )
    return inline(size_page_pdf(paper), "size-page.pdf")
