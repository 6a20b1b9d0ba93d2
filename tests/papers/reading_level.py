"""How hard a text is to read: the Flesch-Kincaid grade and reading ease (Kincaid et al. 1975; Flesch 1948).

Syllables are counted as groups of vowels, with a silent e at the end left out: no dictionary, nothing to download.
"""

import re

VOWELS = re.compile(r"[aeiouy]+")
SILENT = re.compile(r"(?:[^laeiouy]|[aeiouy]l)e$|[^aeiouytd]ed$|[^aeiouyszxcg]es$|(?<=[td])e$")


def sentences(text):
    """Lines and sentences; a heading or a line of a list is one of its own."""
    return [part for part in re.split(r"[.!?]+(?:\s|$)|\n+", text) if re.search(r"[A-Za-z]", part)]


def words_of(text):
    return re.findall(r"[A-Za-z]+(?:'[a-z]+)?", text)


def syllables(word):
    """At least one."""
    plain = word.lower().replace("'", "")
    found = len(VOWELS.findall(plain))
    return max(1, found - bool(found > 1 and SILENT.search(plain)))


def counts(text, leave_out=()):
    """(sentences, words, syllables); words in `leave_out` are not counted."""
    left_out = {word.lower() for word in leave_out}
    words = [word for word in words_of(text) if word.lower() not in left_out]
    return len(sentences(text)), len(words), sum(map(syllables, words))


def grade(text, leave_out=()):
    """Flesch-Kincaid grade level: school years in the United States."""
    said, words, sounds = counts(text, leave_out)
    return 0.39 * words / said + 11.8 * sounds / words - 15.59


def reading_ease(text):
    said, words, sounds = counts(text)
    return 206.835 - 1.015 * words / said - 84.6 * sounds / words
