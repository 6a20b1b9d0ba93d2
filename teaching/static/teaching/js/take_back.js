/* An answer tapped by mistake is taken back, so that it is as if nobody had tapped: not rated is not a level. */
const form = document.getElementById("recorder");
const groups = [...form.querySelectorAll("fieldset")].filter((group) => {
  const radio = group.querySelector("input[type=radio]");
  return radio && radio.name !== "which" && !group.querySelector('input[type=radio][value=""]');
});

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
    radio.focus();
    radio.dispatchEvent(new Event("change", { bubbles: true }));
  });
  show();
}
