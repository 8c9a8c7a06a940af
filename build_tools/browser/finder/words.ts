// words.ts: every sentence that the finder says. Knows no page.
export const FIND = "Find an answer";
export const FIND_HOW = "For example: 240hz hdmi, headphones too quiet";
export const FIND_OR_ASK = "Find an answer, or ask in your own words";
export const ASK_HOW = "For example: got 2x8 GB 3200, can I add 2x16? Or paste what your system prints.";
export const PASTE_HELD = "What you pasted is read in this page and leaves it nowhere.";
export const CLOSE = "Close";
export const COMING = "The list of answers is on its way.";
export const NOT_COME = "The list of answers did not come. Type again to try once more, or look through";
export const ALL_QUESTIONS = "all questions";
export const FOUND = (count: number): string => (count === 1 ? "One answer" : `${count} answers, the nearest first`);
export const WEAK = "Nothing here fits all of that. The nearest:";
export const NONE = "Nothing here answers that.";
export const LOST = "From the address that led nowhere:";
export const NEAREST = "The nearest subject here:";
export const SUBJECTS = "Subjects here:";
export const ASK = "Ask the programme";
export const ASK_SUBJECT = "A question";
