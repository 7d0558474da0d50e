/* Prints one part of a page alone: while it does, marks on elements tell the style sheets what to leave out. */
"use strict";

/** @param {[HTMLElement, string, string][]} marks element, name of its data attribute, value */
function printAlone(...marks) {
  if (!marks.every(([element]) => element.isConnected)) return; // the page was turned meanwhile
  for (const [element, name, value] of marks) element.dataset[name] = value;
  addEventListener(
    "afterprint",
    () => {
      for (const [element, name] of marks) delete element.dataset[name];
    },
    { once: true },
  );
  print();
}
