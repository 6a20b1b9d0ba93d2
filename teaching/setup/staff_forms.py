"""Forms about staff: register somebody, give a role."""

from django import forms

from teaching.rules.vocabulary import GRADES, HOSPITAL_ROLES, ROLES

UNIT_ROLES = {role: words for role, words in ROLES.items() if role not in HOSPITAL_ROLES}
# A role that rates needs the grade that its entries will be counted by.
GRADES_OF = {
    "ward-nurse": {"registered", "stoma-nurse"},
    "assistant": {"assistant"},
    "student": {"student"},
}


def grade_and_role_fit(grade: str, role: str) -> str:
    """A sentence where the two do not go together, else nothing."""
    fitting = GRADES_OF.get(role)
    if fitting is None or grade in fitting:
        return ""
    needed = " or ".join(GRADES[each] for each in sorted(fitting))
    return f"The role of {ROLES[role]} is for a {needed}. Choose another role, or mend the grade."


class RegisterNurseForm(forms.Form):
    name = forms.CharField(
        label="Name",
        max_length=120,
        help_text="As it stands on the badge.",
        error_messages={"required": "Write the name."},
    )
    grade = forms.ChoiceField(
        label="Grade",
        choices=[("", "Choose one"), *GRADES.items()],
        error_messages={"required": "Choose the grade."},
    )
    registration = forms.CharField(label="Registration number", max_length=40, required=False)
    role = forms.ChoiceField(
        label="Role on this unit",
        choices=[("", "Choose one"), *UNIT_ROLES.items()],
        help_text="More roles can be given afterwards.",
        error_messages={"required": "Choose the first role."},
    )
    username = forms.CharField(
        label="Sign-in name",
        max_length=60,
        help_text="What they write to sign in.",
        widget=forms.TextInput(
            attrs={"autocapitalize": "none", "autocomplete": "off", "spellcheck": "false"}
        ),
        error_messages={"required": "Write a sign-in name."},
    )

    def clean(self) -> dict:
        said = super().clean()
        if {"grade", "role"} <= set(said) and (trouble := grade_and_role_fit(said["grade"], said["role"])):
            self.add_error("role", trouble)
        return said


class GrantRoleForm(forms.Form):
    """Only the roles of a unit that this person does not hold there."""

    role = forms.ChoiceField(label="Role", error_messages={"required": "Choose the role."})

    def __init__(self, *args, member, **kwargs) -> None:
        super().__init__(*args, **kwargs)
        self.member = member
        open_roles = [(role, words) for role, words in UNIT_ROLES.items() if role not in member.roles]
        self.fields["role"].choices = [("", "Choose one"), *open_roles]

    def clean_role(self) -> str:
        role = self.cleaned_data["role"]
        if trouble := grade_and_role_fit(self.member.grade, role):
            raise forms.ValidationError(trouble)
        return role


class OpenAccountForm(forms.Form):
    username = RegisterNurseForm.base_fields["username"]


class ConfirmForm(forms.Form):
    """Nothing to fill in: sending it is the answer."""
