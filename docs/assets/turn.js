/*
 * Turning pages without a reload, over http: the next page's text takes the place of this one's, and the calculators'
 * engine goes on running. From a disk, with a modified click, with anything unexpected: an ordinary visit.
 */
"use strict";

(() => {
  if (!location.protocol.startsWith("http")) return;

  /**
   * The parts of a page that differ from page to page; a page without one of them is not ours to turn. `main` holds the
   * focus and goes first: a browser that loses the focus lays out at once whatever was changed before.
   */
  const PARTS = ["main", "[data-md-component=skip]", ".site-name", ".site-foot"];
  const ANSWER_MS = 50; // so long a page waits for its sheet's first answer, and no longer
  const site = new URL(".", /** @type {HTMLScriptElement} */ (document.currentScript).src.replace(/assets\/[^/]*$/, ""));
  const build = (/** @type {Document} */ page) => page.querySelector("meta[name=build]")?.getAttribute("content");

  /** @type {Map<string, Promise<Document>>} pages asked for early, because a pointer or the focus came near */
  const early = new Map();
  let shownAt = location.pathname;
  /** Counts where the reader wanted to go: only the newest is shown. */
  let turns = 0;

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
      page.then(foretell, () => early.delete(address));
      early.set(address, page);
    }
    return page;
  }

  /** Has the first numbers of a page ready that may be shown next. A copy tells what its sheet will ask. @param {Document} page */
  function foretell(page) {
    const sheet = page.querySelector("calculator-sheet");
    if (sheet) /** @type {any} */ (window).engine?.foresee?.(() => document.importNode(sheet, true).foretell?.() ?? []);
  }

  /** @param {EventTarget | null} target @returns {URL | null} where a link on this site leads, if to another page */
  function leadsTo(target) {
    const link = target instanceof Element ? target.closest("a[href]") : null;
    if (!(link instanceof HTMLAnchorElement) || link.target || link.hasAttribute("download")) return null;
    const to = new URL(link.href);
    const ours = to.origin === site.origin && to.pathname.startsWith(site.pathname);
    return ours && to.pathname.endsWith(".html") && to.pathname !== location.pathname ? to : null;
  }

  /** Lets a sheet ask before it stands in the page: its numbers come while nothing has to be laid out. @param {any} sheet */
  async function answered(sheet) {
    if (!sheet?.prepare || /** @type {any} */ (window).engine?.state !== "ready") return;
    await Promise.race([sheet.prepare(), new Promise((resolve) => setTimeout(resolve, ANSWER_MS))]);
  }

  /** Shows what was kept back of the page, if anything was. */
  let showRest = () => {};

  /**
   * Keeps back what stands below a sheet's answer, most of a page's layout: below the window's edge a frame later is early
   * enough. Needs the page not to be shown yet. @param {Element} sheet @returns {() => void} what shows it
   */
  function keepRest(sheet) {
    const steps = /** @type {HTMLElement | null} */ (sheet.querySelector(".steps"));
    if (steps) steps.hidden = true;
    const range = new Range();
    range.setStartAfter(sheet);
    range.setEndAfter(/** @type {ChildNode} */ (sheet.parentNode?.lastChild));
    const rest = range.extractContents();
    return () => {
      if (steps) steps.hidden = false;
      sheet.after(rest);
    };
  }

  /** Whether the reader would see the rest come. @param {Element} sheet */
  function seesRest(sheet) {
    const edge = (sheet.querySelector(".working") ?? sheet).getBoundingClientRect().bottom;
    return document.hidden || edge <= innerHeight;
  }

  /** @param {Document} page @param {string} hash @param {() => boolean} wanted whether the reader has not gone on meanwhile */
  async function show(page, hash, wanted) {
    const pairs = PARTS.map((part) => [document.querySelector(part), page.querySelector(part)]);
    if (build(page) !== build(document) || pairs.some(([old, fresh]) => !old !== !fresh)) throw new Error("another page");
    for (const [, fresh] of pairs) if (fresh) document.adoptNode(fresh);
    const [main] = pairs.map(([, fresh]) => fresh);
    const [, named] = /^#c=([\w-]+)/.exec(hash) ?? []; // a link with numbers: to the sheet that they fill
    const sheet = main?.querySelector(named ? `:is(calculator-sheet, record-sheet)[key="${named}"]` : "calculator-sheet");
    if (sheet) customElements.upgrade(sheet);
    await answered(sheet);
    if (!wanted()) {
      /** @type {any} */ (sheet)?.disconnectedCallback?.();
      return;
    }
    showRest = sheet && (named || !hash) ? keepRest(sheet) : () => {};
    document.title = page.title;
    for (const [old, fresh] of pairs) if (old && fresh) old.replaceWith(fresh);
    for (const script of page.querySelectorAll("script[src]")) {
      const address = script.getAttribute("src") ?? "";
      if (document.querySelector(`script[src="${CSS.escape(address)}"]`)) continue;
      const added = document.createElement("script");
      added.src = address;
      added.async = false;
      document.body.append(added);
    }
    shownAt = location.pathname;
    const place = named ? sheet : hash && document.getElementById(decodeURIComponent(hash.slice(1)));
    const title = document.querySelector("main h1");
    const goThere = () => (place ? place.scrollIntoView() : scrollTo(0, 0));
    goThere();
    if (sheet && seesRest(sheet)) {
      showRest();
      goThere();
    } else requestAnimationFrame(() => setTimeout(showRest)); // the sheet is painted by then
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
    const mine = (turns += 1);
    const wanted = () => mine === turns;
    try {
      const page = await ask(to.href.split("#")[0]);
      early.delete(to.href.split("#")[0]);
      if (!wanted()) return;
      if (remember) history.pushState(null, "", to);
      await show(page, to.hash, wanted);
      if (wanted()) tell("");
    } catch (error) {
      if (!wanted()) return;
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
  addEventListener("beforeprint", () => showRest());
  addEventListener("popstate", () => {
    turns += 1;
    if (location.pathname !== shownAt) turn(new URL(location.href), false);
  });
})();
