/* What is wrong in a form, for readers who hear it: said in one line, and tied to its box. */
"use strict";

/** The messages that stand at boxes and in the form's list, each with its box's name; three are enough to begin with. @param {HTMLElement} form */
function wrongAloud(form) {
  const messages = /** @type {NodeListOf<HTMLElement>} */ (form.querySelectorAll(".q-error:not([hidden]), .r-errors:not([hidden]) li"));
  return [...messages]
    .slice(0, 3)
    .map((it) => [it.parentElement?.querySelector(":scope > label")?.textContent?.trim(), it.textContent?.trim()].filter(Boolean).join(": "))
    .join(" ");
}

/** Marks a box as wrong and names the line that says why, or takes both away. @param {Element} box @param {string} line its id, or nothing */
function tieError(box, line) {
  if (line) {
    box.setAttribute("aria-invalid", "true");
    box.setAttribute("aria-describedby", line);
  } else {
    box.removeAttribute("aria-invalid");
    box.removeAttribute("aria-describedby");
  }
}
