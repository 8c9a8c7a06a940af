// words.ts: every sentence that the plan's script says. Knows no page.

export const DONE = (done: number, all: number): string =>
  done === all
    ? "All steps of the first plan done. If it did not work, go on below it."
    : `${done} of ${all} steps of the first plan done.`;
export const NEXT = (title: string): string => `Next: ${title}`;
export const KEPT = "Your ticks are in this page's address. Bookmark it, or take it along, before you restart.";
export const PRINT = "Print the plan";
export const UNTICK = "Untick all";
export const TAKE_ALONG = "Take it along: point a phone at this code";
export const QR_LABEL = "QR code of this page's address, with your answers and ticks";
export const THIS_MACHINE_ONLY =
  "This page comes from the machine itself, so its address leads nowhere on a phone: print the plan, or open the page at its public address.";
export const TOO_LONG = "The address has grown too long for a code. Bookmark this page, or print the plan.";
export const COPY = "Copy";
export const COPIED = "Copied";
export const NOT_COPIED = "Not copied: mark it";

export const NOTES_TITLE = "To write down by hand, never a key or a password";
export const NOTES: Record<string, string[]> = {
  key_number: ["Number of the disk's key"],
  package: ["Package, old", "Package, new"],
  version: ["Driver version before", "Driver version after"],
  restore_point: ["Restore point"],
  account: ["Administrator's account"],
};
/** Of what a step says, what is printed: the reasons stay in the page. */
export const CAREFUL = "Careful:";
export const AFTERWARDS = ["You should see:", "If not:", "Way back:"];
export const NOTHING_TO_SAY = "Nothing changes here";
/** The line that a safe start cannot do without, so it is printed even where a step is printed short. */
export const SAFE_CONSOLE = "Open a console: press Ctrl, Shift and Esc"; // calculators/drivers/plans/consoles.py writes it so
export const AS_STEP = (number: number): string => `(as step ${number})`;
