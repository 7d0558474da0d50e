/*
 * Big view, for a projector: of one sheet only drawing, numbers and formula, in large type. Escape leaves it. It remembers
 * nothing; what was typed stays in the sheet.
 */
"use strict";

/** Its style sheet, which lies beside this file. @type {Promise<Event>} */
const bigStyle = new Promise((resolve, reject) => {
  const style = document.createElement("link");
  style.rel = "stylesheet";
  style.href = /** @type {HTMLScriptElement} */ (document.currentScript).src.replace("big.js", "big.css");
  style.onload = resolve;
  style.onerror = reject; // whole.js tells the reader
  document.head.append(style);
});

/** @param {HTMLElement} host a sheet @param {HTMLElement} from the control that had the focus */
async function showBig(host, from) {
  await bigStyle;
  const page = document.documentElement;
  if ("big" in page.dataset || !host.isConnected) return; // a second click, or the page was turned meanwhile
  const leave = document.createElement("button");
  const leaving = new AbortController();
  const { signal } = leaving;

  function end() {
    leaving.abort();
    leave.remove();
    delete page.dataset.big;
    delete host.dataset.big;
    from.focus({ preventScroll: true });
    host.scrollIntoView();
  }

  leave.type = "button";
  leave.className = "leave-big";
  leave.textContent = "Leave big view (Esc)";
  leave.addEventListener("click", end, { signal });
  addEventListener("keydown", ({ key }) => key === "Escape" && end(), { signal });
  addEventListener("popstate", end, { signal });
  addEventListener("hashchange", end, { signal });
  page.dataset.big = "";
  host.dataset.big = "";
  host.prepend(leave);
  leave.focus({ preventScroll: true });
  scrollTo(0, 0);
}
