/* Copies the text beside the button. Without scripts the text stands there to be selected. */
for (const place of document.querySelectorAll("[data-copy]")) {
  const text = place.querySelector("textarea");
  const row = place.querySelector(".copy-do");
  const said = row.querySelector("[role=status]");
  row.hidden = false;
  row.querySelector("button").addEventListener("click", async () => {
    text.select();
    let done = true;
    try {
      await navigator.clipboard.writeText(text.value);
    } catch {
      done = document.execCommand("copy"); // a ward network without https has no clipboard of its own
    }
    said.textContent = done ? "Copied." : "It could not be copied. The text is selected: copy it yourself.";
  });
}
