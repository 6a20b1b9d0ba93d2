/* The recorder with scripts on: the same form, each tap also kept by the server. Without scripts it is one form. */
import { Taps } from "./taps.js";

const form = document.getElementById("recorder");
const saved = document.querySelector("[data-saved]");
const chosen = document.querySelector("[data-chosen]");
const raised = document.querySelector("[data-raised]");
const offline = document.querySelector("[data-offline]");
const sign = document.querySelector(".next button[form=recorder]");

/* While the network is gone nothing is signed and no words are written: neither could be kept safely. */
const networkGone = (gone) => {
  offline.hidden = !gone;
  sign.disabled = gone && !navigator.onLine;
  for (const field of form.querySelectorAll("textarea, input[type=text]")) field.disabled = gone;
};

const valueOf = (field) => {
  const inputs = [...form.elements].filter((input) => input.name === field);
  if (inputs[0].type === "radio") return inputs.find((input) => input.checked)?.value ?? "";
  if (inputs[0].type !== "checkbox") return inputs[0].value;
  if (inputs.length === 1) return inputs[0].checked;
  return inputs.filter((input) => input.checked).map((input) => input.value);
};

const words = (input) => input.closest("label").innerText.trim().replace(/\s+/g, " ");
const pickedIn = (row) => row.querySelector(`input[name="ratings.${row.dataset.row}"]:checked`);
const aloneOf = (row) => {
  const part = row.closest("[data-part]")?.dataset.part;
  return form.elements[part ? `alone.${part}` : "alone"]?.checked ?? false;
};

/* Each closed row says what will be stored of it, and each closed part what of its rows. */
const showRows = () => {
  for (const row of form.querySelectorAll("[data-row]")) {
    const picked = pickedIn(row);
    row.querySelector("[data-now]").textContent = picked ? `Now: ${words(picked)}` : aloneOf(row) ? `Now: ${row.dataset.alone}` : "";
  }
  for (const part of form.querySelectorAll("[data-part]")) {
    const rows = [...part.querySelectorAll("[data-row]")].filter((row) => !row.hidden);
    const said = rows.filter(pickedIn).length;
    const alone = form.elements[`alone.${part.dataset.part}`].checked;
    const other = form.querySelector(`input[name="part_who.${part.dataset.part}"]:checked`);
    const whose = other ? ` (${words(other)})` : "";
    const some = alone ? `Now: alone, but for ${said}` : `Now: ${said} of ${rows.length} said`;
    part.querySelector("[data-part-now]").textContent = said ? some + whose : alone ? `Now: alone${whose}` : "";
  }
};

/* Only the rows of the stoma that was tapped. */
const showGroups = () => {
  const picked = form.querySelector('input[name="which"]:checked');
  const stoma = picked?.value.split(":")[0];
  for (const group of form.querySelectorAll("[data-stomas]")) {
    group.hidden = Boolean(stoma) && !group.dataset.stomas.split(" ").includes(stoma);
  }
  const name = document.querySelector(".band-name").innerText;
  chosen.textContent = picked ? `, ${words(picked).replace(`${name}: `, "")}` : "";
};

/* Said aloud at once, and written beside the answer that raised it. */
const showCautions = (cautions, beside) => {
  for (const caution of cautions) {
    const line = document.createElement("p");
    line.className = caution.list === "call_now" ? "caution now" : "caution";
    line.textContent = caution.sentence;
    beside.append(line);
    raised.textContent = caution.sentence;
  }
};

const say = (sentence) => {
  saved.textContent = sentence;
  saved.classList.toggle("not-saved", sentence.startsWith("Not "));
};
const taps = new Taps(form, say, networkGone, (cautions) => showCautions(cautions, saved.parentElement));

form.addEventListener("change", async (event) => {
  showGroups();
  showRows();
  const field = event.target.name;
  if (!form.querySelector('input[name="which"]:checked') || !field) return;
  if (field.startsWith("began_at")) return; // in parts, and only whole is it a time: it goes with the signature
  const told = await taps.send(field, valueOf(field));
  showCautions(told?.cautions ?? [], event.target.closest("[id$='_field']"));
  const hint = form.querySelector("[data-hint]");
  if (told?.powder && hint) hint.textContent = told.powder;
});
/* What the browser cannot read, such as half a number, is shown though its part was folded again. */
form.addEventListener("invalid", (event) => {
  for (let fold = event.target.closest("details"); fold; fold = fold.parentElement.closest("details")) fold.open = true;
}, true);
/* Taps on their way, and what the device holds, arrive before the page is left; with no way to the server it stays. */
let state = "here";
form.addEventListener("submit", async (event) => {
  form.elements.clock.value = new Date().toISOString();
  if (state === "leaving" || (state === "here" && !taps.unanswered)) return;
  event.preventDefault();
  if (state === "waiting") return; // tapped twice
  state = "waiting";
  say("Saving the last tap first.");
  if (await taps.mayLeave()) {
    state = "leaving";
    form.requestSubmit(event.submitter);
  } else say("Not signed: no network. Nothing is lost; stay on this page.");
  state = "here"; // where the browser still wants a field, the next signing waits again
});
for (const button of document.querySelectorAll("[data-without-scripts]")) button.hidden = true;
showGroups();
showRows();
