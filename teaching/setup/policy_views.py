"""The unit's thresholds: every line with its value, why, source, class and side; and a value of the unit's own."""

from dataclasses import dataclass

from django import forms
from django.http import Http404
from django.shortcuts import render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_safe

from teaching.access.forms_in import answer_form
from teaching.access.guards import guard
from teaching.record.places import own_overrides, policy_for, set_policy
from teaching.rules.lines import CLASSES, OFF, SIDES, SIGN, Line, Sign
from teaching.rules.policy import DEFAULT
from teaching.rules.vocabulary import CAUTION_LISTS

FORM = "teaching/setup/unit_form.html"
AS_DEFAULT = "default"


def said(name: str) -> str:
    words = name.replace("_", " ").replace("-", " ")
    return words[:1].upper() + words[1:]


def sourced(one: Line | Sign) -> str:
    """Where it comes from, and of what class that is; said once where the two are the same."""
    class_ = CLASSES[one.class_]
    return f"Source: {one.source} ({one.class_})." if class_ in one.source else f"Source: {one.source} ({class_})."


@dataclass(frozen=True)
class LineHere:
    """One threshold as it is in force here, beside what it is unless somebody says otherwise."""

    line: Line
    default: Line
    own: bool

    @property
    def title(self) -> str:
        return said(self.line.name)

    @property
    def value(self) -> str:
        return f"{self.line.value} {self.line.unit}"

    @property
    def origin(self) -> str:
        if self.own:
            return f"Set by this unit; {self.default.value} {self.default.unit} otherwise."
        if self.line.value != self.default.value:
            return f"Set by the hospital; {self.default.value} {self.default.unit} otherwise."
        return ""

    @property
    def facts(self) -> str:
        return f"{said(self.line.side)}: {SIDES[self.line.side]}. {sourced(self.line)}"


@dataclass(frozen=True)
class SignHere:
    sign: Sign
    default: Sign
    words: str
    own: bool

    @property
    def list(self) -> str:
        return CAUTION_LISTS.get(self.sign.list, "Off: never raised")

    @property
    def facts(self) -> str:
        return sourced(self.sign)


@guard("manage_unit")
@require_safe
def unit_policy(request, unit):
    policy, own = policy_for(unit, timezone.now()), own_overrides(unit)
    defaults = {line.name: line for line in DEFAULT.lines}
    page = {
        "unit": unit,
        "version": policy.version,
        "lines": [LineHere(line, defaults[line.name], line.name in own) for line in policy.lines],
        "signs": [
            SignHere(sign, DEFAULT.sign[sign.code], policy.words(sign), SIGN + sign.code in own)
            for sign in policy.signs
        ],
    }
    return render(request, "teaching/setup/unit_policy.html", page)


class WhyForm(forms.Form):
    """A local value and why; both are signed with the name of whoever sets it."""

    why = forms.CharField(
        label="Why", max_length=2000, widget=forms.Textarea(attrs={"rows": 4}),
        help_text="Who decided it and what it rests on: the local policy, its date.",
        error_messages={"required": "Write why. A value without a reason is not stored."},
    )  # fmt: skip


class LineForm(WhyForm):
    value = forms.IntegerField(required=False, error_messages={"invalid": "Write a whole number."})
    field_order = ("value", "why")

    def __init__(self, *args, line: Line, **kwargs) -> None:
        super().__init__(*args, **kwargs)
        self.stands_for = {line.name: "value"}
        self.fields["value"].label = f"This unit's own value, in {line.unit}"
        self.fields["value"].help_text = f"From {line.least} to {line.most}. Left empty: the default, {line.value}."


class SignForm(WhyForm):
    value = forms.ChoiceField(
        label="What it is here", widget=forms.RadioSelect,
        error_messages={"required": "Tap one.", "invalid_choice": "Tap one of these."},
    )  # fmt: skip
    field_order = ("value", "why")

    def __init__(self, *args, sign: Sign, **kwargs) -> None:
        super().__init__(*args, **kwargs)
        self.stands_for = {SIGN + sign.code: "value"}
        as_default = (AS_DEFAULT, f"The default: {CAUTION_LISTS[sign.list]}")
        self.fields["value"].choices = [as_default, *CAUTION_LISTS.items(), (OFF, "Off: never raised")]


@guard("manage_unit")
def policy_line(request, unit, name):
    line = next((line for line in DEFAULT.lines if line.name == name), None)
    if line is None:
        raise Http404
    own = own_overrides(unit)
    form = LineForm(request.POST or None, line=line, initial={"value": _number(own.get(name))})
    page = _page(unit, said(name), f"{line.why} {LineHere(line, line, False).facts}")
    return answer_form(request, form, FORM, lambda form: _set(request, unit, name, form), page)


@guard("manage_unit")
def policy_sign(request, unit, name):
    sign = DEFAULT.sign.get(name)
    if sign is None:
        raise Http404
    form = SignForm(
        request.POST or None, sign=sign, initial={"value": own_overrides(unit).get(SIGN + name, AS_DEFAULT)}
    )
    page = _page(unit, policy_for(unit, timezone.now()).words(sign), f"{sign.why} {sourced(sign)}")
    return answer_form(request, form, FORM, lambda form: _set(request, unit, SIGN + name, form), page)


def _set(request, unit, name: str, form) -> str:
    """The unit's own values whole, with this one changed or taken out."""
    value, own = form.cleaned_data["value"], dict(own_overrides(unit))
    own.pop(name, None)
    if value is not None and value != AS_DEFAULT:
        own[name] = value
    set_policy(actor=request.actor, unit=unit, overrides=own, why=form.cleaned_data["why"])
    return reverse("unit-policy", kwargs={"unit": unit.uid})


def _number(told: object) -> object:
    """An override may be kept with its unit: "36 hours"."""
    return told.partition(" ")[0] if isinstance(told, str) else told


def _page(unit, title: str, says: str) -> dict:
    back = reverse("unit-policy", kwargs={"unit": unit.uid})
    return {"unit": unit, "title": title, "says": says, "button": "Store this value, in my name", "back": back}
