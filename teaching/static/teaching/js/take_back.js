/* An answer tapped by mistake is taken back, so that it is as if nobody had tapped: not rated is not a level. */
const form = document.getElementById("recorder");
const groups = [...form.querySelectorAll("fieldset")].filter((group) => {
  const radio = group.querySelector("input[type=radio]");
  return radio && radio.name !== "which" && !group.querySelector('input[type=radio][value=""]');
});

/* A caution was stored at the tap: taking the answer back takes nothing back of it, and says so. */
const stays = (group) => {
  const said = group.querySelector("[data-stays]") ?? document.createElement("p");
  said.dataset.stays = "";
  said.setAttribute("role", "status");
  said.textContent = "The caution stays. If it was a slip, say on this person's page that it was tapped by mistake.";
  group.append(said);
};

for (const group of groups) {
  const line = document.createElement("p");
  const button = document.createElement("button");
  line.className = "take-back";
  button.type = "button";
  button.textContent = "Take this answer back";
  line.append(button);
  group.append(line);
  const picked = () => group.querySelector("input[type=radio]:checked");
  const show = () => { line.hidden = !picked(); };
  group.addEventListener("change", show);
  button.addEventListener("click", () => {
    const radio = picked();
    radio.checked = false;
    if (group.querySelector(".caution")) stays(group);
    radio.focus();
    radio.dispatchEvent(new Event("change", { bubbles: true }));
  });
  show();
}
