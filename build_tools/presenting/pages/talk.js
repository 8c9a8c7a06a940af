// talk.js: asks the local server. Knows addresses; knows no page.
"use strict";
const onAir = {
  async post(name, body) {
    try {
      const reply = await fetch(`/on-air/${name}`, {
        method: "POST",
        headers: { "Content-Type": "application/json" },
        body: JSON.stringify(body),
      });
      return await reply.json();
    } catch {
      return { errors: [{ input: "", message: "The local server does not answer. Is it still running?" }] };
    }
  },
  ask(what, more = {}) {
    return this.post("ask", { what, ...more });
  },
  // Keys that act on the page must not act while somebody types.
  typing(event) {
    return event.ctrlKey || event.metaKey || event.altKey
      || (event.target instanceof Element && event.target.closest("input, select, textarea") !== null);
  },
};
