// Keeps cases in this browser: IndexedDB, one record {id, log, undone, changed, used} a case.

import {drawer} from "./drawer.js";

const inStore = drawer("dryjoint", "cases");

/** Write a case and read it back; false when it did not arrive. */
export async function keep(record) {
  try {
    await inStore("readwrite", (store) => store.put(record));
    const back = await inStore("readonly", (store) => store.get(record.id));
    return JSON.stringify(back) === JSON.stringify(record);
  } catch {
    return false;
  }
}

/** Return all kept cases, the last one used first. */
export async function kept() {
  try {
    const records = await inStore("readonly", (store) => store.getAll());
    // `changed` is for people, to the second; cases begun in one second need more.
    return records.sort((a, b) => (b.used ?? 0) - (a.used ?? 0) || b.changed.localeCompare(a.changed));
  } catch {
    return [];
  }
}

export async function forget(id) {
  await inStore("readwrite", (store) => store.delete(id));
}
