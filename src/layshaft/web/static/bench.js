"use strict";
// A gauge that types its figure and Enter goes on to the next place; it never sends a form and never presses a button.
document.addEventListener("keydown", (event) => {
  const field = event.target;
  if (event.key !== "Enter" || !(field instanceof HTMLInputElement)) return;
  if (!field.matches("[data-gauge], [data-pad]")) return;
  event.preventDefault();
  const fields = [...field.form.elements].filter((one) => one.matches("input[data-gauge], button:not(.key)"));
  const next = fields[fields.indexOf(field) + 1];
  if (next) next.focus();
});
// A number pad of our own: a tablet's keyboard covers half the page.
const signs = ["7", "8", "9", "4", "5", "6", "1", "2", "3", ".", "0", "⌫"];
document.querySelectorAll("form").forEach((form) => {
  const fields = [...form.querySelectorAll("[data-pad]")];
  if (!fields.length) return;
  let armed = fields[0];
  fields.forEach((field) => field.addEventListener("focus", () => { armed = field; }));
  const pad = document.createElement("div");
  pad.className = "pad";
  pad.setAttribute("role", "group");
  pad.setAttribute("aria-label", "Number pad");
  signs.forEach((sign) => {
    const key = document.createElement("button");
    key.type = "button";
    key.className = "key";
    key.textContent = sign;
    if (sign === "⌫") key.setAttribute("aria-label", "Take the last sign away");
    key.addEventListener("click", () => {
      armed.value = sign === "⌫" ? armed.value.slice(0, -1) : armed.value + sign;
    });
    pad.append(key);
  });
  fields[fields.length - 1].closest("label").after(pad);
});
