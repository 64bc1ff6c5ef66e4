// Holds the case on screen: keeps it, opens another one, goes back and forth in it.
import {amend, keep, kept, keptCase} from "./cases.js";
import {localTime} from "./device.js";
import {aboutOf, isNewer, newerWords} from "./records.js";
import {say} from "./screen.js";
import {tellWindows, warn} from "./windows.js";

const LOST = "This browser does not let the page keep the case: save it as a file before you leave.";

/** Keep the case on screen; what another window wrote meanwhile is not overwritten. */
export async function save(desk) {
  const mine = {...desk.current(), changed: localTime(), used: Date.now(), deleted: "", line: null};
  const {outcome, record} = await keep(mine);
  if (outcome === "behind") return warn("behind", mine.id);
  desk.take(record);
  if (outcome === "failed") return say(LOST, true);
  return tellWindows("kept", record);
}

/** Open a kept case in a view; one of a newer version is left alone, and that is said. */
export async function openKept(desk, id, nextView) {
  const record = await keptCase(id);
  if (!record) return say("This case is no longer kept in this browser.", true);
  if (isNewer(record)) return say(newerWords, true);
  desk.take(record);
  tellWindows("open", record);
  return desk.show(nextView, "title");
}

/** Begin the case anew as one of a kind that is settled now; the one before goes into the bin. */
export async function settleKind(desk, family, nextView) {
  const before = desk.current();
  await desk.begin(family, before.log.inputs, nextView, aboutOf(before));
  await amend(before.id, {deleted: localTime()});
}

/** Go on with the case used last, if there is one. */
export async function resume(desk) {
  const last = (await kept()).find((record) => !record.deleted && !isNewer(record));
  if (!last) return undefined;
  desk.take(last);
  tellWindows("open", last);
  return desk.show({screen: last.log.inputs.length ? "bench" : "symptoms"});
}

/** Return what the first screen tells of the cases kept here. */
export async function summaries() {
  const records = (await kept()).filter((record) => !record.deleted);
  return records.map(({id, log, changed, title, ...record}) => ({
    id, changed, title, is_newer: isNewer(record), family: log?.family ?? "", steps: log?.inputs?.length ?? 0,
  }));
}

/** Take an input from the log to those undone, or back. */
async function travel(desk, moved, inputs, undoneAfter) {
  if (!moved) return undefined;
  const current = desk.current();
  desk.take({...current, log: {...current.log, inputs}, undone: undoneAfter(moved)});
  await desk.show({...desk.view(), check: null});
  return save(desk);
}

export const holdingActs = (desk) => ({
  undo: () => {
    const {log: {inputs}, undone} = desk.current();
    return travel(desk, inputs.at(-1), inputs.slice(0, -1), (last) => [...undone, last]);
  },
  redo: () => {
    const {log: {inputs}, undone} = desk.current();
    return travel(desk, undone.at(-1), [...inputs, undone.at(-1)], () => undone.slice(0, -1));
  },
  "open-case": ({id}) => openKept(desk, id, {screen: "bench"}),
  "forget-case": async ({id}) => {
    const gone = await amend(id, {deleted: localTime()});
    if (!gone) return say(newerWords, true);
    tellWindows("kept", gone);
    if (desk.current()?.id === id) desk.take(null);
    await desk.show({screen: "home"}, "title");
    return say("Deleted. It can be brought back on the shelf of cases.", true);
  },
});
