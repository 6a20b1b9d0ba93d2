/* Sends each tap to the server as it happens, one after the other, and says when it is saved. Signing sends all again.
   While there is no network the taps are kept on the device, by code alone, and sent once when it is back. */
import { elsewhere, keep, kept, purge, sendKept } from "./device.js";

const AGAIN_MS = 15_000;

export class Taps {
  /* `say` shows a sentence; `gone` is told when the network goes and comes back; `raised` is told of cautions. */
  constructor(form, say, gone = () => {}, raised = () => {}) {
    this.form = form;
    this.say = say;
    this.gone = gone;
    this.raised = raised;
    const bases = document.getElementById("bases"); // of a session gone on with
    this.last = new Map(bases ? Object.entries(JSON.parse(bases.textContent)) : []); // field -> tap it now stands on
    this.device = form.querySelector("[data-device]")?.dataset;
    this.queue = Promise.resolve();
    this.underway = 0; // taps the server has not answered yet
    addEventListener("online", () => this.sendAll());
    if (kept()) this.sendAll();
  }

  send(field, value) {
    this.underway += 1;
    this.queue = this.queue.then(() => this.sendOne(field, value)).finally(() => { this.underway -= 1; });
    return this.queue;
  }

  sendAll() {
    this.queue = this.queue.then(() => this.sendWhatIsKept());
    return this.queue;
  }

  async sendOne(field, value) {
    if (kept() && !(await this.sendWhatIsKept())) return this.keepOne(field, value, crypto.randomUUID());
    const id = crypto.randomUUID();
    const body = new FormData();
    body.set("csrfmiddlewaretoken", this.form.elements.csrfmiddlewaretoken.value);
    body.set("draft", this.form.elements.draft.value);
    body.set("which", this.form.elements.which.value);
    body.set("client_id", id);
    body.set("field", field);
    body.set("value", JSON.stringify(value));
    body.set("base", this.last.get(field) ?? "");
    let answer, told;
    try {
      answer = await fetch(this.form.dataset.taps, { method: "POST", body, redirect: "manual" });
      told = answer.headers.get("content-type")?.includes("json") ? await answer.json() : {};
    } catch {
      return this.keepOne(field, value, id); // also where the network goes in the middle of the answer
    }
    if (!answer.ok) {
      if (told.base) this.last.set(field, told.base);
      if (told.anew) {
        this.form.elements.draft.value = ""; // put away meanwhile: the next tap begins a new session
        this.last.clear();
      }
      this.say(told.sentence ?? "Not saved yet: the server refused it. Signing will say what to mend.");
      return told;
    }
    this.last.set(field, id);
    this.form.elements.draft.value = told.draft;
    this.say(`Saved ${told.at}`);
    return told;
  }

  /* A session signed before its last tap is answered would leave a draft that nobody signs. */
  get unanswered() {
    return this.underway > 0 || Boolean(kept());
  }

  /* Signing sends the whole form: what could not be sent tap by tap goes with it, once the server is in reach. */
  async mayLeave() {
    if (await this.sendAll()) return true;
    const page = document.querySelector("[data-still-here]");
    const answer = await fetch(page.dataset.stillHere, { redirect: "manual" }).catch(() => null);
    if (answer?.status !== 204) return false;
    purge();
    this.gone(false);
    return true;
  }

  /* Only what is chosen is kept on the device; what is written in words never is. */
  keepOne(field, value, id) {
    const chosen = `:is(select, [type=radio], [type=checkbox], [type=number])[name="${CSS.escape(field)}"]`;
    if (this.device && this.form.querySelector(chosen)) {
      const { token, checklist } = this.device;
      const tap = { id, field, value, which: this.form.elements.which.value, base: this.last.get(field) ?? "" };
      keep({ token, checklist, draft: this.form.elements.draft.value }, tap);
      this.last.set(field, id);
    }
    this.gone(true);
    this.say("Not saved yet: no network. What you tapped is kept on this device.");
    clearTimeout(this.again);
    this.again = setTimeout(() => this.sendAll(), AGAIN_MS);
    return null;
  }

  /* True once nothing is left on the device. */
  async sendWhatIsKept() {
    const told = await sendKept();
    clearTimeout(this.again);
    if (!told) {
      this.again = setTimeout(() => this.sendAll(), AGAIN_MS);
      return false;
    }
    const own = told[this.device?.token];
    this.gone(false);
    if (!own) {
      if (Object.keys(told).length) this.say(elsewhere(told));
      return true;
    }
    if (own.draft) this.form.elements.draft.value = own.draft;
    for (const [field, id] of Object.entries(own.last ?? {})) this.last.set(field, id);
    this.raised(own.cautions ?? []);
    this.say([own.at ? `Saved ${own.at}` : "", ...own.sentences].filter(Boolean).join(". "));
    return true;
  }
}
