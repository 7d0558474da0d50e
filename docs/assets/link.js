/*
 * Links that carry numbers, as the page reads them: the part of an address after '#'. calc/link.py says what stands in
 * one and writes it; a test holds the two together. A link is somebody's text: it fills boxes and nothing else.
 */
"use strict";

/**
 * @typedef {{calculator: string, version: string, units: "us" | "si", given: Record<string, string>,
 *            choices: Record<string, string>, level: string[], hide: string[], lock: string[]}} LinkParts
 */

const sheetLink = (() => {
  const VERSION = "1";
  const OTHER_VERSION = "This link was made by another version of this site. Check its numbers.";
  const LONGEST = 2000;

  /** @param {string} text @returns {string} */
  function decoded(text) {
    try {
      return decodeURIComponent(text.replaceAll("_", " "));
    } catch {
      return text; // a broken % is shown as it is, and then refused at its box
    }
  }

  /**
   * @param {string} fragment with or without '#' @param {string[]} choiceNames the symbols that are choices
   * @returns {LinkParts}
   */
  function read(fragment, choiceNames) {
    /** @type {LinkParts} */
    const parts = {
      calculator: "", version: VERSION, units: "us", given: {}, choices: {}, level: [], hide: [], lock: [],
    };
    for (const part of fragment.slice(0, LONGEST).replace(/^#/, "").split("&")) {
      const [, name, raw] = /^([^=]*)=(.*)$/s.exec(part) ?? [];
      if (name === undefined) continue;
      const text = decoded(raw);
      const listed = text.split(",").filter(Boolean);
      if (name === "c") parts.calculator = text;
      else if (name === "v") parts.version = text;
      else if (name === "u") parts.units = text === "si" ? "si" : "us";
      else if (name === "level" || name === "hide" || name === "lock") parts[name] = listed;
      else if (choiceNames.includes(name)) parts.choices[name] = text;
      else if (name) parts.given[name] = text;
    }
    return parts;
  }

  /** What stands after '#' in anything a reader pastes: a whole address, or just the end of one. @param {string} text */
  function fragmentOf(text) {
    const at = text.indexOf("#");
    return at >= 0 ? text.slice(at + 1).trim() : text.trim();
  }

  /** @param {[string, string][]} parts @returns {string} the end of an address, without '#' */
  function write(parts) {
    const written = (/** @type {string} */ text) => encodeURIComponent(text).replaceAll("_", "%5F").replaceAll("%20", "_");
    return parts.map(([name, text]) => `${name}=${written(text)}`).join("&");
  }

  return { VERSION, OTHER_VERSION, read, write, fragmentOf };
})();

/**
 * A sheet that moved to a second page left a pointer on its first, `<a id="KEY-sheet">` in a list item with the id of its
 * section. An old link to sheet, title or section goes on from there, whole.
 */
function followPointer() {
  const { calculator } = sheetLink.read(location.hash, []);
  const [, place] = /^#([\w-]+?)(?:-title|-sheet)?$/.exec(location.hash) ?? [];
  const pointer =
    document.getElementById(`${calculator || place}-sheet`) ??
    document.getElementById(place ?? "")?.querySelector(":scope > a[id$=-sheet]");
  if (pointer instanceof HTMLAnchorElement) location.replace(pointer.href.split("#")[0] + location.hash);
}

addEventListener("hashchange", followPointer);
followPointer();

/** Fetches a script beside this one that few readers need, once. @type {(name: "share" | "big") => Promise<void>} */
const fetched = (() => {
  const own = /** @type {HTMLScriptElement} */ (document.currentScript).src;
  /** @type {Map<string, Promise<void>>} */
  const known = new Map();
  return (name) => {
    const coming =
      known.get(name) ??
      new Promise((resolve, reject) => {
        const script = document.createElement("script");
        script.src = own.replace("link.js", `${name}.js`);
        const fail = () => reject(new Error(`${name}.js is missing, or of another version`)); // whole.js tells the reader
        script.onload = () => ("other" in script.dataset ? fail() : resolve());
        script.onerror = fail;
        document.head.append(script);
      });
    known.set(name, coming);
    return coming;
  };
})();

/** <paste-link>: the box on the home page that opens a link in this copy, wherever the copy lies. */
class PasteLink extends HTMLElement {
  connectedCallback() {
    const form = /** @type {HTMLFormElement} */ (this.querySelector("form"));
    const box = /** @type {HTMLInputElement} */ (this.querySelector("input"));
    const words = /** @type {HTMLElement} */ (this.querySelector(".q-error"));
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      this.follow(sheetLink.fragmentOf(box.value), (problem) => {
        words.textContent = problem;
        words.hidden = false;
        box.setAttribute("aria-invalid", "true");
        box.focus();
      });
    });
    box.addEventListener("input", () => {
      words.hidden = true;
      box.removeAttribute("aria-invalid");
    });
    if (/[#&][cp]=/.test(location.hash)) this.follow(location.hash.slice(1), () => {});
  }

  /** @param {string} fragment @param {(problem: string) => void} refuse */
  follow(fragment, refuse) {
    if (/(^|&)p=/.test(fragment)) {
      location.href = `practice.html#${fragment}`; // a practice set
      return;
    }
    const { calculator } = sheetLink.read(fragment, []);
    const pages = /** @type {Record<string, string>} */ (/** @type {any} */ (window).calculatorPages ?? {});
    const page = Object.hasOwn(pages, calculator) ? pages[calculator] : undefined;
    if (page) location.href = `${page}#${fragment}`;
    else if (!calculator) refuse("This is not a link with numbers in it. It should hold “#c=” and the name of a machine.");
    else refuse("The calculator that this link names is not in this copy of the site.");
  }
}

customElements.define("paste-link", PasteLink);
