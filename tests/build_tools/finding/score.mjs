// score.mjs: runs lists of searches through the finder, an order a line. Knows the finder's door; knows no expectation.
import { createInterface } from "node:readline";

const DENSE = 100; // letters of a search that come one by one; a text that nobody types comes on by so many at once
const finders = new Map(); // by index
for await (const line of createInterface({ input: process.stdin })) {
  const { finder, number, index, searches, most } = JSON.parse(line);
  const { Finder } = await import(finder);
  if (!finders.has(number)) finders.set(number, new Finder(index));
  const made = finders.get(number);
  const found = searches.map((typed) => {
    const { hits, sure, subject } = made.find(typed, most);
    return { pages: hits.map((hit) => hit.entry.page), scores: hits.map((hit) => hit.score), sure, subject };
  });
  // every beginning of every search, as it comes about under the fingers
  const before = performance.now();
  let strokes = 0;
  for (const typed of searches) {
    for (let end = 2; end <= typed.length; end += end < DENSE ? 1 : DENSE, strokes++) made.find(typed.slice(0, end));
  }
  console.log(JSON.stringify({ found, stroke_ms: (performance.now() - before) / Math.max(1, strokes) }));
}
