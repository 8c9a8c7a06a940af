// words.ts: what desk, run sheet, picture and prompter say. Knows how times are written.
import * as times from "./times";

/** A number and its unit stay on one line, for who reads aloud: U+00A0 between them. */
export const together = (text: string): string => text.replace(/(\d) (?=[^\s\d]{1,5}(?:[\s,.;:]|$))/g, "$1\u00a0");

export const GONE = "The local server does not answer. What is on the picture cannot be told, and keys do nothing, until it does.";
export const CLEAR = "Picture is clear";
export const NOT_KNOWN = "Asking what is on the picture";
export const ON = "On the picture";
export const ON_FROZEN = "On the picture, frozen";
export const ON_OTHER = "On the picture: another card";
export const SHOWS = (at: number, all: number, what: string): string => `On the picture, ${at} / ${all}: ${what}`;
export const NOT_KEPT = "The disk is full or read-only: after a restart the picture would be clear.";
export const NOTHING_PREPARED = "Nothing prepared yet";
export const REFUSED = "This cannot be taken: a value needs another look.";
export const PLACE = (at: number, all: number, name: string): string => `${at} of ${all}: ${name}`;
export const SIZE = (name: string, width: number, height: number): string => `${name}, ${width} × ${height}`;
export const CHANGED = "The site has been built anew since this page came: load it again for the quickest answers.";
export const LAST_IN_LINE = "That was the last card in line.";
export const FIRST_STEP = "This is its first step.";
export const EMPTY_LINE = "No card stands in line yet.";
export const PREPARE = "Prepare";
export const EARLIER = "Earlier";
export const LATER = "Later";
export const TAKE_OUT = "Take out";
export const NO_EPISODE = "There is no episode sheet yet: python3 -m build_tools new episode “…”";
export const NO_PAGE = "no page shows it";
export const WRITTEN_INTO = (segment: number, episode: number): string =>
  `It stands in the sheet of episode ${episode} now, as question ${segment}.`;
export const NEW_NUMBERS_INTO = (segment: number, lined: number): string =>
  `Question ${segment} has these numbers now${lined ? ", and so has its card in line" : ""}. If it was taken down as said before, take it down again; once published, correct it.`;
export const BESIDE_INTO = (segment: number, taken: string[]): string =>
  `It stands beside question ${segment} now${taken.length ? `, with the question's own: ${taken.join(", ")}` : ""}. Line up the episode's questions to have its card in line.`;
export const AS_NEW = "a new question";
export const AS_NUMBERS = "new numbers for a question in it";
export const AS_BESIDE = "a further calculator beside a question in it";
export const AS_WHAT = "What goes into it";
export const WHICH_QUESTION = "Which question";
export const LAST_CHANGE = "Changed last, by these pages or by a command: + was added, - was taken away.";
export const TAKEN_BACK = "The sheet is as it was before; cards in line are not changed. Look once more if the change is to stand again.";
export const TO_DESK = "To the desk";
export const NOT_THE_RESULT = "The result that stands here does not belong to these numbers yet.";
export const INTO_EPISODE = "Into the episode";
export const ASKING_SHEETS = "Looking which sheets there are.";
export const EPISODE_OF = "Episode";
export const VIEWERS_WORDS = "The question, in the viewer's words";
export const ANSWER_PAGE = "Answer page";
export const VALUES = (count: number, headline: string): string =>
  `${count === 1 ? "Its number is" : count ? `Its ${count} numbers are` : "None of the viewer's numbers is"} written with it. They give: ${headline}`;
export const WHO_ASKED = "Who asked (handle)";
export const AGREED = "They agreed to be named. Otherwise the sheet says 'anonymous'.";
export const WRITE_INTO = "Write it into the sheet";
export const LEAVE_IT = "Close";
export const ELSEWHERE = (address: string, code: string, tries: number): string =>
  tries > 0
    ? `Prompter on another device: ${address} with the code ${code.slice(0, 3)} ${code.slice(3)}. Wrong codes left: ${tries}.`
    : `Prompter on another device: ${address}. No new device can come in: start serve again for a new code.`;

export const RUN_SHEET = "Run sheet";
export const PREPARE_CARD = "Prepare the card";
export const PREPARE_FURTHER = (title: string): string => `Prepare: ${title}`;
export const NO_SHORT_ANSWER = "No short answer yet.";
export const PASSED_ON = (to: string): string => `Passed on to ${to}`;
export const ABOUT = (time: string): string => `about ${time}`;
export const STARTS_AT = (time: string): string => `starts at ${time}`;
export const MARKED_AT = (time: string): string => `marked ${time}`;
export const ALL_ABOUT = (time: string): string => `To be read: about ${time} in all`;
export const NOT_RECORDING = "Not recording";
export const RECORDING = (what: string, since: string): string => `Recording since ${since}, ${what.toLowerCase()}`;
export const TAKE = (id: number): string => `Take ${id}`;
export const REHEARSAL = (id: number): string => `Rehearsal ${id}`;
export const EPISODE = (id: number): string => `Episode ${id}`;
/** The time of day to a hundredth of a second, and the day, as this machine has them. */
export const CLOCK = (moment: number): string => `${times.clock(moment)}.${times.hundredths(moment)}  ${times.day(moment)}`;
export const SYNC_AT = (moment: number): string => `It was shown at ${times.clock(moment)}.${times.hundredths(moment)}.`;
export const NO_SYNC = "The sync frame came too late to be shown here. Begin another take if you need it.";
export const SYNC_WRITTEN = (time: string): string => `A moment in the recording is written 0:07; got '${time}'.`;
export const BRING_BACK = (what: string): string => `Bring ${what.toLowerCase()} back`;
export const THROWN = "Thrown away, and still kept:";
export const VERDICT = (word: string, reason: string): string => `${word.charAt(0).toUpperCase()}${word.slice(1)}: ${reason}`;
export const TAKE_DOWN = "Take this down as said";
export const OWN_WORDS = "Said beside it, in your own words";
export const IS_TAKEN_DOWN = "taken down as said";
export const NOT_AS_TAKEN_DOWN = "the sheet has something else as said";
export const HAS_TAKEN_DOWN = (segment: number): string => `What stood at question ${segment} is in the sheet as said.`;
export const END_IT = (what: string): string => `${what} is running. End it? R or Enter ends it, Escape goes on.`;
export const THROW_IT = (what: string, when: string, marks: number): string =>
  `Throw ${what.toLowerCase()} away, ${when}, with ${marks === 1 ? "its mark" : `its ${marks} marks`}?`;
export const YES_END = "End it";
export const YES_THROW = "Throw it away";
export const NO = "Go on";
export const THROW_AWAY = "Throw away";
export const LEFT = (time: string): string => `${time} left`;
export const OVER = (time: string): string => `${time} over`;
export const NO_TARGET = "no target";
export const NO_TAKE_RUNS = "No take is running: R begins one.";
export const NO_TAKE = "No take yet";
export const LENGTH = "length, such as 1:30";
export const IN_TAKE = "in the recording";
export const WRITTEN = "The start times stand in the sheet, with the day of this take.";
export const NOT_WRITTEN = "Nothing was written:";
export const WOULD_NOT = "The sheet would not be valid like this:";
export const FAULTY_SHEET = "In this sheet, to be mended before the next build:";
export const OTHER_FAULTS = (count: number): string =>
  count === 1 ? "Another sheet has a mistake, which the check command tells." : `${count} other sheets have mistakes, which the check command tells.`;
export const BEGINNING = "the recording begins";
export const MOVES = (moves: boolean, speed: number, size: number): string =>
  `${moves ? "Moves" : "Stands"}, speed ${speed}, letters ${size}`;
