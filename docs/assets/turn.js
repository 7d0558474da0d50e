/*
 * Turning pages without a reload, over http: the next page's text takes the place of this one's, and the calculators'
 * engine goes on running. From a disk, with a modified click, with anything unexpected: an ordinary visit.
 */
"use strict";

(() => {
  if (!location.protocol.startsWith("http")) return;

  /** The parts of a page that differ from page to page; a page without one of them is not ours to turn. */
  const PARTS = ["[data-md-component=skip]", "main", ".site-name", ".site-foot"];
  const site = new URL(".", /** @type {HTMLScriptElement} */ (document.currentScript).src.replace(/assets\/[^/]*$/, ""));
  const build = (/** @type {Document} */ page) => page.querySelector("meta[name=build]")?.getAttribute("content");

  /** @type {Map<string, Promise<Document>>} pages asked for early, because a pointer or the focus came near */
  const early = new Map();
  let shownAt = location.pathname;

  /** @param {string} address without '#' @returns {Promise<Document>} */
  async function fetched(address) {
    // Without a connection, a page that was read before may still lie in the browser's cache; show() compares its build.
    const answer = await fetch(address).catch(() => fetch(address, { cache: "force-cache" }));
    if (!answer.ok) throw new Error(`${answer.status}`);
    return new DOMParser().parseFromString(await answer.text(), "text/html");
  }

  /** @param {string} address */
  function ask(address) {
    let page = early.get(address);
    if (!page) {
      page = fetched(address);
      page.catch(() => early.delete(address));
      early.set(address, page);
    }
    return page;
  }

  /** @param {EventTarget | null} target @returns {URL | null} where a link on this site leads, if to another page */
  function leadsTo(target) {
    const link = target instanceof Element ? target.closest("a[href]") : null;
    if (!(link instanceof HTMLAnchorElement) || link.target || link.hasAttribute("download")) return null;
    const to = new URL(link.href);
    const ours = to.origin === site.origin && to.pathname.startsWith(site.pathname);
    return ours && to.pathname.endsWith(".html") && to.pathname !== location.pathname ? to : null;
  }

  /** @param {Document} page @param {string} hash */
  function show(page, hash) {
    const pairs = PARTS.map((part) => [document.querySelector(part), page.querySelector(part)]);
    if (build(page) !== build(document) || pairs.some(([old, fresh]) => !old !== !fresh)) throw new Error("another page");
    document.title = page.title;
    for (const [old, fresh] of pairs) if (old && fresh) old.replaceWith(document.adoptNode(fresh));
    for (const script of page.querySelectorAll("script[src]")) {
      const address = script.getAttribute("src") ?? "";
      if (document.querySelector(`script[src="${CSS.escape(address)}"]`)) continue;
      const added = document.createElement("script");
      added.src = address;
      added.async = false;
      document.body.append(added);
    }
    shownAt = location.pathname;
    const [, sheet] = /^#c=([\w-]+)/.exec(hash) ?? []; // a link with numbers: to the sheet that they fill
    const place = sheet
      ? document.querySelector(`:is(calculator-sheet, record-sheet)[key="${sheet}"]`)
      : hash && document.getElementById(decodeURIComponent(hash.slice(1)));
    const title = document.querySelector("main h1");
    if (place) place.scrollIntoView();
    else scrollTo(0, 0);
    if (title instanceof HTMLElement) {
      title.tabIndex = -1; // a screen reader goes on from the new page's title
      title.focus({ preventScroll: true });
    }
  }

  /** A line above the page, until the next page is there. @param {string} words */
  function tell(words) {
    document.querySelector(".no-connection")?.remove();
    if (!words) return;
    const line = document.createElement("p");
    line.className = "missing-file no-connection";
    line.setAttribute("role", "alert");
    line.textContent = words;
    document.body.prepend(line);
  }

  /** @param {URL} to @param {boolean} remember whether the address is a new step in the history */
  async function turn(to, remember) {
    try {
      const page = await ask(to.href.split("#")[0]);
      early.delete(to.href.split("#")[0]);
      if (remember) history.pushState(null, "", to);
      show(page, to.hash);
      tell("");
    } catch (error) {
      if (error instanceof TypeError && !navigator.onLine && remember) {
        tell("There is no connection, so that page cannot be fetched. This one goes on working.");
        return;
      }
      location.assign(to);
      if (location.pathname === to.pathname) location.reload();
    }
  }

  document.addEventListener("click", (event) => {
    const to = leadsTo(event.target);
    const plain = event.button === 0 && !(event.ctrlKey || event.metaKey || event.shiftKey || event.altKey);
    if (!to || !plain || event.defaultPrevented) return;
    event.preventDefault();
    turn(to, true);
  });
  for (const near of ["pointerover", "focusin"]) {
    document.addEventListener(near, ({ target }) => {
      const to = leadsTo(target);
      if (to) ask(to.href.split("#")[0]).catch(() => {});
    });
  }
  addEventListener("popstate", () => {
    if (location.pathname !== shownAt) turn(new URL(location.href), false);
  });
})();
