"""A small table to fill in: rows of a few short texts. A row left empty is no row; one begun must be whole."""

from collections.abc import Mapping, Sequence

from django import forms


class RowsForm(forms.Form):
    """`parts` are (name, label, longest, needed). `cleaned_data["rows"]` holds the rows that were filled in."""

    parts: tuple[tuple[str, str, int, bool], ...] = ()
    kind = "row"
    most = 6
    begins = ""  # a part that comes filled in: alone it makes no row

    def __init__(self, *args, rows: Sequence[Mapping[str, str]], **kwargs) -> None:
        super().__init__(*args, **kwargs)
        self.count = max(self.most, len(rows) + 1)
        for number in range(1, self.count + 1):
            known = rows[number - 1] if number <= len(rows) else {}
            for name, label, longest, _ in self.parts:
                self.fields[f"{self.kind}_{number}_{name}"] = forms.CharField(
                    label=label, max_length=longest, required=False, initial=known.get(name, ""),
                    error_messages={"max_length": f"Shorten this to {longest} characters."},
                )  # fmt: skip

    def table(self):
        """The bound fields of each row, for the page."""
        return [
            [self[f"{self.kind}_{number}_{name}"] for name, *_ in self.parts] for number in range(1, self.count + 1)
        ]

    def clean(self) -> dict:
        said = super().clean()
        said["rows"] = []
        for number in range(1, self.count + 1):
            row = {name: said.get(f"{self.kind}_{number}_{name}", "").strip() for name, *_ in self.parts}
            if not any(value for name, value in row.items() if name != self.begins):
                continue
            lacking = [name for name, _, _, needed in self.parts if needed and not row[name]]
            for name in lacking:
                self.add_error(f"{self.kind}_{number}_{name}", "Fill this in too, or empty the row.")
            said["rows"].append({name: value for name, value in row.items() if value})
        return said
