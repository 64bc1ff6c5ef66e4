// Keeps cases in this browser: IndexedDB, one record a case. See records.js for what is in one.

import {drawer, exchange} from "./drawer.js";
import {isNewer, upgraded} from "./records.js";

const inStore = drawer("dryjoint", "cases");
const swap = exchange("dryjoint", "cases");

/** Write a case over the revision it was made from, and read it back.
 *
 * Gives {outcome, record}: "kept" with its new revision; "behind" with what another window wrote
 * meanwhile, which stays; "failed" when nothing could be stored.
 */
export async function keep(record) {
  let other = null;
  try {
    const written = await swap(record.id, (stored) => {
      const isBehind = stored && (isNewer(stored) || (stored.revision ?? 0) !== record.revision);
      if (isBehind) other = stored;
      return isBehind ? null : {...record, revision: record.revision + 1};
    });
    if (!written) return {outcome: "behind", record: other};
    const back = await inStore("readonly", (store) => store.get(record.id));
    const isSafe = JSON.stringify(back) === JSON.stringify(written);
    if (isSafe) askToPersist();
    return {outcome: isSafe ? "kept" : "failed", record: written};
  } catch {
    return {outcome: "failed", record};
  }
}

/** Change some fields of a kept case, whichever window wrote it last; gives the record, or null. */
export function amend(id, fields, isCounted = true) {
  return swap(id, (stored) => {
    if (!stored || isNewer(stored)) return null;
    const record = upgraded(stored);
    return {...record, ...fields, revision: record.revision + Number(isCounted)};
  });
}

/** Return all kept cases, the last one used first; those of a newer version as they are. */
export async function kept() {
  try {
    const records = await inStore("readonly", (store) => store.getAll());
    // `changed` is for people, to the second; cases begun in one second need more.
    records.sort((a, b) => (b.used ?? 0) - (a.used ?? 0) || String(b.changed).localeCompare(String(a.changed)));
    return records.map(upgraded);
  } catch {
    return [];
  }
}

/** Return one kept case, undefined when there is none such. */
export async function keptCase(id) {
  const record = await inStore("readonly", (store) => store.get(id));
  return record && upgraded(record);
}

export async function forget(id) {
  await inStore("readwrite", (store) => store.delete(id));
}

/** Ask the browser, once there is something to lose, not to clear away what is kept. */
function askToPersist() {
  navigator.storage?.persist?.().catch(() => false);
}

/** Say whether the browser promised to keep the cases: true, false, or null when it does not say. */
export async function isPersistent() {
  try {
    return await navigator.storage.persisted();
  } catch {
    return null;
  }
}
