// after_frame.ts: does something once the frame that is about to be drawn has been drawn. Knows no page.

const LATEST_MS = 100; // where nothing is drawn: in a tab behind others, or in a window that is covered

/** Call it once: behind the next frame, or before the page is put on paper, where no frame and no timer comes. */
export function afterFrame(act: () => void): void {
  let due = true;
  const once = (): void => {
    if (!due) return;
    due = false;
    window.removeEventListener("beforeprint", once);
    act();
  };
  window.addEventListener("beforeprint", once);
  requestAnimationFrame(() => setTimeout(once));
  setTimeout(once, LATEST_MS);
}
