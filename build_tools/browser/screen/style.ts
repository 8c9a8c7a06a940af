// style.ts: how the panel with the cards looks; the colours are the page's. Knows nothing.
export const STYLE = `
dialog { width: min(1100px, 96vw); max-height: 96vh; box-sizing: border-box; padding: 16px; border: 1px solid var(--wa-edge);
  border-radius: 4px; background: var(--wa-paper); color: var(--wa-ink); font: 400 15px/1.4 var(--wa-label); }
dialog::backdrop { background: rgb(0 0 0 / 60%); }
.stage { display: grid; place-items: center; }
.stage svg { background: repeating-conic-gradient(#888 0 25%, #aaa 0 50%) 0 0 / 24px 24px; }
.stage svg { display: block; width: auto; height: auto; max-width: 100%; max-height: 62vh; }
.stage:fullscreen { background: #000; }
.stage:fullscreen svg { background: none; width: 100vw; height: 100vh; max-height: none; }
.row { display: flex; flex-wrap: wrap; gap: 8px; align-items: end; margin: 0 0 12px; }
.row:last-child { margin: 12px 0 0; align-items: center; }
label { display: grid; gap: 2px; color: var(--wa-soft); font-size: 13px; }
label.wide { flex: 1 1 18rem; }
input, select, button { min-height: 44px; box-sizing: border-box; padding: 4px 12px; border: 1px solid var(--wa-edge);
  border-radius: 2px; background: var(--wa-field); color: var(--wa-ink); font: 500 15px/1.2 var(--wa-label); }
input, select { font-weight: 400; }
button { cursor: pointer; }
button:disabled { opacity: 0.5; cursor: default; }
:focus-visible { outline: 3px solid var(--wa-focus, currentcolor); outline-offset: 2px; }
output, p { flex: 1 1 12rem; margin: 0; color: var(--wa-soft); font-size: 13px; }
`;
