"""Small questions put to a page in the browser. Each gives a list, empty when all is well."""

SMALL_TEXT = """least => {
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  const found = [];
  while (walker.nextNode()) {
    const said = walker.currentNode.data.trim();
    const size = parseFloat(getComputedStyle(walker.currentNode.parentElement).fontSize);
    if (said && size < least) found.push(`${said} ${size}px`);
  }
  return found;
}"""

SIDEWAYS = """() => {
  const room = document.documentElement.clientWidth;
  if (document.documentElement.scrollWidth <= room) return [];
  const wide = [...document.querySelectorAll("body *")]
    .filter(one => one.getBoundingClientRect().right > room + 1 && !one.closest(".scroll"));
  return ["the page scrolls sideways", ...wide.slice(0, 5).map(one => one.outerHTML.slice(0, 80))];
}"""

# Answer rows lower than 64 px, closer than 8 px to the next, or with no input in them to tap.
ANSWERS = """() => {
  const found = [];
  for (const row of [...document.querySelectorAll("label.answer")].filter(one => one.offsetParent)) {
    const box = row.getBoundingClientRect();
    const next = row.nextElementSibling?.matches("label.answer") ? row.nextElementSibling : null;
    const gap = next ? next.getBoundingClientRect().top - box.bottom : 8;
    const beside = next && next.getBoundingClientRect().left > box.left;
    if (box.height < 64 || (gap < 8 && !beside) || !row.querySelector("input")) {
      found.push(`${row.innerText.trim()}: ${box.height} px high, ${gap} px to the next`);
    }
  }
  return found;
}"""

# WCAG 2.4.7 and 2.4.11: whatever takes the focus has a ring, and is not hidden under the band or the next action.
FOCUS = """() => {
  const can = "a[href], button, input:not([type=hidden]), select, textarea, summary, [tabindex='0']";
  const all = [...document.querySelectorAll(can)].filter(one => one.offsetParent);
  const bars = [...document.querySelectorAll(".band, .next")];
  const found = [];
  for (const one of all) {
    one.focus({ focusVisible: true });
    const box = one.getBoundingClientRect();
    const ringed = one.closest(".answer") ?? one;
    if (getComputedStyle(ringed).outlineStyle === "none") found.push(`no ring: ${one.outerHTML.slice(0, 80)}`);
    const parts = [0.1, 0.3, 0.5, 0.7, 0.9].map(part =>
      document.elementFromPoint(box.left + box.width / 2, box.top + box.height * part));
    if (parts.every(part => bars.some(bar => !bar.contains(one) && (!part || bar.contains(part))))) {
      found.push(`hidden: ${one.outerHTML.slice(0, 80)}`);
    }
  }
  return found;
}"""
