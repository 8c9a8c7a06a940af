// idle.ts: finds a moment when fetching the engine disturbs nobody. Knows the browser's connection; knows no engine.

interface Connection {
  saveData?: boolean;
  effectiveType?: string;
  type?: string;
}

/** Whether megabytes may be fetched that nobody has asked for: not where the reader pays for them or has few. */
export function mayFetchUnasked(): boolean {
  const connection = (navigator as Navigator & { connection?: Connection }).connection;
  return !(connection?.saveData || connection?.type === "cellular" || /2g|3g/.test(connection?.effectiveType ?? ""));
}

/** Call back once the page is complete and idle. */
export function whenIdle(begin: () => void): void {
  const wait = (): void => {
    if ("requestIdleCallback" in window) requestIdleCallback(() => begin(), { timeout: 4000 });
    else setTimeout(begin, 1500);
  };
  if (document.readyState === "complete") wait();
  else window.addEventListener("load", wait, { once: true });
}
