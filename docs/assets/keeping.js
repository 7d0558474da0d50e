/* What a reader typed, kept for a reload: for this tab, or on this device if the reader asked for that. */
"use strict";

/** One thing that is kept under a name. Storage may be forbidden, as on managed machines: then nothing is kept. */
class Keeping {
  /** @param {string} name */
  constructor(name) {
    this.name = name;
    /** @type {string | null} what this tab read or wrote on the device last: anything else is another tab's */
    this.known = null;
    /** Why not all is kept as the reader asked, in a sentence; empty if it is. */
    this.trouble = "";
  }

  /** @returns {boolean} whether another tab keeps something else under this name on the device */
  #elsewhere() {
    try {
      const there = Keeping.#store(true)?.getItem(this.name) ?? null;
      return there !== null && there !== this.known;
    } catch {
      return false;
    }
  }

  /** @param {boolean} long @returns {Storage | null} */
  static #store(long) {
    try {
      return long ? localStorage : sessionStorage;
    } catch {
      return null;
    }
  }

  /** @param {boolean} long @returns {any} */
  #read(long) {
    try {
      return JSON.parse(Keeping.#store(long)?.getItem(this.name) ?? "null");
    } catch {
      return null;
    }
  }

  /** Whether it lies on this device, not only in this tab. */
  get long() {
    return this.#read(true) !== null;
  }

  /** @returns {any} what was kept; what lies on the device stands for other tabs too */
  read() {
    const [here, there] = [this.#read(false), this.#read(true)];
    if (there && (!here || JSON.stringify(here) === JSON.stringify(there))) this.known = JSON.stringify(there);
    return here ?? there;
  }

  /**
   * Keeps it for this tab, and if `long` on this device too; what another tab keeps there is never overwritten.
   * @param {object} value @param {boolean} long @returns {boolean} whether all was kept; `trouble` says why not
   */
  write(value, long) {
    const text = JSON.stringify(value);
    this.trouble = "";
    for (const where of [false, true]) {
      try {
        const store = Keeping.#store(where);
        if (where && this.#elsewhere()) {
          if (long) this.trouble = "Another tab keeps its own on this device. What stands here is kept in this tab only: save it before you close the tab.";
        } else if (where && !long) store?.removeItem(this.name);
        else if (store) {
          store.setItem(this.name, text);
          if (where) this.known = text;
        } else if (where) this.trouble = "This device keeps nothing for this page. Save or print what stands here before you close the tab.";
      } catch {
        this.trouble = "This browser has no room left to keep what stands here. Save or print it before you close the tab.";
      }
    }
    return !this.trouble;
  }

  /** Forgets it everywhere. */
  clear() {
    for (const where of [false, true]) {
      try {
        Keeping.#store(where)?.removeItem(this.name);
      } catch {
        // nothing was kept there
      }
    }
  }
}

/** A table as CSV (RFC 4180); no cell is one that a spreadsheet takes for a formula. @param {string[][]} rows */
function asCsv(rows) {
  const quoted = (/** @type {string} */ text) => {
    const safe = /^[=+\-@\t\r]/.test(text) ? `'${text}` : text;
    return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
  };
  return rows.map((row) => row.map(quoted).join(",")).join("\r\n");
}

/** Saves a text as a file, by a link that nobody sees. @param {string} name @param {string} text @param {string} [type] */
function saveAsFile(name, text, type = "text/csv") {
  const address = URL.createObjectURL(new Blob([text], { type }));
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(address), 1000);
}

/**
 * @param {File} file @param {string} [what] it should be @param {string} [mend]
 * @returns {Promise<string>} its text; rejects with a sentence for the reader
 */
async function textOf(file, what = "a record sheet", mend = "Save the sheet as CSV.") {
  if (file.size > 2_000_000) throw new Error(`${file.name} is too large to be ${what}.`);
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(await file.arrayBuffer());
  } catch {
    throw new Error(`${file.name} is not a text file. ${mend}`);
  }
}
