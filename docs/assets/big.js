/*
 * Big view, for a projector: of one sheet only drawing, numbers and formula, in large type. Escape leaves it. It remembers
 * nothing; what was typed stays in the sheet.
 */
"use strict";

/** @param {HTMLElement} host a sheet @param {HTMLElement} from the control that had the focus */
function showBig(host, from) {
  const page = document.documentElement;
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
