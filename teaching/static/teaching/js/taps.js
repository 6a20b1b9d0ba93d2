/* Sends each tap to the server as it happens, one after the other, and says when it is saved. Signing sends all again. */
export class Taps {
  constructor(form, say) {
    this.form = form;
    this.say = say;
    const bases = document.getElementById("bases"); // of a session gone on with
    this.last = new Map(bases ? Object.entries(JSON.parse(bases.textContent)) : []); // field -> tap it now stands on
    this.queue = Promise.resolve();
  }

  send(field, value) {
    this.queue = this.queue.then(() => this.sendOne(field, value));
    return this.queue;
  }

  async sendOne(field, value) {
    const id = crypto.randomUUID();
    const body = new FormData();
    body.set("csrfmiddlewaretoken", this.form.elements.csrfmiddlewaretoken.value);
    body.set("draft", this.form.elements.draft.value);
    body.set("which", this.form.elements.which.value);
    body.set("client_id", id);
    body.set("field", field);
    body.set("value", JSON.stringify(value));
    body.set("base", this.last.get(field) ?? "");
    let answer;
    try {
      answer = await fetch(this.form.dataset.taps, { method: "POST", body, redirect: "manual" });
    } catch {
      this.say("Not saved yet: no answer from the server. What you tapped stays on this page; signing sends all of it.");
      return null;
    }
    const told = answer.headers.get("content-type")?.includes("json") ? await answer.json() : {};
    if (!answer.ok) {
      if (told.base) this.last.set(field, told.base);
      this.say(told.sentence ?? "Not saved yet: the server refused it. Signing will say what to mend.");
      return told;
    }
    this.last.set(field, id);
    this.form.elements.draft.value = told.draft;
    this.say(`Saved ${told.at}`);
    return told;
  }
}
