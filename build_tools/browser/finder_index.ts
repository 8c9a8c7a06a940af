// finder_index.ts: hands the ranking to the page. Fetched, with the index, when somebody searches.
import { Finder } from "./finder_rank";

window.workedAnswersFinder = (index) => new Finder(index);
