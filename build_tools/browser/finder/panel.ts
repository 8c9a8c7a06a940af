// panel.ts: where the finder's own script begins. Fetched by finder.ts; wakes a page's own box at once.
import { open } from "./box";
import { wakeHome } from "./home";

window.workedAnswersFinder = { open };
wakeHome(document);
