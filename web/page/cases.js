// Keeps cases in this browser: IndexedDB, one record {id, log, undone, changed, used} a case.

const STORE = "cases";

function open() {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open("dryjoint", 1);
    request.onupgradeneeded = () => request.result.createObjectStore(STORE, {keyPath: "id"});
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

async function inStore(mode, work) {
  const database = await open();
  try {
    return await new Promise((resolve, reject) => {
      const request = work(database.transaction(STORE, mode).objectStore(STORE));
      request.onsuccess = () => resolve(request.result);
      request.onerror = () => reject(request.error);
    });
  } finally {
    database.close();
  }
}

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
