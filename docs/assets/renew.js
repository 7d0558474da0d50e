/*
 * Puts a fragment that calc made in the place of the one before by changing only what differs. A new answer is the old
 * one with other figures: nodes that stay cost the page no new layout, and keep focus and selection.
 */
"use strict";

/** Writes a text unless it stands there: a browser lays out anew even what is written over with itself. */
function renewText(/** @type {Element} */ place, /** @type {string} */ text) {
  if (place.textContent !== text) place.textContent = text;
}

/** @type {(place: Element, html: string) => void} makes `place` hold what the fragment says */
const renew = (() => {
  /** @type {WeakMap<Element, string>} what was put in a place last */
  const put = new WeakMap();

  /** @param {Element} old @param {Element} fresh */
  function takeAttributes(old, fresh) {
    for (const { name } of [...old.attributes]) if (!fresh.hasAttribute(name)) old.removeAttribute(name);
    for (const { name, value } of fresh.attributes) if (old.getAttribute(name) !== value) old.setAttribute(name, value);
  }

  /** @param {Node} old @param {Node} fresh */
  function takeChildren(old, fresh) {
    const wanted = [...fresh.childNodes];
    const standing = [...old.childNodes];
    if (standing.length !== wanted.length) {
      /** @type {Element} */ (old).replaceChildren(...wanted);
      return;
    }
    wanted.forEach((node, at) => takeNode(/** @type {ChildNode} */ (standing[at]), node));
  }

  /** @param {ChildNode} old @param {ChildNode} fresh */
  function takeNode(old, fresh) {
    if (old.isEqualNode(fresh)) return;
    if (old instanceof Text && fresh instanceof Text) old.data = fresh.data;
    else if (old instanceof Element && fresh instanceof Element && old.tagName === fresh.tagName) {
      takeAttributes(old, fresh);
      takeChildren(old, fresh);
    } else old.replaceWith(fresh);
  }

  return (place, html) => {
    if (put.get(place) === html) return;
    put.set(place, html);
    const holder = document.createElement("template");
    holder.innerHTML = html;
    takeChildren(place, holder.content);
  };
})();
