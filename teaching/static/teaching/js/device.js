/* What this device keeps while the network is gone: a token that says nothing by itself, the checklist's version, and
   taps by code, level and time. No name, number, birth date, note or photo. Thrown away when it is sent, at signing
   out, under another user, and after 12 hours. */
const KEPT = "kept-taps";
const LASTS_MS = 12 * 3600 * 1000;
const signed = document.querySelector("[data-device-key]");
const key = signed?.dataset.deviceKey;

export const purge = () => localStorage.removeItem(KEPT);

/* What is kept, if it is this user's and still good. */
export function kept() {
  let held = null;
  try {
    held = JSON.parse(localStorage.getItem(KEPT));
  } catch {
    purge();
  }
  if (held && (held.key !== key || Date.now() - Date.parse(held.begun) > LASTS_MS)) {
    purge();
    return null;
  }
  return held;
}

/* One tap more; `where` is {token, checklist, draft}. Another session's taps, not sent yet, are not written over. */
export function keep(where, tap) {
  const held = kept() ?? { key, begun: new Date().toISOString(), sessions: {} };
  const session = held.sessions[where.token] ?? { checklist: where.checklist, draft: where.draft, taps: [] };
  session.taps.push({ ...tap, at: new Date().toISOString() });
  held.sessions[where.token] = session;
  localStorage.setItem(KEPT, JSON.stringify(held));
}

/* Sends what is kept, a session at a time. Answers {token: what the server said}; null while there is no network. */
export async function sendKept() {
  const held = kept();
  if (!held) return {};
  const told = {};
  for (const [token, session] of Object.entries(held.sessions)) {
    const body = new FormData();
    body.set("csrfmiddlewaretoken", document.querySelector("[name=csrfmiddlewaretoken]").value);
    body.set("token", token);
    body.set("checklist", session.checklist);
    body.set("draft", session.draft);
    body.set("clock", new Date().toISOString());
    body.set("taps", JSON.stringify(session.taps));
    let answer;
    try {
      answer = await fetch(signed.dataset.keptTaps, { method: "POST", body, redirect: "manual" });
      if (!answer.headers.get("content-type")?.includes("json")) return null; // signed out, or a fault of ours: keep it
      told[token] = await answer.json();
    } catch {
      return null;
    }
    delete held.sessions[token];
    if (Object.keys(held.sessions).length) localStorage.setItem(KEPT, JSON.stringify(held));
    else purge();
  }
  return told;
}

/* What is said of taps that belong to a session which is not on this page. */
export const elsewhere = (told) => {
  const sentences = Object.values(told).flatMap((one) => [...one.sentences, ...(one.cautions ?? []).map((each) => each.sentence)]);
  const saved = Object.values(told).some((one) => one.draft);
  const begun = "What was tapped without a network is saved now, not signed. It waits on the person's page.";
  return [...(saved ? [begun] : []), ...sentences].join(" ");
};

async function sendFromAnyPage() {
  const told = await sendKept();
  if (!told || !Object.keys(told).length) return;
  const line = document.createElement("p");
  line.className = "said";
  line.setAttribute("role", "status");
  line.textContent = elsewhere(told);
  document.getElementById("leaf").prepend(line);
}

document.querySelector("[data-sign-out]")?.addEventListener("submit", purge);
if (key && kept() && !document.querySelector("[data-device]")) sendFromAnyPage();
