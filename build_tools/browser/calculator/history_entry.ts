// history_entry.ts: keeps inputs with this entry of the browser's history, so that back, forward and reload find them again.
// Knows no form. Is never handed a private input, and nothing of it reaches a server or another page.

type Kept = Record<string, Record<string, string>>;

interface State {
  workedAnswers?: Kept;
}

const PAUSE_MS = 300; // browsers limit how often an entry may be written
let waiting: Kept = {};
let timer = 0;
let written = -PAUSE_MS;

/**
 * After a pause, as soon as the result is painted: browsers take some milliseconds over an entry. While typing goes on,
 * now and then; and when the page is left.
 */
export function remember(prefix: string, inputs: Record<string, string>): void {
  waiting[prefix] = inputs;
  clearTimeout(timer);
  const rest = written + PAUSE_MS - performance.now();
  if (rest <= 0) requestAnimationFrame(() => window.setTimeout(write, 0));
  else timer = window.setTimeout(write, rest);
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

export function recall(prefix: string): Record<string, string> | undefined {
  return (history.state as State | null)?.workedAnswers?.[prefix];
}
