// score.mjs: runs lists of searches through the finder. Knows the finder's door; knows no expectation.
import { readFileSync } from "node:fs";

const { finder, index, searches, most } = JSON.parse(readFileSync(0, "utf-8"));
const { Finder } = await import(finder);
const made = new Finder(index);
const found = searches.map((typed) => {
  const { hits, sure, subject } = made.find(typed, most);
  return { pages: hits.map((hit) => hit.entry.page), scores: hits.map((hit) => hit.score), sure, subject };
});
// every beginning of every search, as it comes about under the fingers
const before = performance.now();
let strokes = 0;
for (const typed of searches) for (let end = 2; end <= typed.length; end++, strokes++) made.find(typed.slice(0, end));
console.log(JSON.stringify({ found, stroke_ms: (performance.now() - before) / Math.max(1, strokes) }));
