// asking.ts: where the script of the box that reads whole questions begins. Fetched by box.ts once a question is typed.
import { mayFetchUnasked } from "../engine/idle";
import { type Answer, type Asked, Reader } from "./reader";
import { View } from "./view";
import * as words from "./words";

/** What the box lets this script do. */
export interface Box {
  root: string;
  place: HTMLElement;
  title(page: string): string;
  /** Put these pages first among the hits. */
  lead(pages: string[]): void;
}

export interface Asking {
  /** Read a text; an empty one takes away what stands there. `pasted`: it is not shown anywhere else. */
  read(text: string, pasted?: boolean): void;
}

declare global {
  interface Window {
    workedAnswersAsking?: (box: Box) => Asking;
  }
}

const PAUSE_MS = 350; // so long nobody types who has finished a thought
const SLOWLY_MS = 1500;

function begin(box: Box): Asking {
  const reader = new Reader(box.root);
  const view = new View(box.root, (page) => box.title(page), change);
  let allowed = mayFetchUnasked();
  let turn = 0;
  let timer = 0;
  let held = ""; // what was pasted: corrections need it, and nothing else gets it
  box.place.append(view.element);

  function read(text: string, pasted = false): void {
    clearTimeout(timer);
    turn++;
    held = pasted ? text : "";
    if (!text.trim()) return view.clear();
    if (!allowed) return offer(text, pasted);
    if (!reader.ready) view.tell(words.READING);
    timer = window.setTimeout(() => void ask({ text }), pasted ? 0 : PAUSE_MS);
  }

  /** On a connection that costs, only when asked to. */
  function offer(text: string, pasted: boolean): void {
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = words.READ_IT;
    button.addEventListener("click", () => {
      allowed = true;
      button.remove();
      read(text, pasted);
    });
    if (!box.place.querySelector(":scope > button")) box.place.append(button);
  }

  async function ask(order: Parameters<Reader["ask"]>[0]): Promise<void> {
    const mine = ++turn;
    const slowly = setInterval(() => {
      if (mine === turn && !reader.ready) view.tell(words.READING_SLOWLY(reader.progress.come, reader.progress.all));
    }, SLOWLY_MS);
    try {
      const asked = await reader.ask(order);
      if (mine === turn && asked) take(asked, "text" in order);
    } catch (trouble) {
      console.warn("The question could not be read:", trouble);
      if (mine === turn) view.tell(words.NO_READER);
    } finally {
      clearInterval(slowly);
    }
  }

  function take(asked: Asked, whole: boolean): void {
    view.show(asked);
    if (whole) box.lead(asked.answers.map(({ page }) => page).filter(Boolean));
  }

  function change(answer: Answer, inputs: Record<string, string>): void {
    const hidden = (answer.read ?? []).filter((field) => field.private).map((field) => [field.key, held] as const);
    void ask({ page: answer.page, calculator: answer.calculator ?? "", inputs: { ...inputs, ...Object.fromEntries(hidden) } });
  }

  return { read };
}

window.workedAnswersAsking = begin;
