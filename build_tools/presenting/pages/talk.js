// talk.js: asks the local server, and shows its drawings. Knows addresses; knows no page.
"use strict";
const onAir = {
  token: document.querySelector("meta[name=run-token]").content,

  async send(name, body) {
    return fetch(`/on-air/${name}`, {
      method: "POST",
      headers: { "Content-Type": "application/json", "Run-Token": this.token },
      body: JSON.stringify(body),
    });
  },

  // A server that was started again has another token; this page's own address tells it.
  async renew() {
    const page = await (await fetch(location.pathname, { cache: "no-store" })).text();
    const found = /<meta name="run-token" content="([\w-]+)">/.exec(page)?.[1];
    const other = found !== undefined && found !== this.token;
    if (other) this.token = found;
    return other;
  },

  async post(name, body) {
    try {
      let reply = await this.send(name, body);
      if (reply.status === 403 && (await this.renew())) reply = await this.send(name, body);
      if (reply.ok) return await reply.json();
      return { errors: [{ input: "", message: (await reply.text()).trim() }] };
    } catch {
      return { errors: [{ input: "", message: "The local server does not answer. Is it still running?" }] };
    }
  },

  ask(what, more = {}) {
    return this.post("ask", { what, ...more });
  },

  newest: new WeakMap(), // by place, the picture asked for last

  // As a picture: whatever a drawing holds, nothing in it runs or loads.
  async draw(place, { svg, words }) {
    const address = URL.createObjectURL(new Blob([svg], { type: "image/svg+xml" }));
    const image = new Image();
    image.alt = words;
    image.src = address;
    this.newest.set(place, image);
    await image.decode().catch(() => undefined); // so that one picture takes the other's place without a gap
    if (this.newest.get(place) === image) place.replaceChildren(image);
    URL.revokeObjectURL(address);
  },

  empty(place, words) {
    this.newest.delete(place);
    place.replaceChildren(words);
  },

  // Keys that act on the page must not act while somebody types.
  typing(event) {
    return event.ctrlKey || event.metaKey || event.altKey
      || (event.target instanceof Element && event.target.closest("input, select, textarea") !== null);
  },
};
