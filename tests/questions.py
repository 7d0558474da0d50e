"""What a page asks its worker, seen from outside the engine."""

from playwright.sync_api import Page

LISTEN = """
  window.asked = [];     // each question that was sent to a worker
  window.answered = [];  // the numbers of those that a worker has answered
  window.workers = 0;
  window.whenAsked = () => {};
  const Whole = window.Worker;
  window.Worker = class extends Whole {
    constructor(...options) {
      super(...options);
      if (options[1]?.name === "engine") workers += 1; // not the one that unpacks
      this.addEventListener("message", ({ data }) => { if (data.id !== undefined) answered.push(data.id); });
    }
    postMessage(message, ...rest) {
      if (message.question) asked.push({ id: message.id, ...JSON.parse(message.question) });
      super.postMessage(message, ...rest);
      if (message.question) whenAsked(asked.at(-1));
    }
  };
  window.stride = 0;     // what the page's clock goes on by when it is read: this machine's load must not count
  let time = 0;
  performance.now = () => (time += stride);
"""
"""A script that runs before the page's own."""

ALL_ANSWERED = "answered.length === asked.length"

FRAMES = """async () => {
  for (let left = 10; left; left -= 1) await new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve)));
}"""


def frames(page: Page) -> None:
    """Some frames pass with a task after each, so that the page asks what it asks by itself."""
    page.evaluate(FRAMES)
