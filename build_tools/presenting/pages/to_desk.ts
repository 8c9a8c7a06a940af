// to_desk.ts: while serving only, in the site's own pages: hands a result to the desk. Knows a result's link; knows no
// desk. Never part of the built site.
import * as link from "../../browser/calculator/link";

const TO_DESK = "To the desk";

/** The desk's address with what stands in this page; private inputs are in no link. */
function address(section: HTMLElement): string {
  const carried = link.read(section.dataset["link"] ?? "");
  const heading = document.querySelector("h1")?.firstChild?.textContent?.trim() ?? "";
  const page = /^\/answers\/(.+)\.html$/.exec(decodeURI(location.pathname))?.[1] ?? "";
  const handed = new URLSearchParams({
    calculator: section.dataset["calculator"] ?? "",
    inputs: JSON.stringify(carried?.inputs ?? {}),
    question: heading,
    answer: page,
  });
  return `/on-air/desk#${handed}`;
}

function wake(): void {
  for (const section of document.querySelectorAll<HTMLElement>("section.wa-calculator")) {
    const button = document.createElement("button");
    button.type = "button";
    button.className = "wa-action";
    button.textContent = TO_DESK;
    button.addEventListener("click", () => window.open(address(section), "desk"));
    section.querySelector(".wa-actions")?.append(button);
  }
}

// The page's own script fills the row of buttons first.
if (document.readyState === "complete") wake();
else window.addEventListener("load", wake, { once: true });
