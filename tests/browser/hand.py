"""A hand that counts its taps on a page."""


class Hand:
    def __init__(self, page):
        self.page, self.taps = page, 0

    def tap(self, words, within="main, .next"):
        """Tap what carries these words: an answer row, a fold, a button, a link."""
        found = self.page.locator(within).locator("label, summary, button, a").filter(has_text=words)
        found.locator("visible=true").first.click()
        self.taps += 1
