/* A table of boxes that is filled in like a spreadsheet: Enter and arrows move, a pasted block spreads over cells. */
"use strict";

/** Moving and pasting in the text boxes of a table's body. */
class Grid {
  /**
   * @param {HTMLTableElement} table
   * @param {(cells: {box: HTMLInputElement, text: string}[]) => void} onPaste
   * @param {() => void} onNewRow asked for when the last row is not enough; must add one
   */
  constructor(table, onPaste, onNewRow) {
    this.table = table;
    this.onPaste = onPaste;
    this.onNewRow = onNewRow;
    table.addEventListener("keydown", (event) => this.#key(event));
    table.addEventListener("paste", (event) => this.#paste(event));
  }

  get rows() {
    return this.table.tBodies[0].rows;
  }

  /** @param {HTMLTableRowElement} row @returns {HTMLInputElement[]} */
  boxes(row) {
    return /** @type {HTMLInputElement[]} */ ([...row.querySelectorAll("input[type=text]")]);
  }

  /** @param {EventTarget | null} target @returns {[number, number] | null} row and column of a box */
  #place(target) {
    if (!(target instanceof HTMLInputElement) || target.type !== "text") return null;
    const row = target.closest("tr");
    return row && [[...this.rows].indexOf(row), this.boxes(row).indexOf(target)];
  }

  /** @param {number} row @param {number} column */
  #box(row, column) {
    while (row >= this.rows.length) {
      const before = this.rows.length;
      this.onNewRow();
      if (this.rows.length === before) return undefined; // the sheet takes no more
    }
    return row < 0 ? undefined : this.boxes(this.rows[row])[column];
  }

  /** @param {KeyboardEvent} event */
  #key(event) {
    const place = this.#place(event.target);
    if (!place || event.ctrlKey || event.altKey || event.metaKey || event.isComposing) return;
    const [row, column] = place;
    const box = /** @type {HTMLInputElement} */ (event.target);
    const whole = box.selectionStart === 0 && box.selectionEnd === box.value.length;
    const atStart = box.selectionEnd === 0 || whole;
    const atEnd = box.selectionStart === box.value.length || whole;
    let to;
    if (event.key === "Enter") to = [row + (event.shiftKey ? -1 : 1), column];
    else if (event.key === "ArrowDown") to = [row + 1, column];
    else if (event.key === "ArrowUp") to = [row - 1, column];
    else if (event.key === "ArrowRight" && atEnd && !event.shiftKey) to = [row, column + 1];
    else if (event.key === "ArrowLeft" && atStart && !event.shiftKey) to = [row, column - 1];
    if (!to) return;
    event.preventDefault();
    const next = this.#box(to[0], to[1]);
    next?.focus();
    next?.select();
  }

  /** @param {ClipboardEvent} event */
  #paste(event) {
    const place = this.#place(event.target);
    const text = event.clipboardData?.getData("text/plain") ?? "";
    if (!place || !/[\t\n\r]/.test(text.trimEnd())) return; // one cell: the browser's own paste
    event.preventDefault();
    const cells = [];
    for (const [down, line] of text.replace(/(\r\n|\n|\r)$/, "").split(/\r\n|\n|\r/).entries()) {
      for (const [across, cell] of line.split("\t").entries()) {
        const box = this.#box(place[0] + down, place[1] + across);
        if (box) cells.push({ box, text: cell.trim() });
      }
    }
    this.onPaste(cells);
  }
}
