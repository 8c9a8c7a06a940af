// idle.ts: finds a moment when fetching the engine disturbs nobody. Knows the browser's connection; knows no engine.

interface Connection {
  saveData?: boolean;
  effectiveType?: string;
  type?: string;
}

/** Call back once the page is complete and idle, unless the reader pays for bytes or has few of them. */
export function whenIdle(begin: () => void): void {
  const connection = (navigator as Navigator & { connection?: Connection }).connection;
  if (connection?.saveData || connection?.type === "cellular" || /2g|3g/.test(connection?.effectiveType ?? "")) return;
  const wait = (): void => {
    if ("requestIdleCallback" in window) requestIdleCallback(() => begin(), { timeout: 4000 });
    else setTimeout(begin, 1500);
  };
  if (document.readyState === "complete") wait();
  else window.addEventListener("load", wait, { once: true });
}
