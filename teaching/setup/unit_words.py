"""What the unit says in its own words: languages, phrases, numbers to ring, what only its clinician decides."""

from django import forms
from django.http import Http404
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_safe

from teaching.access.forms_in import answer_form
from teaching.access.guards import guard
from teaching.record.checking import NO_NUMBER
from teaching.record.places import change_unit, settings_of
from teaching.record.unit_words import BETWEEN, IN_WORDS, slots_of
from teaching.rules.spoken import LANGUAGES
from teaching.rules.vocabulary import SLOTS, can_be_rung
from teaching.setup.rows import RowsForm

TAUGHT = {code: words for code, words in LANGUAGES.items() if code != "other"}
FORM = "teaching/setup/unit_form.html"
ROWS = "teaching/setup/unit_rows.html"
# What is often said while teaching. The other language is the unit's to write, by somebody who speaks it.
OFTEN_SAID = (
    "I will watch and say nothing. Please do what you can.",
    "Shall we stop for a moment?",
    "Does it hurt?",
    "Please tell me what you will do next.",
    "Whom will you ring?",
    "Shall I ask for an interpreter?",
)


class LanguagesForm(forms.Form):
    languages = forms.MultipleChoiceField(
        label="Languages", choices=list(TAUGHT.items()), widget=forms.CheckboxSelectMultiple,
        help_text="Those that the unit can teach in, with its own people or an interpreter. In another than English an "
        "explanation counts only through a trained interpreter.",
        error_messages={"required": "Choose at least one language.", "invalid_choice": "Choose from the list."},
    )  # fmt: skip


class PhrasesForm(RowsForm):
    parts = (("english", "In English", 120, True), ("words", "In that language", 200, True))
    kind, most, begins = "phrase", 8, "english"


class PhonesForm(RowsForm):
    parts = (("label", "Who answers", 80, True), ("number", "Number", 40, True), ("hours", "When", 80, False))
    kind, most = "phone", 4

    def clean(self) -> dict:
        said = super().clean()
        for name, value in list(said.items()):
            if name.endswith("_number") and value and not can_be_rung(value):
                self.add_error(name, NO_NUMBER)
        return said


class SlotsForm(forms.Form):
    """One field a slot, empty until the unit's clinician has filled it."""

    def __init__(self, *args, slots, **kwargs) -> None:
        super().__init__(*args, **kwargs)
        for slot in slots:
            self.fields[slot.code] = self._field(slot)

    def _field(self, slot) -> forms.Field:
        said = {
            "label": f"{SLOTS[slot.code][:1].upper()}{SLOTS[slot.code][1:]}", "required": False,
            "initial": slot.value, "help_text": set_by(slot),
        }  # fmt: skip
        if slot.code in IN_WORDS:
            return forms.CharField(max_length=IN_WORDS[slot.code], **said)
        low, high, unit = BETWEEN[slot.code]
        asked = f"Write a whole number of {unit} from {low} to {high}, or leave it empty."
        wrong = dict.fromkeys(("invalid", "min_value", "max_value"), asked)
        return forms.IntegerField(min_value=low, max_value=high, error_messages=wrong, **said)

    def slots(self) -> dict[str, str]:
        said = {code: self.cleaned_data[code] for code in self.fields}
        return {code: str(value) for code, value in said.items() if value not in (None, "")}


def set_by(slot) -> str:
    """Who said it and when; or what follows from nobody having said it."""
    if not slot.value and slot.code in IN_WORDS:
        return "Not filled in. The sheet for home says to ask the nurse."
    if not slot.value:
        return "Not filled in. No sheet for home that needs it can be printed."
    return f"Set by {slot.by or 'the command line'}, {slot.at.day} {slot.at:%B %Y}."


@guard("manage_unit")
@require_safe
def unit_words(request, unit):
    settings = settings_of(unit)
    counted = [
        (code, TAUGHT.get(code, code), _counted(settings.phrases.get(code, ()))) for code in settings.languages
    ]
    slots = [(slot, set_by(slot)) for slot in slots_of(unit)]
    page = {"unit": unit, "phones": settings.phones, "slots": slots, "languages": counted}
    return render(request, "teaching/setup/unit_words.html", page)


def _counted(phrases) -> str:
    return f"{len(phrases) or 'no'} {'phrase' if len(phrases) == 1 else 'phrases'}"


@guard("manage_unit")
def unit_languages(request, unit):
    def store(form):
        change_unit(actor=request.actor, unit=unit, languages=form.cleaned_data["languages"])
        return _address(unit)

    form = LanguagesForm(request.POST or None, initial={"languages": settings_of(unit).languages})
    return answer_form(request, form, FORM, store, _page(unit, "Languages to teach in", "Store the languages"))


@guard("manage_unit")
def unit_phrases(request, unit, language):
    settings = settings_of(unit)
    if language not in settings.languages or language == "en":
        raise Http404

    def store(form):
        phrases = {**settings.phrases, language: form.cleaned_data["rows"]}
        change_unit(actor=request.actor, unit=unit, phrases={code: rows for code, rows in phrases.items() if rows})
        return _address(unit)

    rows = settings.phrases.get(language, [])
    known = {row["english"] for row in rows}
    often = [{"english": words} for words in OFTEN_SAID if words not in known]
    form = PhrasesForm(request.POST or None, rows=[*rows, *often])
    page = _page(unit, f"Phrases in {TAUGHT.get(language, language)}", "Store the phrases")
    page["says"] = (
        "A few words for the bedside until an interpreter is there. Have somebody who speaks it write them. "
        "They never stand in for an interpreter."
    )
    return answer_form(request, form, ROWS, store, page)


@guard("manage_unit")
def unit_phones(request, unit):
    def store(form):
        change_unit(actor=request.actor, unit=unit, phones=form.cleaned_data["rows"])
        return _address(unit)

    form = PhonesForm(request.POST or None, rows=settings_of(unit).phones)
    page = _page(unit, "Numbers to ring", "Store the numbers")
    page["says"] = "In the order they stand on the sheet for home."
    return answer_form(request, form, ROWS, store, page)


@guard("manage_unit")
def unit_slots(request, unit):
    def store(form):
        change_unit(actor=request.actor, unit=unit, slots=form.slots())
        return _address(unit)

    form = SlotsForm(request.POST or None, slots=slots_of(unit))
    page = _page(unit, "What only this unit decides", "Store these, in my name")
    page["says"] = "There is no default of ours: the unit's clinician says it, after the surgeons' own advice."
    return answer_form(request, form, FORM, store, page)


def _address(unit) -> str:
    return reverse("unit-words", kwargs={"unit": unit.uid})


def _page(unit, title: str, button: str) -> dict:
    return {"unit": unit, "title": title, "button": button, "back": _address(unit)}
