"""Reading a page as a person would: its words, without markup."""

import html
import re


def words(response) -> str:
    body = re.sub(r"<(script|style)\b.*?</\1>", " ", response.content.decode(), flags=re.S)
    text = html.unescape(re.sub(r"<[^>]+>", " ", body))
    return re.sub(r"\s+([.,:;?])", r"\1", " ".join(text.split()))
