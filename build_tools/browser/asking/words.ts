// words.ts: every sentence of the box that reads whole questions. Knows no page.
export const READING = "Your whole question is being read, which takes a moment this first time. The list below works already.";
export const READING_SLOWLY = (come: number, all: number): string => {
  const [here, whole] = [(come / 1e6).toFixed(1), (all / 1e6).toFixed(1)];
  return all > 0 && here !== whole ? `To read your whole question, this first time: ${here} of ${whole} MB have come.` : READING;
};
export const READ_IT = "Read my question (about 6 MB, once)";
export const WE_READ = "We read";
export const NOTHING_READ = "No numbers of yours were read.";
export const PASTED = (title: string): string => `Pasted: ${title}`;
export const HELD = "What you pasted is read here, in this page, and shown to nobody.";
export const CHANGE = (label: string, said: string): string => `${label}: ${said}. Change it`;
export const THROW_OUT = (label: string): string => `Throw out: ${label}`;
export const STILL_TO_SAY = "Still to say, if you know it";
export const ASSUMED = (said: string): string => `taken: ${said}`;
export const CHOOSE = "not said";
export const FILLED_IN = "All of it, with what to do and why";
export const WHOLE_PAGE = "The answer";
export const FIRST = "First of all";
export const NO_READER = "The question could not be read here; the list below still works.";
export const VERDICTS: Record<string, string> = { yes: "Yes", no: "No", depends: "Depends" };
export const READING_LISTING = "It is being read.";
export const A_LABEL = "a line from a label";
export const NO_LISTING = "Nothing was read from that. Paste the whole text, or type the numbers above.";
export const NO_READER_HERE = "It could not be read here; the fields above still work.";
export const NOT_TOLD = "not told: assumed";
export const PUT_IN = "Put these into the form";
export const PUT_IN_DONE = (count: number): string =>
  `${count === 1 ? "One value stands" : `${count} values stand`} in the form above. Look them over.`;
