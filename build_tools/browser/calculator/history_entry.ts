// history_entry.ts: keeps inputs with this entry of the browser's history, so that back, forward and reload find them again.
// Knows no form. Is never handed a private input, and nothing of it reaches a server or another page.

type Kept = Record<string, Record<string, string>>;

interface State {
  workedAnswers?: Kept;
}

const REST_MS = 300; // browsers limit how often an entry may be written, and take some milliseconds over it
const LATEST_MS = 3000; // while typing goes on
let waiting: Kept = {};
let timer = 0;
let written = -LATEST_MS;
let handed = -REST_MS;

/**
 * The first after a rest as soon as its result is painted; what follows once typing rests, so that no keystroke waits for
 * it; now and then while it goes on; and when the page is left or hidden.
 */
export function remember(prefix: string, inputs: Record<string, string>): void {
  const now = performance.now();
  waiting[prefix] = inputs;
  clearTimeout(timer);
  if (now - handed >= REST_MS) requestAnimationFrame(() => (timer = window.setTimeout(write, 0)));
  else timer = window.setTimeout(write, Math.max(0, Math.min(REST_MS, written + LATEST_MS - now)));
  handed = now;
}

function write(): void {
  clearTimeout(timer);
  if (Object.keys(waiting).length === 0) return;
  const state = (history.state ?? {}) as State;
  try {
    history.replaceState({ ...state, workedAnswers: { ...state.workedAnswers, ...waiting } }, "");
  } catch {
    // a browser that cannot, or has been asked too often: only going back forgets
  }
  waiting = {};
  written = performance.now();
}
window.addEventListener("pagehide", write);
document.addEventListener("visibilitychange", () => document.hidden && write()); // a hidden page may be ended unheard

export function recall(prefix: string): Record<string, string> | undefined {
  return (history.state as State | null)?.workedAnswers?.[prefix];
}
