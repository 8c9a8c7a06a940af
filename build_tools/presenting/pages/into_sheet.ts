// into_sheet.ts: the small form in a page of the served site that writes a question into an episode's sheet. Knows what
// the server takes; knows no calculator's form and no desk.
import { button, element } from "./dom";
import { ask, post, type WithErrors } from "./server";
import { WhereInSheet, writtenInto, type Written } from "./where_in_sheet";
import * as words from "./words";

/** A question as it is about to be written. */
export interface Question {
  calculator: string;
  inputs: Record<string, string>;
  question: string;
  answer: string;
  /** What these numbers give, for who is about to write them. */
  headline: string;
}

interface Catalogue extends WithErrors {
  pages: Record<string, string[]>;
  episodes: { number: number; title: string }[];
}

let chosen = ""; // the episode written to last: the next question most often goes there, too

/** Open the form; what is wrong is told in it. It stands at once, and which episodes there are follows. */
export async function open(of: Question): Promise<void> {
  const form = element("form", "into-sheet");
  const [episode, page, how, segment] = [element("select"), element("select"), element("select"), element("select")];
  const question = element("textarea");
  question.rows = 3;
  question.value = of.question;
  const viewer = element("input");
  viewer.autocomplete = "off";
  const consent = element("input");
  consent.type = "checkbox";
  const status = element("p", "told");
  status.setAttribute("role", "status");
  const write = element("button", "into-write", words.WRITE_INTO);
  write.disabled = true;
  status.textContent = words.ASKING_SHEETS;
  const window = element("dialog", "into-sheet-window");
  const title = element("h2", "", words.INTO_EPISODE);
  const whose = [
    element("label", "", words.WHO_ASKED, viewer), element("label", "tick", consent, words.AGREED),
    element("label", "", words.VIEWERS_WORDS, question),
  ];
  form.append(
    title, element("label", "", words.EPISODE_OF, episode), element("label", "", words.AS_WHAT, how),
    element("label", "", words.WHICH_QUESTION, segment), whose[2]!,
    element("label", "", words.ANSWER_PAGE, page), element("p", "values", words.VALUES(Object.keys(of.inputs).length, of.headline)),
    whose[0]!, whose[1]!,
    status, element("p", "acts", write, button(words.LEAVE_IT, () => window.close())),
  );
  const where = new WhereInSheet(how, segment, () => {
    for (const each of whose) each.hidden = !where.isNew; // a question that stands there has words and a viewer
  });
  episode.addEventListener("change", () => void where.read(Number(episode.value)));
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    write.disabled = true; // one press writes once
    const body = {
      ...of, ...where.body, question: question.value, answer: page.value, episode: Number(episode.value), viewer: viewer.value,
      consent: consent.checked,
    };
    void post<Written>("into", body).then((reply) => {
      write.disabled = reply.segment !== undefined;
      chosen = episode.value;
      status.textContent = reply.segment ? writtenInto(reply as Written, body.episode) : errorText(reply);
    });
  });
  window.setAttribute("aria-label", words.INTO_EPISODE);
  window.append(form);
  window.addEventListener("close", () => window.remove());
  document.body.append(window);
  window.showModal();
  const catalogue = await ask<Catalogue>("catalogue");
  const episodes = (catalogue.episodes ?? []).filter(({ number }) => number > 0).reverse();
  fill(episode, episodes.map(({ number, title }) => [String(number), `${number}. ${title}`]), chosen);
  fill(page, (catalogue.pages?.[of.calculator] ?? []).map((name) => [name, name]), of.answer);
  await where.read(Number(episode.value));
  write.disabled = !episodes.length;
  status.textContent = catalogue.errors?.length ? errorText(catalogue) : episodes.length ? "" : words.NO_EPISODE;
}

const errorText = (reply: WithErrors): string => (reply.errors ?? []).map(({ message }) => message).join("\n");

function fill(list: HTMLSelectElement, options: [string, string][], value: string): void {
  list.replaceChildren(...options.map(([key, label]) => new Option(label, key)));
  if (options.some(([key]) => key === value)) list.value = value;
}
