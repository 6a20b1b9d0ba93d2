/* Day or night at once, without loading the page again. Without scripts the form does the same. */
const form = document.querySelector("[data-light]");
const sheet = document.querySelector("[data-night]");
const media = { day: "not all", night: "all", device: "(prefers-color-scheme: dark)" };

form?.addEventListener("submit", async (event) => {
  event.preventDefault();
  const button = event.submitter;
  const body = new FormData(form);
  body.set(button.name, button.value);
  sheet.media = media[button.value];
  for (const other of form.querySelectorAll("button")) {
    other.setAttribute("aria-pressed", String(other === button));
  }
  await fetch(form.action, { method: "POST", body, redirect: "manual" });
});
