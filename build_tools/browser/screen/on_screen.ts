// on_screen.ts: fetches the script that puts a result on the screen, when it is asked for. Knows no card.
import { bring } from "../shared/load_script";
import type { Reply } from "../engine/client";

/** What that script needs: the question, the result's link, and a way to have its frames drawn. */
export interface Wanted {
  /** The page's heading, for which the answer was written. */
  question: string;
  /** The link with the inputs. */
  link: string;
  draw: (options: object) => Promise<Reply | undefined>;
}

declare global {
  interface Window {
    workedAnswersScreen?: (wanted: Wanted) => void;
  }
}

const HERE = document.currentScript instanceof HTMLScriptElement ? document.currentScript.src : document.baseURI;

/** Open the panel. Rejects where its script does not come; the next try fetches it again. */
export async function putOnScreen(wanted: Wanted): Promise<void> {
  await bring(new URL("screen.js", HERE).href);
  window.workedAnswersScreen?.(wanted);
}
