// home.ts: finds a question in the list of questions as one types. Knows titles and subjects; knows no answer.
import * as words from "./words";

/** Put a field before a list of all subjects' questions that hides what does not hold every word typed. */
export function wakeQuestions(root: ParentNode): void {
  for (const list of root.querySelectorAll<HTMLElement>(".wa-questions")) {
    if (list.previousElementSibling?.classList.contains("wa-find") || !list.querySelector("h2")) continue;
    const entries = [...list.querySelectorAll("li")].map((item) => ({ item, text: searchable(item) }));
    const box = document.createElement("div");
    box.className = "wa-find";
    const label = document.createElement("label");
    label.htmlFor = "wa-find";
    label.textContent = words.FIND_QUESTION;
    const field = document.createElement("input");
    field.id = "wa-find";
    field.type = "search";
    field.autocomplete = "off";
    const count = document.createElement("output");
    count.htmlFor.add("wa-find");
    field.addEventListener("input", () => {
      const wanted = plain(field.value).split(/\s+/).filter(Boolean);
      let found = 0;
      for (const { item, text } of entries) {
        item.hidden = !wanted.every((word) => text.includes(word));
        if (!item.hidden) found++;
      }
      for (const subject of list.querySelectorAll<HTMLElement>(".wa-subject")) {
        subject.hidden = !subject.querySelector("li:not([hidden])");
      }
      count.textContent = wanted.length ? words.FOUND_QUESTIONS(found) : "";
    });
    box.append(label, field, count);
    list.before(box);
  }
}

/** What may be searched for: the question, its subject, and the words that its entry lists for this. */
function searchable(item: HTMLElement): string {
  const subject = item.closest(".wa-subject")?.querySelector("h2")?.textContent ?? "";
  return plain(`${subject} ${item.textContent} ${item.dataset["words"] ?? ""}`);
}

const plain = (text: string): string => text.toLowerCase().normalize("NFKD").replace(/\p{M}/gu, "");
