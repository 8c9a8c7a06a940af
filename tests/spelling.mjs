// spelling.mjs: says which of the words that come in, one a line, British English does not know. Knows no text.
import { readFileSync } from "node:fs";
import dictionary from "dictionary-en-gb";
import nspell from "nspell";

const british = nspell(dictionary);
const unknown = readFileSync(0, "utf8").split("\n").filter((word) => word && !british.correct(word));
process.stdout.write(unknown.join("\n"));
