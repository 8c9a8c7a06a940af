// words.ts: every sentence that the finder says. Knows no page.
export const FIND = "Find an answer";
export const FIND_HOW = "For example: 240hz hdmi, headphones too quiet";
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
