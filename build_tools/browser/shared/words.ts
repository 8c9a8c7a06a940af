// words.ts: every sentence that the page's script says. Knows no page and no engine.

export const STARTING = "The calculator is starting. Go on reading or typing; the result follows.";
export const STARTING_SLOWLY = (come: number, all: number): string => {
  const [here, whole] = [(come / 1e6).toFixed(1), (all / 1e6).toFixed(1)];
  if (all <= 0) {
    return Number(here) > 0
      ? `The calculator is on its way, this first time: ${here} MB so far. Go on reading or typing.`
      : "The calculator is still starting, this first time. Go on reading or typing.";
  }
  if (here === whole) return "The calculator has arrived and is starting, this first time. Go on reading or typing.";
  return `The calculator is on its way, this first time: ${here} of ${whole} MB. Go on reading or typing.`;
};
export const WORKING = "Working it out.";
export const DOES_NOT_MATCH = "The result below still belongs to the earlier values.";
export const MEND_INPUTS = (count: number): string =>
  count === 1
    ? "One value needs another look. The result below still belongs to the earlier values."
    : `${count} values need another look. The result below still belongs to the earlier values.`;

const BUILT_STAYS = "The result below is the one worked out when this page was made; the common cases still work.";
export const BLOCKED_BY_POLICY = `This site's security policy does not let the calculator run (it needs 'wasm-unsafe-eval'). ${BUILT_STAYS}`;
export const BROWSER_TOO_OLD = `This browser cannot run the calculator (it has no WebAssembly). ${BUILT_STAYS}`;
export const NOT_LOADED = `The calculator could not be loaded. Change a value to try again. ${BUILT_STAYS}`;
export const NOT_STARTED_IN_TIME = `The calculator did not start within two minutes. Change a value to try again. ${BUILT_STAYS}`;
export const TOOK_TOO_LONG =
  "This calculation took more than ten seconds and was stopped. The result below still belongs to the earlier values.";
export const FAULT =
  "Something in this calculator is broken, and the mistake is ours, not yours. The result below still belongs to the earlier values.";

export const COPY_LINK = "Copy link";
export const COPY_TEXT = "Copy as text";
export const THIS_IS_WRONG = "This is wrong";
export const PUT_ON_SCREEN = "Put on screen";
export const NOT_ON_SCREEN = "The cards did not load. Try again.";
export const COPIED_LINK = "Link copied. It holds your values.";
export const COPIED_TEXT = "Result copied as text.";
export const COPIED_REPORT = "Copied.";
export const NOT_COPIED = "This browser would not copy. Mark the text and copy it yourself.";
export const REPORT_INTRO = "Write what you think is right, and why. The rest is filled in.";
export const REPORT_INTRO_NOWHERE =
  "Write what you think is right, and why. Then copy it, and send it where you found the link to this page.";
export const REPORT_LABEL = "What to send";
export const SEND_REPORT = "Send it to the programme";
export const REPORT_SUBJECT = (page: string): string => `A correction: ${page}`;
export const COPY_REPORT = "Copy";
export const REPORT_ASK = "What I think is right, and why:";
export const OWN_RESULT = "Your result"; // in place of "Example", once a value has been changed
// Titles of the strip with the headline, which stands at a phone's lower edge while the result is out of sight.
export const YOUR_RESULT = "Your result. Tap to see all of it";
export const EXAMPLE_RESULT = "The example. Tap to see all of it";
export const MEND_STRIP = (count: number): string =>
  count === 1 ? "One value needs another look" : `${count} values need another look`;
export const WORKING_YOURS = "Working out your numbers";
export const NOT_WORKED_OUT = "Not worked out for these values. Tap to see why";
export const LIGHT = "Light page";
export const DARK = "Dark page";

export const FROM_LINK = "These are the values from the link you followed.";
export const LINK_UNKNOWN = (keys: string[]): string =>
  `The link also named ${list(keys)}, which this calculator does not know; that part was left out.`;
export const LINK_WRONG_CALCULATOR = (name: string): string =>
  `The link you followed is for a calculator that is not on this page (${name}).`;
export const LINK_MOVED =
  "Today’s answer differs from the one this link was made for: the calculator has been corrected or extended since.";

/** "a", "a and b", "a, b and c" */
function list(parts: string[]): string {
  const quoted = parts.map((part) => `“${part.length > 40 ? `${part.slice(0, 40)}…` : part}”`);
  const last = quoted.pop() ?? "";
  return quoted.length ? `${quoted.join(", ")} and ${last}` : last;
}

export const PICTURE_ALONE = "Picture alone on the screen";
export const LEAVE_PICTURE = "Close (Escape)";
export const PICTURE_EXACT = "One image pixel to one screen pixel.";
export const PICTURE_COMING = "The larger picture is on its way.";
export const PICTURE_TOO_LARGE = (width: number, height: number): string =>
  `Larger than the ${width} × ${height} pixels here: its left top part is shown.`;
export const FILL_SCREEN = (width: number, height: number): string => `Fill the screen (${width} × ${height})`;

export const CHOOSE_FILE = "Or choose the file; it is read on this device and goes nowhere";
export const FILE_TOO_LARGE = "That file is too large to be one. Choose another";

// The whole site kept for reading offline: what a page says of it at its foot.
const megabytes = (n: number): string => `${n < 10 ? n.toFixed(1) : Math.round(n)} MB`;
export const KEEPING = (done: number, all: number): string =>
  `Read offline: ${megabytes(done)} of ${megabytes(all)} have arrived.`;
export const KEPT = (all: number): string => `Read offline: ready. This browser keeps the whole site, ${megabytes(all)}.`;
export const KEPT_AND_NEWER = (all: number): string =>
  `Read offline: ready, ${megabytes(all)}. A newer edition has arrived; it shows once every page of this one is closed.`;
export const NEWER_NOT_KEPT = (all: number): string =>
  `Read offline: ready, ${megabytes(all)}. A newer edition exists, but did not arrive whole; the next visit tries again.`;
export const NO_ROOM_FOR_NEWER =
  "Read offline: this browser has no room for the newer edition, so the older one has been let go. " +
  "The next page comes from the network; free some space if you want to read offline.";
export const NOT_KEPT = "Read offline: not everything arrived; the next visit tries again.";
export const NO_ROOM = (all: number): string =>
  `Read offline: this browser has no room for the whole site, ${megabytes(all)}. Free some space, then try again.`;
export const LARGE = (all: number): string => `Read offline: the whole site has ${megabytes(all)}.`;
export const NEWER_IS_LARGE = (all: number): string =>
  `Read offline: a newer edition exists, and has ${megabytes(all)}; until it is kept, the older one shows.`;
export const KEEP_ALL = (all: number): string => `Keep the whole site here, ${megabytes(all)}`;
export const TRY_AGAIN = "Try again";
export const KEEPING_BEGINS = "Read offline: the site is on its way.";
