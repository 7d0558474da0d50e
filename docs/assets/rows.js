/*
 * A group of like rows in a sheet, such as the loads on a bar: one empty row stands ready behind the last one in use,
 * and a column that the chosen case does not have goes away with its head.
 */
"use strict";

/** One group of rows. */
class Rows {
  /** @param {HTMLElement} group @param {Box[]} boxes  of the whole sheet */
  constructor(group, boxes) {
    this.group = group;
    this.lines = /** @type {HTMLElement[]} */ ([...group.querySelectorAll(".row[data-row]")]);
    this.heads = /** @type {HTMLElement[]} */ ([...group.querySelectorAll("[data-column]")]);
    this.boxes = boxes.filter((box) => group.contains(box.row));
  }

  /** Brings heads and rows up to date with the boxes. */
  show() {
    const columns = new Set();
    for (const box of this.boxes) {
      const [, column, number] = /** @type {RegExpExecArray} */ (/^(.*)_(\d+)$/.exec(box.symbol));
      const first = /** @type {Box} */ (this.boxes.find((it) => it.symbol === `${column}_1`));
      box.row.hidden = first.row.hidden;
      if (!box.row.hidden) columns.add(column);
      const head = this.heads.find((it) => it.dataset.column === column);
      if (!head || number !== "1") continue;
      head.hidden = box.row.hidden;
      const unit = head.querySelector(".unit");
      if (unit) unit.textContent = box.unit.textContent;
    }
    if (this.heads.length) this.group.dataset.columns = String(columns.size);
    const last = this.lines.findLastIndex((line) => this.boxes.some((box) => line.contains(box.row) && box.isInUse));
    this.lines.forEach((line, i) => (line.hidden = i > last + 1));
  }
}
