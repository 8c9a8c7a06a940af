// reload.ts: while serving only, loads the page again when it has changed or what it uses has, and shows why a build
// failed. Knows what listen.ts hears; knows nothing of the page. Never part of the built site.
import { listen } from "./listen";

interface Build {
  build: number;
  assets: string;
  trouble: string;
}

const FAULT = "The newest change has a fault. The built site stays the last good one.";
const { build: first, assets: shown } = document.currentScript?.dataset ?? {};
let seen = Number(first);
let panel: HTMLElement | undefined;

function show(text: string): void {
  if (!panel) {
    panel = document.createElement("div");
    panel.setAttribute("role", "alert");
    panel.id = "wa-build-trouble";
    panel.style.cssText =
      "position:fixed;inset:auto 0 0 0;z-index:9999;max-height:60vh;overflow:auto;padding:1rem 1.5rem;" +
      "background:#2b1113;color:#fff;font:15px/1.5 ui-monospace,monospace;white-space:pre-wrap;" +
      "border-top:4px solid #ff8a80;overflow-wrap:anywhere";
    document.body.append(panel);
  }
  panel.textContent = `${FAULT}\n\n${text}`;
}

function hide(): void {
  panel?.remove();
  panel = undefined;
}

/** The page as it is now, and the build that it came from. */
async function asServed(): Promise<{ text: string; build: string | undefined }> {
  const text = await (await fetch(location.pathname, { cache: "no-store" })).text();
  const own = /<script src="\/_serving\/reload\.js" data-build="(\d+)"[^>]*><\/script>/;
  return { text: text.replace(own, ""), build: own.exec(text)?.[1] };
}

const loaded = asServed();
loaded.catch(() => undefined); // then every build loads the page again

async function differs(): Promise<boolean> {
  try {
    const [before, now] = [await loaded, await asServed()];
    return before.build !== first || before.text !== now.text;
  } catch {
    return true;
  }
}

async function heard({ build, assets, trouble }: Build): Promise<void> {
  if (trouble) return show(trouble);
  hide();
  if (build === seen) return;
  seen = build;
  if (assets !== shown || (await differs())) location.reload();
}

listen((topics) => {
  if (topics["build"]) void heard(topics["build"] as Build);
});
