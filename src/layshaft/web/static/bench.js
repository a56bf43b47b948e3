"use strict";
// Enter writes nothing on record. In a field it goes on to the next place that a gauge can type into, on a button it is
// dead: a button is pressed by hand or by the space bar. Only at the door Enter goes on.
const writes = (form) => Boolean(form && form.method === "post" && !form.matches("[data-enter]"));
const places = (form) => [...form.elements].filter((one) => one.matches("[data-gauge], button.take"));
function goOn(field) {
  const all = places(field.form);
  const next = all[all.indexOf(field) + 1];
  if (next && all.includes(field)) next.focus();
}
document.addEventListener("keydown", (event) => {
  const one = event.target;
  if (event.key !== "Enter" || !writes(one.form) || !one.matches("input, button")) return;
  event.preventDefault();
  if (one.matches("[data-gauge]")) goOn(one);
}, true);

// A number pad of our own: a tablet's keyboard covers half the page. Over it stands what is armed, in large.
const FIGURE = ["7", "8", "9", "⌫", "4", "5", "6", "/", "1", "2", "3", "␣", ".", "0", "−", "→"];
const DIGITS = ["7", "8", "9", "4", "5", "6", "1", "2", "3", "⌫", "0"];
const TOLD = { "⌫": "Take the last sign away", "␣": "Space", "→": "Next place", "−": "Minus", "/": "Over" };
const ACT = {
  "⌫": (field) => { field.value = field.value.slice(0, -1); },
  "␣": (field) => { field.value += " "; },
  "−": (field) => { field.value += "-"; },
  "→": goOn,
};
function armPad(fields) {
  let armed = null;
  const home = fields.find((field) => field.matches("[data-home]")) || null;
  const side = document.createElement("aside");
  const strip = document.createElement("p");
  const pad = document.createElement("div");
  side.className = "side";
  side.setAttribute("aria-label", "Number pad");
  strip.className = "armed";
  strip.setAttribute("role", "status");
  pad.className = "pad";
  side.append(strip, pad);
  const key = (sign) => {
    const made = document.createElement("button");
    made.type = "button";
    made.textContent = sign;
    if (TOLD[sign]) made.setAttribute("aria-label", TOLD[sign]);
    made.tabIndex = -1;  // who has a keyboard types on it
    made.addEventListener("mousedown", (event) => event.preventDefault());  // the field stays the one typed into
    made.addEventListener("click", () => { if (armed) (ACT[sign] || ((field) => { field.value += sign; }))(armed); });
    return made;
  };
  const tell = () => {
    fields.forEach((field) => field.classList.toggle("is-armed", field === armed));
    side.classList.toggle("idle", !armed);
    strip.textContent = armed ? armed.dataset.pad + unit(armed) : "Nothing is armed. Tap a place to type into.";
    const isFigure = (armed || fields[0]).matches("[data-gauge]");
    pad.classList.toggle("wide", isFigure);
    pad.replaceChildren(...(isFigure ? FIGURE : DIGITS).map(key));
  };
  const unit = (field) => {
    const chosen = field.matches("[data-gauge]") && field.form.querySelector("[name=unit]:checked");
    return chosen ? `, in ${chosen.dataset.told}` : "";
  };
  const arm = (field) => {
    armed = field;
    tell();
    if (field && field !== home) field.scrollIntoView({ block: "nearest" });  // on a telephone the pad lies over the page
  };
  side.classList.toggle("home", Boolean(home));
  fields.forEach((field) => {
    field.inputMode = "none";
    field.addEventListener("focus", () => arm(field));
    field.addEventListener("blur", () => arm(home));
  });
  document.addEventListener("change", tell);
  arm(home);
  fields[0].closest(".beside").append(side);
}
const fields = [...document.querySelectorAll(".beside [data-pad]")];
if (fields.length) armPad(fields);
