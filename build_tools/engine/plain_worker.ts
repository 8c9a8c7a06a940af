// plain_worker.ts: the slow worker, fetched where the quick one fails: starts Python from nothing, as its runtime comes.
import "./no_network";
import { work } from "./at_work";
import { plainStart } from "./plain";

work("plain", "files", async (told, wasm) => plainStart(wasm, (await told).files));
