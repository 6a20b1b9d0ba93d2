"""Role by address by unit, for every address the house answers to; found by introspection, told by `table.py`."""

import re
import uuid
from types import SimpleNamespace

import pytest
from django.urls import URLPattern, get_resolver, reverse

from teaching.models import TrailLine
from teaching.papers import printing
from teaching.rules.vocabulary import HOSPITAL_ROLES, ROLES
from tests.access.table import TABLE, Open, Row

REFUSED, NOT_THERE = 403, 404
AT_ONCE = 24
METHODS = ("get", "head", "options", "post")


@pytest.fixture(autouse=True)
def unprinted(monkeypatch):
    """Who may have a paper is asked here, not what it looks like: its HTML is made and not laid out (tests/papers)."""

    def laid_out(html):
        page = SimpleNamespace(anchors=dict.fromkeys(re.findall(r'id="([^"]+)"', html)))
        return SimpleNamespace(pages=[page], write_pdf=lambda **_: b"%PDF-")

    monkeypatch.setattr(printing, "_layout", lambda: laid_out)


def addresses(patterns=None):
    """Every (name, view) the resolver knows, whatever includes it stands under."""
    for pattern in get_resolver().url_patterns if patterns is None else patterns:
        if isinstance(pattern, URLPattern):
            yield pattern.name, pattern.callback
        else:
            yield from addresses(pattern.url_patterns)


def rows(kind):
    return [(name, row) for name, row in TABLE.items() if isinstance(row, kind)]


def batches():
    """The guarded addresses a few at a time: building a house takes longer than asking at its doors."""
    found = rows(Row)
    return [found[first : first + AT_ONCE] for first in range(0, len(found), AT_ONCE)]


def named_after(batch):
    return f"{batch[0][0]} to {batch[-1][0]}"


def address(name, row, named):
    (_, parts), *_ = get_resolver().reverse_dict.getlist(name)[0][0]
    return reverse(name, kwargs={part: row.fill.get(part) or named[part] for part in parts})


def names_an_object(name):
    (_, parts), *_ = get_resolver().reverse_dict.getlist(name)[0][0]
    return bool(parts)


def test_every_address_has_its_row_and_every_row_its_address():
    names = [name for name, _ in addresses()]
    assert None not in names
    assert sorted(names) == sorted(set(names))
    assert set(names) == set(TABLE), "Add the new address to tests/access/table.py, or take the old one out."


def test_every_view_is_guarded_or_told_to_be_open():
    unguarded = {name for name, view in addresses() if not hasattr(view, "permission")}
    assert unguarded == {name for name, _ in rows(Open)}


@pytest.mark.parametrize("batch", batches(), ids=named_after)
def test_who_is_let_in(batch, house, signed_in):
    wrong = []
    for role in (*ROLES, "nobody", "stranger"):
        client = signed_in(role)
        for name, row in batch:
            path = address(name, row, house.named)
            inside = role in ROLES or not names_an_object(name)
            let_in = role in row.let_in or (role == "stranger" and inside and row.let_in - set(HOSPITAL_ROLES))
            for method in METHODS:
                status = getattr(client, method)(path).status_code
                expected = {REFUSED} if inside else {NOT_THERE}
                if role in row.not_theirs.split() and method == "options":
                    expected = {405}  # answered before anybody looks whose it is
                if let_in:
                    expected = {"options": {405}, "post": {302, 303, 400, 405, 422}}.get(method, {row.status})
                if status not in expected:
                    wrong.append(f"{method} {name} as {role}: {status}, not {expected}")
    assert wrong == []


@pytest.mark.parametrize("batch", batches(), ids=named_after)
def test_whoever_is_not_signed_in_gets_the_sign_in_page(batch, house, client):
    for name, row in batch:
        path = address(name, row, house.named)
        for method in METHODS:
            answer = getattr(client, method)(path)
            assert (answer.status_code, answer.url) == (302, f"{reverse('sign-in')}?next={path}"), (method, name)


@pytest.mark.parametrize("batch", batches(), ids=named_after)
def test_what_does_not_exist_and_what_is_elsewhere_look_the_same(batch, house, signed_in):
    """For the roles let in: a uid of nothing gives 404 in every place an address names one."""
    asked = 0
    for name, row in batch:
        client = signed_in(next(iter(sorted(row.let_in - set(HOSPITAL_ROLES)))))
        for part in house.named:
            path = address(name, row, house.named | {part: str(uuid.uuid4())})
            if path != address(name, row, house.named):
                assert client.get(path).status_code == NOT_THERE, (name, part)
                asked += 1
    assert asked or not any(names_an_object(name) for name, _ in batch)


@pytest.mark.parametrize(("name", "row"), rows(Open))
def test_the_open_ones(name, row, house, signed_in, client):
    for method in ("get", "head"):
        assert getattr(client, method)(reverse(name)).status_code == row.signed_out
        assert getattr(signed_in("educator"), method)(reverse(name)).status_code in {row.signed_in, 200}
    assert client.options(reverse(name)).status_code in {405, 302}


def test_refusals_and_strangers_stand_in_the_trail(house, signed_in):
    path = reverse("stay-setup", kwargs={"stay": house.stay.uid})
    before = TrailLine.objects.count()
    assert signed_in("educator").get(path).status_code == REFUSED
    assert signed_in("stranger").get(path, REMOTE_ADDR="10.0.0.9").status_code == NOT_THERE
    assert signed_in("ward-nurse").get(path).status_code == 200
    lines = list(TrailLine.objects.order_by("id")[before:])
    assert [(line.verb, line.outcome) for line in lines] == [
        ("open_stay", "refused"), ("open_stay", "not there"), ("open_stay", "read"),
    ]
    assert {line.stay for line in lines} == {str(house.stay.uid)}
    assert [line.actor for line in lines] == [
        str(house.users[role].clinician.uid) for role in ("educator", "stranger", "ward-nurse")
    ]
    assert [line.role for line in lines] == ["educator", "", "ward-nurse"]
    assert lines[1].origin == "10.0.0.9"
    assert all(line.request_id for line in lines)


def test_no_address_carries_a_name_or_a_number():
    """Only uids, and words of the code: 128 bits at random tell nothing about anybody."""
    def converters(patterns):
        for pattern in patterns:
            yield from pattern.pattern.converters.items()
            if not isinstance(pattern, URLPattern):
                yield from converters(pattern.url_patterns)

    words = {part for row in TABLE.values() if isinstance(row, Row) for part in row.fill}
    for part, converter in converters(get_resolver().url_patterns):
        assert type(converter).__name__ == "UUIDConverter" or part in words, part
