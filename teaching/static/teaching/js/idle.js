/* Says two minutes before the server signs out somebody who does nothing; a touch or a key tells it they are here. */
const page = document.querySelector("[data-idle-seconds]");
const warning = document.querySelector("[data-idle-warning]");
const TELL_AT_MOST_MS = 61_000;
const WARN_BEFORE_MS = 120_000;
let told = Date.now();
let timer;

function wait() {
  clearTimeout(timer);
  warning.hidden = true;
  timer = setTimeout(() => { warning.hidden = false; }, page.dataset.idleSeconds * 1000 - WARN_BEFORE_MS);
}

async function here() {
  if (Date.now() - told < TELL_AT_MOST_MS) return;
  told = Date.now();
  const answer = await fetch(page.dataset.stillHere, { redirect: "manual" }).catch(() => null);
  if (answer?.status === 204) wait();
}

if (page) {
  wait();
  for (const sign of ["pointerdown", "keydown"]) addEventListener(sign, here, { passive: true });
}
