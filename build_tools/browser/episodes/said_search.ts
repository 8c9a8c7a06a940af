// said_search.ts: searches all that was said, on the list of episodes. Knows the list's markup; fetches nothing.

const LEAST = 2; // letters; one finds everything
const counted = (count: number): string =>
  count === 0 ? "Nothing that was asked or said holds these words." : count === 1 ? "1 question." : `${count} questions.`;

/** A text as it is compared: small letters, no accents, plain blanks. */
export const plain = (text: string): string =>
  text
    .normalize("NFKD")
    .replace(/[\u0300-\u036f]/g, "")
    .toLowerCase()
    .replace(/\s+/g, " ");

/** Whether a text holds every word that was typed, in any order. */
export function holds(text: string, typed: string): boolean {
  const all = plain(text);
  return plain(typed)
    .split(" ")
    .every((word) => all.includes(word));
}

/** Show the questions that hold the words, with what was said; all of them, and nothing said, where too little is typed. */
function show(list: Element, typed: string, status: Element): void {
  const asks = typed.trim().length >= LEAST;
  let count = 0;
  for (const episode of list.querySelectorAll<HTMLElement>(".wa-one-episode")) {
    const title = episode.querySelector("h2")?.textContent ?? "";
    let any = false;
    for (const row of episode.querySelectorAll<HTMLLIElement>("li[data-said]")) {
      row.querySelector(".wa-said")?.remove();
      const said = row.dataset["said"] ?? "";
      const fits = !asks || holds(`${title} ${row.textContent} ${said}`, typed);
      row.hidden = !fits;
      any ||= fits;
      if (!asks || !fits) continue;
      count += 1;
      if (!said) continue;
      const line = document.createElement("p");
      line.className = "wa-said";
      line.textContent = said;
      row.append(line);
    }
    episode.hidden = !any;
  }
  status.textContent = asks ? counted(count) : "";
}

function wake(form: HTMLFormElement): void {
  const [list, field, status] = [form.parentElement, form.querySelector("input"), form.querySelector("[role=status]")];
  if (!list || !field || !status) return;
  form.hidden = false;
  form.addEventListener("submit", (event) => event.preventDefault());
  field.addEventListener("input", () => show(list, field.value, status));
  if (field.value) show(list, field.value, status); // the browser has kept it on the way back
}

if (typeof document !== "undefined") document.querySelectorAll<HTMLFormElement>(".wa-said-search").forEach(wake);
